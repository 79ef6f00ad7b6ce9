package web

import (
	"context"
	"fmt"
	"strings"
	"sync"
	"time"

	"gusset/internal/cloth"
	"gusset/internal/draw"
	"gusset/internal/finding"
	"gusset/internal/lay"
	"gusset/internal/making"
	"gusset/internal/store"
)

// rounds and seed are how long a lay is looked for before the user asks for
// more, the same as the command's.
const (
	rounds = 200
	seed   = 1
)

// made is what has been made of a docket at one change of the workroom.
type made struct {
	change int64
	key    string // of the versions of all files that it may depend on
	in     making.Inputs
	opened finding.List  // what was found on reading
	drawn  making.Result // up to Finish
	full   making.Result // up to Needs, of these inputs or of earlier ones
	whole  bool          // there is a full result
	stale  bool          // and it is of earlier inputs
}

// findings are those of reading and of every stage that is up to date.
func (m made) findings() finding.List {
	if m.whole && !m.stale {
		return append(m.opened[:len(m.opened):len(m.opened)], m.full.Findings...)
	}
	return append(m.opened[:len(m.opened):len(m.opened)], m.drawn.Findings...)
}

// news is what a table tells those who watch it.
type news struct {
	Kind    string  `json:"kind"` // "made", "changed", "look" or "better"
	Change  int64   `json:"change,omitempty"`
	Role    string  `json:"role,omitempty"`
	Plan    string  `json:"plan,omitempty"`
	Length  float64 `json:"length,omitempty"` // mm
	Words   string  `json:"words,omitempty"`
	Seconds float64 `json:"seconds"`
}

// table is where one docket is worked on.
type table struct {
	name  string
	desk  *desk
	lock  sync.Mutex
	made  made
	busy  context.CancelFunc // stops the work behind; nil when there is none
	turn  int                // counts works behind, so that an old one keeps quiet
	look  bool               // the work behind is looking for better lays
	since time.Time
	watch map[chan news]bool
	drawn drawnSheets
}

// drawnSheets are the sheets of a make as they were last asked for.
type drawnSheets struct {
	of    string // what they were drawn from
	files map[string][]byte
	found finding.List
}

// sheets draws the sheets of what is made on some paper, once.
func (t *table) sheets(m made, paper draw.Paper) (map[string][]byte, finding.List, error) {
	of := m.key + m.full.Digest + paper.Name
	t.lock.Lock()
	kept := t.drawn
	t.lock.Unlock()
	if kept.of == of {
		return kept.files, kept.found, nil
	}
	files, found, err := making.Sheets(m.in, m.full, paper)
	if err != nil {
		return nil, nil, err
	}
	t.lock.Lock()
	t.drawn = drawnSheets{of, files, found}
	t.lock.Unlock()
	return files, found, nil
}

// desk holds the tables of all dockets, and lets only so many searches run at
// once.
type desk struct {
	store  *store.Store
	ctx    context.Context
	now    func() time.Time
	search chan struct{}
	lock   sync.Mutex
	tables map[string]*table
	works  sync.WaitGroup
}

func newDesk(ctx context.Context, s *store.Store, now func() time.Time, searches int) *desk {
	return &desk{store: s, ctx: ctx, now: now, search: make(chan struct{}, max(1, searches)), tables: map[string]*table{}}
}

func (d *desk) table(name string) *table {
	d.lock.Lock()
	defer d.lock.Unlock()
	t := d.tables[name]
	if t == nil {
		t = &table{name: name, desk: d, watch: map[chan news]bool{}}
		d.tables[name] = t
	}
	return t
}

// docketPath is the file of a docket.
func docketPath(name string) string { return "dockets/" + name + ".yaml" }

// depends reports whether the make of a docket may depend on a file.
func depends(file, docket string) bool {
	folder, _, _ := strings.Cut(file, "/")
	switch folder {
	case "bodies", "cloths", "machines", "methods", "patterns":
		return true
	}
	return file == docketPath(docket)
}

// keyOf names the versions of all files that a docket may depend on.
func keyOf(snap *store.Snapshot, docket string) string {
	var b strings.Builder
	for _, p := range snap.Paths() {
		if depends(p, docket) {
			v, _ := snap.Version(p)
			fmt.Fprintf(&b, "%s %d\n", p, v.Change)
		}
	}
	return b.String()
}

// at brings the table to the workroom's last change and gives what is made. The
// error is fs.ErrNotExist when there is no such docket.
func (t *table) at() (made, error) {
	snap, err := t.desk.store.Now(t.desk.ctx)
	if err != nil {
		return made{}, err
	}
	t.lock.Lock()
	defer t.lock.Unlock()
	if t.made.key != "" && t.made.change >= snap.Change() {
		return t.made, nil
	}
	key := keyOf(snap, t.name)
	if t.made.key == key {
		t.made.change = snap.Change()
		return t.made, nil
	}
	in, opened, err := making.Open(snap, docketPath(t.name))
	if err != nil {
		return made{}, err
	}
	m := made{change: snap.Change(), key: key, in: in, opened: opened, full: t.made.full, whole: t.made.whole, stale: true}
	t.stop()
	if opened.Stops() == 0 {
		var old *making.Result
		if t.made.drawn.Digest != "" {
			old = &t.made.drawn
		}
		m.drawn = making.Run(t.desk.ctx, in, making.Finish, making.Effort{}, old)
	}
	t.made = m
	if opened.Stops() == 0 && m.drawn.Findings.Stops() == 0 {
		t.begin(false)
	}
	t.tell(news{Kind: "changed", Change: m.change})
	return t.made, nil
}

// stop ends the work behind. The table is locked.
func (t *table) stop() {
	if t.busy != nil {
		t.busy()
		t.busy = nil
		t.look = false
		t.turn++
	}
}

// begin starts the work behind: making the rest, or looking for better lays
// until it is stopped. The table is locked.
func (t *table) begin(look bool) {
	ctx, cancel := context.WithCancel(t.desk.ctx)
	t.turn++
	t.busy, t.look, t.since = cancel, look, t.desk.now()
	turn, m := t.turn, t.made
	t.desk.works.Go(func() {
		defer cancel()
		select {
		case t.desk.search <- struct{}{}:
			defer func() { <-t.desk.search }()
		case <-ctx.Done():
			return
		}
		if look {
			t.seek(ctx, turn, m)
			return
		}
		t.rest(ctx, turn, m)
	})
}

// effort is how hard a lay is looked for, telling those who watch.
func (t *table) effort() making.Effort {
	return making.Effort{Rounds: rounds, Seed: seed, Report: func(role cloth.Role, p lay.Plan, length float64) {
		t.lock.Lock()
		defer t.lock.Unlock()
		t.tell(news{Kind: "better", Role: string(role), Plan: string(p), Length: length, Seconds: t.desk.now().Sub(t.since).Seconds()})
	}}
}

// rest makes lays, order and needs.
func (t *table) rest(ctx context.Context, turn int, m made) {
	var old *making.Result
	if m.whole {
		old = &m.full
	}
	r := making.Run(ctx, m.in, making.Needs, t.effort(), old)
	if ctx.Err() != nil {
		return
	}
	t.lock.Lock()
	defer t.lock.Unlock()
	if t.turn != turn {
		return
	}
	t.busy = nil
	t.made.full, t.made.whole, t.made.stale = r, true, false
	t.tell(news{Kind: "made", Change: t.made.change, Seconds: t.desk.now().Sub(t.since).Seconds()})
}

// seek looks for better lays, pass after pass, until it is stopped; what each
// pass has found is shown at once.
func (t *table) seek(ctx context.Context, turn int, m made) {
	e := t.effort()
	laid := making.Run(ctx, m.in, making.Lay, e, &m.full)
	for ctx.Err() == nil {
		laid = making.Look(ctx, m.in, laid, e, 1, nil)
		e.Rounds, e.Seed = min(2*e.Rounds, 1<<20), e.Seed+1
		full := laid.On(t.desk.ctx, m.in, making.Needs)
		t.lock.Lock()
		if t.turn == turn {
			t.made.full, t.made.whole, t.made.stale = full, true, false
			t.tell(news{Kind: "look", Change: t.made.change, Seconds: t.desk.now().Sub(t.since).Seconds()})
		}
		t.lock.Unlock()
	}
	t.lock.Lock()
	defer t.lock.Unlock()
	if t.turn == turn {
		t.busy, t.look = nil, false
		t.tell(news{Kind: "made", Change: t.made.change, Seconds: t.desk.now().Sub(t.since).Seconds()})
	}
}

// enough ends a search for better lays; the best that it has found stays. The
// table is locked.
func (t *table) enough() {
	if t.busy != nil && t.look {
		t.busy()
	}
}

// tell gives news to those who watch; one who does not keep up misses some. The
// table is locked.
func (t *table) tell(n news) {
	for ch := range t.watch {
		select {
		case ch <- n:
		default:
		}
	}
}

// working reports whether there is work behind, and since when.
func (t *table) working() (busy, look bool, since time.Time) {
	t.lock.Lock()
	defer t.lock.Unlock()
	return t.busy != nil, t.look, t.since
}

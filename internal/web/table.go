package web

import (
	"context"
	"encoding/json"
	"fmt"
	"log/slog"
	"slices"
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

// usualRounds and seed are how long a lay is looked for before the user asks for
// more, the same as the command's.
const (
	usualRounds = 200
	seed        = 1
)

func (o Options) rounds() int {
	if o.Rounds > 0 {
		return o.Rounds
	}
	return usualRounds
}

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
	told   int64         // counts what was told of it: a page that has another number has missed something
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
	Kind    string  `json:"kind"` // "here", "made", "changed", "look" or "better"
	Change  int64   `json:"change,omitempty"`
	Told    int64   `json:"told,omitempty"`
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

	drawing sync.Mutex
	shown   map[string]drawing
}

// drawing is something drawn for the pages, and what it was drawn from.
type drawing struct {
	of    string
	value any
}

// drawn draws something of a table once: what names it, of is what it is drawn
// from.
func drawn[T any](t *table, what, of string, draw func() T) T {
	t.drawing.Lock()
	d, ok := t.shown[what]
	t.drawing.Unlock()
	if v, same := d.value.(T); ok && same && d.of == of {
		return v
	}
	v := draw()
	t.drawing.Lock()
	defer t.drawing.Unlock()
	if t.shown == nil {
		t.shown = map[string]drawing{}
	}
	t.shown[what] = drawing{of, v}
	return v
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
	log    *slog.Logger
	rounds int
	room   chan struct{} // for work behind the pages: so many at once
	wake   chan struct{} // tells those who search that there is something to do
	lock   sync.Mutex
	tables map[string]*table
	works  sync.WaitGroup
}

func newDesk(ctx context.Context, s *store.Store, o Options) *desk {
	n := max(1, o.Searches)
	d := &desk{store: s, ctx: ctx, now: o.Now, log: o.Log, rounds: o.rounds(), room: make(chan struct{}, n), wake: make(chan struct{}, n), tables: map[string]*table{}}
	for range n {
		d.works.Go(func() { newSeeker(s, o, d.wake).run(ctx) })
	}
	return d
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
	if folder == "lays" {
		return keptFor(file, docket)
	}
	return file == docketPath(docket)
}

// keptFor reports whether a file is where a lay of the docket is kept.
func keptFor(file, docket string) bool {
	role, ok := strings.CutPrefix(file, "lays/"+docket+"-")
	role, yaml := strings.CutSuffix(role, ".yaml")
	return ok && yaml && slices.Contains(cloth.Roles, cloth.Role(role))
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

// under is what a key says of the files of a folder.
func under(key, folder string) string {
	var b strings.Builder
	for line := range strings.Lines(key) {
		if strings.HasPrefix(line, folder+"/") {
			b.WriteString(line)
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
	in, opened, err := making.Again(snap, docketPath(t.name), t.made.in, func(folder string) bool {
		return t.made.key != "" && under(t.made.key, folder) == under(key, folder)
	})
	if err != nil {
		return made{}, err
	}
	if in.Found, err = laysFound(t.desk.ctx, t.desk.store, t.name); err != nil {
		return made{}, err
	}
	m := made{change: snap.Change(), key: key, in: in, opened: opened, full: t.made.full, whole: t.made.whole, stale: true, told: t.made.told}
	t.stop()
	t.openSearch(t.desk.ctx, key) // ends one for what the docket was before
	if opened.Stops() == 0 {
		var old *making.Result
		if t.made.drawn.Digest != "" {
			old = &t.made.drawn
		}
		m.drawn = making.Run(t.desk.ctx, in, making.Finish, making.Effort{}, old)
	}
	t.made = m
	if opened.Stops() == 0 && m.drawn.Findings.Stops() == 0 {
		t.begin(false, t.rest)
	}
	t.tell(news{Kind: "changed", Change: t.made.change})
	return t.made, nil
}

// readAgain has the docket read again when it is next asked for, though none of
// its files has changed.
func (t *table) readAgain() {
	t.lock.Lock()
	defer t.lock.Unlock()
	t.made.key = ""
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

// begin starts the work behind: making the rest, or following a search for
// better lays until it ends. The table is locked.
func (t *table) begin(look bool, work func(ctx context.Context, turn int, m made)) {
	ctx, cancel := context.WithCancel(t.desk.ctx)
	t.turn++
	t.busy, t.look, t.since = cancel, look, t.desk.now()
	turn, m := t.turn, t.made
	t.desk.works.Go(func() {
		defer cancel()
		work(ctx, turn, m)
	})
}

// effort is how hard a lay is looked for, telling those who watch.
func (t *table) effort() making.Effort {
	return making.Effort{Rounds: t.desk.rounds, Seed: seed, Report: func(role cloth.Role, p lay.Plan, length float64) {
		t.lock.Lock()
		defer t.lock.Unlock()
		t.tell(news{Kind: "better", Role: string(role), Plan: string(p), Length: length, Seconds: t.desk.now().Sub(t.since).Seconds()})
	}}
}

// rest makes lays, order and needs, and then follows a search that was asked for
// and has not ended, be it from before the program began.
func (t *table) rest(ctx context.Context, turn int, m made) {
	select {
	case t.desk.room <- struct{}{}:
		defer func() { <-t.desk.room }()
	case <-ctx.Done():
		return
	}
	var old *making.Result
	if m.whole {
		old = &m.full
	}
	r := making.Run(ctx, m.in, making.Needs, t.effort(), old)
	if ctx.Err() != nil {
		return
	}
	x, open := t.openSearch(ctx, m.key)
	t.lock.Lock()
	defer t.lock.Unlock()
	if t.turn != turn {
		return
	}
	t.busy = nil
	t.made.full, t.made.whole, t.made.stale = r, true, false
	if open {
		t.begin(true, func(ctx context.Context, turn int, m made) { t.follow(ctx, turn, m, x) })
	}
	t.tell(news{Kind: "made", Change: t.made.change, Seconds: t.desk.now().Sub(t.since).Seconds()})
}

// openSearch is the search for the docket as it is, if there is one that has not
// ended; one for what it was before is ended.
func (t *table) openSearch(ctx context.Context, key string) (store.Search, bool) {
	x, ok, err := t.desk.store.SearchOf(ctx, t.name)
	if err != nil || !ok || x.Ended {
		return x, false
	}
	var ask wanted
	if err := json.Unmarshal([]byte(x.Asked), &ask); err == nil && ask.Key == key {
		return x, true
	}
	if err := t.desk.store.StopSearch(ctx, t.name); err != nil {
		t.desk.log.Error("search", "docket", t.name, "error", err)
	}
	return x, false
}

// ask has better lays looked for, around those on hand. The table is locked.
func (t *table) ask(hand map[cloth.Role]string) error {
	data, err := json.Marshal(wanted{Change: t.made.change, Key: t.made.key, Hand: hand})
	if err != nil {
		return err
	}
	have := map[string][]byte{} // so that what is found is never longer than what there is
	for role, text := range making.Laid(t.made.in, t.made.full) {
		if _, on := hand[role]; !on {
			have[string(role)] = text
		}
	}
	x, err := t.desk.store.AskSearch(t.desk.ctx, t.name, string(data), have)
	if err != nil {
		return err
	}
	t.begin(true, func(ctx context.Context, turn int, m made) { t.follow(ctx, turn, m, x) })
	select {
	case t.desk.wake <- struct{}{}:
	default: // all are at work
	}
	return nil
}

// followEvery is how often the store is asked how a search goes.
const followEvery = 500 * time.Millisecond

// follow shows what a search has found, wherever it is done, until it ends.
func (t *table) follow(ctx context.Context, turn int, m made, x store.Search) {
	tick := time.NewTicker(followEvery)
	defer tick.Stop()
	var last reached
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		now, ok, err := t.desk.store.SearchOf(ctx, t.name)
		if err != nil {
			continue
		}
		if !ok || now.Number != x.Number {
			now.Ended = true
		}
		st, err := reachedBy(now)
		if err != nil {
			t.desk.log.Error("search", "docket", t.name, "error", err)
		}
		if st.Length != last.Length || st.Role != last.Role || st.Plan != last.Plan {
			t.lock.Lock()
			t.tell(news{Kind: "better", Role: st.Role, Plan: st.Plan, Length: st.Length, Seconds: st.Seconds})
			t.lock.Unlock()
		}
		if st.Passes != last.Passes || now.Ended {
			t.takeFound(turn, m, now.Ended)
		}
		if last = st; now.Ended {
			return
		}
	}
}

// takeFound makes the rest with the lays that are found by now.
func (t *table) takeFound(turn int, m made, ended bool) {
	found, err := laysFound(t.desk.ctx, t.desk.store, t.name)
	if err != nil {
		t.desk.log.Error("search", "docket", t.name, "error", err)
	}
	m.in.Found = found
	full := making.Run(t.desk.ctx, m.in, making.Needs, t.effort(), &m.full)
	t.lock.Lock()
	defer t.lock.Unlock()
	if t.turn != turn || t.desk.ctx.Err() != nil {
		return
	}
	t.made.in, t.made.full, t.made.whole, t.made.stale = m.in, full, true, false
	kind := "look"
	if ended {
		t.busy, t.look, kind = nil, false, "made"
	}
	t.tell(news{Kind: kind, Change: t.made.change, Seconds: t.desk.now().Sub(t.since).Seconds()})
}

// enough ends a search for better lays; the best that it has found stays. The
// table is locked.
func (t *table) enough() error {
	if t.busy == nil || !t.look {
		return nil
	}
	return t.desk.store.StopSearch(t.desk.ctx, t.name)
}

// tell gives news to those who watch; one who does not keep up misses some. The
// table is locked.
func (t *table) tell(n news) {
	if n.Kind != "better" {
		t.made.told++
	}
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

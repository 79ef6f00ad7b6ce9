package web

import (
	"context"
	"fmt"
	"sync"
	"time"

	"gusset/internal/finding"
	"gusset/internal/making"
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
	busy   bool          // there is work behind
	look   bool          // which looks for better lays
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
	shown kept // drawings and leaves
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
		return t.seen(), nil
	}
	key := keyOf(snap, t.name)
	if t.made.key == key {
		t.made.change = snap.Change()
		return t.seen(), nil
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
	return t.seen(), nil
}

// seen is what is made, with what goes on behind it. The table is locked.
func (t *table) seen() made {
	m := t.made
	m.busy, m.look = t.busy != nil, t.look
	return m
}

// state names all that the pages of what is made are written from.
func (m made) state() string { return fmt.Sprint(m.change, m.told, m.busy, m.look) }

// readAgain has the docket read again when it is next asked for, though none of
// its files has changed.
func (t *table) readAgain() {
	t.lock.Lock()
	defer t.lock.Unlock()
	t.made.key = ""
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

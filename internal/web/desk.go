package web

import (
	"context"
	"log/slog"
	"sync"
	"time"

	"gusset/internal/store"
)

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
	quiet  quiet
}

func newDesk(ctx context.Context, s *store.Store, o Options) *desk {
	n := max(1, o.Searches)
	d := &desk{store: s, ctx: ctx, now: o.Now, log: o.Log, rounds: o.rounds(), room: make(chan struct{}, n), wake: make(chan struct{}, n), tables: map[string]*table{}, quiet: newQuiet()}
	for range n {
		d.works.Go(func() { newSeeker(s, o, d.quiet, d.wake).run(ctx) })
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

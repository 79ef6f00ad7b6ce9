package web

import (
	"context"
	"encoding/json"
	"time"

	"gusset/internal/cloth"
	"gusset/internal/lay"
	"gusset/internal/making"
	"gusset/internal/store"
)

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
	return making.Effort{Rounds: t.desk.rounds, Seed: seed, Within: t.desk.quiet.lane, Report: func(role cloth.Role, p lay.Plan, length float64) {
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
	old := []*making.Result{&m.drawn} // which has the first stages already
	if m.whole {
		old = append(old, &m.full)
	}
	var r making.Result
	t.desk.quiet.do(func() {
		if r = making.Run(ctx, m.in, making.Needs, t.effort(), old...); ctx.Err() == nil {
			t.drawAhead(m.in, r)
		}
	})
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
	var full making.Result
	t.desk.quiet.do(func() {
		full = making.Run(t.desk.ctx, m.in, making.Needs, t.effort(), &m.full)
		t.drawAhead(m.in, full)
	})
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

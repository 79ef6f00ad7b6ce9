package web

import (
	"context"
	"crypto/rand"
	"encoding/json"
	"errors"
	"fmt"
	"log/slog"
	"sync"
	"time"

	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/lay"
	"gusset/internal/making"
	"gusset/internal/source"
	"gusset/internal/store"
)

// Long searches are asked for in the store, and whoever serves the same workroom
// may do them: the program that shows the pages, or another machine's (Work).
// What a pass has found is in the store before it is shown, so a search outlasts
// whoever was at it.

// wanted is what a search is to do, as the store keeps it.
type wanted struct {
	Change int64                 `json:"change"` // of the workroom
	Key    string                `json:"key"`    // of the files that the docket depends on
	Hand   map[cloth.Role]string `json:"hand,omitempty"`
}

// reached is how far a search has come, as the store keeps it.
type reached struct {
	Passes  int     `json:"passes"`
	Found   bool    `json:"found"` // lays of this search are kept
	Role    string  `json:"role,omitempty"`
	Plan    string  `json:"plan,omitempty"`
	Length  float64 `json:"length,omitempty"` // mm, of the last better lay
	Seconds float64 `json:"seconds"`          // that whoever is at it has been at it
}

// reachedBy reads how far a search has come.
func reachedBy(x store.Search) (reached, error) {
	var st reached
	if x.State == "" {
		return st, nil
	}
	err := json.Unmarshal([]byte(x.State), &st)
	return st, err
}

// holdFor is how long a search stays with somebody who no longer says that they
// are at it.
const holdFor = 20 * time.Second

// mostRounds is where the passes of a search stop growing: what a pass has found
// is only kept when it ends.
const mostRounds = 3200

// seeker does searches, one after the other.
type seeker struct {
	store  *store.Store
	log    *slog.Logger
	now    func() time.Time
	name   string
	hold   time.Duration
	rounds int
	quiet  quiet
	wake   chan struct{}
}

// Work does searches of a workroom until ctx ends, without serving pages.
func Work(ctx context.Context, s *store.Store, o Options) {
	var all sync.WaitGroup
	q := newQuiet()
	for range max(1, o.Searches) {
		all.Go(func() { newSeeker(s, o, q, make(chan struct{})).run(ctx) })
	}
	all.Wait()
}

func newSeeker(s *store.Store, o Options, q quiet, wake chan struct{}) *seeker {
	k := &seeker{store: s, log: o.Log, now: o.Now, name: rand.Text(), hold: o.Hold, rounds: o.rounds(), quiet: q, wake: wake}
	if k.hold <= 0 {
		k.hold = holdFor
	}
	return k
}

func (k *seeker) run(ctx context.Context) {
	for ctx.Err() == nil {
		x, ok, err := k.store.TakeSearch(ctx, k.name, k.hold)
		if err != nil && ctx.Err() == nil {
			k.log.Error("search", "error", err)
		}
		if ok {
			k.work(ctx, x)
			continue
		}
		select {
		case <-ctx.Done():
		case <-k.wake:
		case <-time.After(2 * time.Second):
		}
	}
}

// work does one search until it is stopped, lost, or the program ends; then
// another may go on with it.
func (k *seeker) work(ctx context.Context, x store.Search) {
	h := &holding{seeker: k, search: x, begun: k.now()}
	h.ctx, h.end = context.WithCancel(ctx)
	defer h.end()
	done := x.Stopped
	if !done {
		in, err := k.inputs(ctx, x)
		if err != nil {
			k.log.Error("search", "docket", x.Docket, "error", err)
			done = ctx.Err() == nil // it would go wrong again
		} else {
			k.quiet.do(func() { done = h.seek(in) })
		}
	}
	last, cancel := context.WithTimeout(context.WithoutCancel(ctx), 10*time.Second)
	defer cancel()
	if err := k.store.LeaveSearch(last, x, k.name, done); err != nil {
		k.log.Error("search", "docket", x.Docket, "error", err)
	}
}

// inputs reads what a search is for, with the lays found so far; the search goes
// on from those.
func (k *seeker) inputs(ctx context.Context, x store.Search) (making.Inputs, error) {
	var ask wanted
	if err := json.Unmarshal([]byte(x.Asked), &ask); err != nil {
		return making.Inputs{}, err
	}
	snap, err := k.store.At(ctx, ask.Change)
	if err != nil {
		return making.Inputs{}, err
	}
	in, opened, err := making.Open(snap, docketPath(x.Docket))
	if err != nil {
		return in, err
	}
	if opened.Stops() > 0 {
		return in, errors.New(opened.AtLeast(finding.Stop)[0].Text())
	}
	if in.Found, err = laysFound(ctx, k.store, x.Docket); err != nil {
		return in, err
	}
	st, err := reachedBy(x)
	if err != nil {
		return in, err
	}
	for role, text := range ask.Hand {
		f, found := lay.Load(source.File{Path: "lays/" + x.Docket + "-" + string(role) + ".yaml", Data: []byte(text)})
		if found.Stops() > 0 {
			return in, fmt.Errorf("%s", found[0].Text())
		}
		if best, ok := in.Found[role]; ok && st.Found {
			f = best // which has the same pieces pinned
		}
		in.Hand[role] = f
	}
	return in, nil
}

// laysFound reads the lays that searches have found for a docket.
func laysFound(ctx context.Context, s *store.Store, docket string) (map[cloth.Role]lay.File, error) {
	files, err := s.LaysFound(ctx, docket)
	if err != nil {
		return nil, err
	}
	out := map[cloth.Role]lay.File{}
	for role, data := range files {
		f, found := lay.Load(source.File{Path: "lays/" + docket + "-" + role + ".yaml", Data: data})
		if found.Stops() == 0 {
			out[cloth.Role(role)] = f
		}
	}
	return out, nil
}

// holding is a search in somebody's hands.
type holding struct {
	*seeker
	search store.Search
	begun  time.Time
	ctx    context.Context
	end    context.CancelFunc

	lock  sync.Mutex
	state reached

	keeping sync.Mutex // one at a time writes
	stopped bool
}

// seek looks for better lays, pass after pass, and keeps what each has found. It
// tells whether the search has come to its end.
func (h *holding) seek(in making.Inputs) bool {
	if st, err := reachedBy(h.search); err == nil {
		h.state = st
	}
	beats := time.NewTicker(max(h.hold/10, time.Millisecond))
	defer beats.Stop()
	var beating sync.WaitGroup
	defer beating.Wait()
	defer h.end()
	beating.Go(func() {
		for {
			select {
			case <-beats.C:
				h.keep(nil)
			case <-h.ctx.Done():
				return
			}
		}
	})
	e := making.Effort{Rounds: h.rounds, Seed: seed, Report: h.report, Within: h.quiet.lane}
	laid := making.Run(h.ctx, in, making.Lay, e, nil)
	if laid.Reached != making.Lay {
		return true
	}
	for range h.state.Passes {
		e.Rounds, e.Seed = min(2*e.Rounds, mostRounds), e.Seed+1
	}
	h.keep(making.Laid(in, laid))
	for h.ctx.Err() == nil {
		laid = making.Look(h.ctx, in, laid, e, 1, nil)
		e.Rounds, e.Seed = min(2*e.Rounds, mostRounds), e.Seed+1
		if h.ctx.Err() == nil { // else whoever goes on does this pass again
			h.lock.Lock()
			h.state.Passes++
			h.lock.Unlock()
		}
		h.keep(making.Laid(in, laid))
	}
	h.keeping.Lock()
	defer h.keeping.Unlock()
	return h.stopped
}

// report notes the last better lay.
func (h *holding) report(role cloth.Role, p lay.Plan, length float64) {
	h.lock.Lock()
	defer h.lock.Unlock()
	h.state.Role, h.state.Plan, h.state.Length = string(role), string(p), length
}

// keep keeps the state with the lays found, and ends the work when the search is
// to be ended or is in other hands.
func (h *holding) keep(lays map[cloth.Role][]byte) {
	h.keeping.Lock()
	defer h.keeping.Unlock()
	h.lock.Lock()
	h.state.Found = h.state.Found || lays != nil
	h.state.Seconds = h.now().Sub(h.begun).Seconds()
	data, err := json.Marshal(h.state)
	h.lock.Unlock()
	if err != nil {
		h.log.Error("search", "error", err)
		return
	}
	files := map[string][]byte{}
	for role, text := range lays {
		files[string(role)] = text
	}
	x := h.search
	x.State = string(data)
	// The program may be ending; what is found is kept all the same.
	ctx, cancel := context.WithTimeout(context.WithoutCancel(h.ctx), h.hold)
	defer cancel()
	stopped, err := h.store.KeepSearch(ctx, x, h.name, h.hold, files)
	h.stopped = h.stopped || stopped
	if err != nil && !errors.Is(err, store.ErrLost) {
		h.log.Error("search", "docket", x.Docket, "error", err)
		return // it may go better the next time; else another takes over
	}
	if stopped || err != nil {
		h.end()
	}
}

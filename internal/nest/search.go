package nest

import (
	"context"
	"math/rand/v2"
	"slices"
	"sync"
)

// Search places the parts of p so that the total length used is small. It
// returns the best layout found within the budget or until ctx ends, and why
// it stopped; an error only for a malformed problem.
//
// start, when not nil, is a layout of the same problem: what of it still keeps
// the rules is a starting point, and when that is all of it the result is never
// worse. report, when not nil, is called from the calling goroutine with each
// better layout.
func Search(ctx context.Context, p Problem, b Budget, start *Layout, report func(Layout, Stats)) (Layout, Stats, error) {
	if err := p.check(); err != nil {
		return Layout{}, Stats{}, err
	}
	f := newField(&p)
	if start != nil {
		f.adoptLeans(start)
	}
	f.within = b.Within
	lanes := max(1, b.Lanes)
	first := f.begin(ctx, start, b, lanes)
	run := &search{f: f, lanes: lanes, bound: f.bound(), report: report}
	run.tell(first)
	if b.Rounds > 0 && ctx.Err() == nil && !run.proved(first) {
		first = run.improve(ctx, first, b)
	}
	if f.straighten(first) {
		run.tell(first)
	}
	stats := run.stats(first)
	switch {
	case run.proved(first):
		stats.Stopped = StoppedProved
	case ctx.Err() != nil:
		stats.Stopped = StoppedContext
	default:
		stats.Stopped = StoppedBudget
	}
	return f.layout(first), stats, nil
}

// begin is the better of a first layout and one grown from start.
func (f *field) begin(ctx context.Context, start *Layout, b Budget, lanes int) []spot {
	n := orders
	if b.Rounds > 0 {
		n = ordersOn
	}
	best := f.firstLayout(ctx, slices.Repeat([]spot{nowhere}, len(f.items)), b.Seed, lanes, n)
	if start != nil {
		kept := f.firstLayout(ctx, f.adopt(start), b.Seed, lanes, n)
		if !f.score(best).better(f.score(kept)) {
			return kept
		}
	}
	return best
}

// search is one run of Search after the first layout.
type search struct {
	f      *field
	lanes  int
	bound  float64
	report func(Layout, Stats)
	last   score       // told
	team   []*explorer // one for each lane
}

// stretch is how many rounds lanes search apart before they look at each
// other's best.
const stretch = 500

// improve lets every lane search by itself, and after each stretch those that
// lag go on from the best of all. What a lane does depends on its rounds only,
// never on when the others do what.
func (r *search) improve(ctx context.Context, spots []spot, b Budget) []spot {
	r.f.cover()
	for lane := range r.lanes {
		m := newMess(r.f, spots)
		e := &explorer{
			solver: newSolver(ctx, r.f, m, b, lane),
			rng:    rand.New(rand.NewPCG(b.Seed, 1<<63|uint64(lane))),
			best:   spots,
			score:  r.f.score(spots),
			mess:   m,
			share:  firstCut,
		}
		e.done = func() bool { return r.proved(e.best) }
		r.team = append(r.team, e)
	}
	lead := r.team[0]
	lead.insert(insertShare)
	r.tell(lead.best)
	for _, e := range r.team {
		e.rounds = lead.rounds
		e.restart(lead.best, lead.score)
	}
	until := lead.used() + float64(exploreShare*(1-lead.used()))
	for r.together(func(e *explorer, rounds int) { e.explore(rounds, until) }, stretch, until) {
	}
	for _, e := range r.team {
		e.from = e.used()
		e.stuck = false
	}
	r.compress()
	return r.team[0].best
}

// compress has all lanes compress, where parts may tilt with other leans every
// so often.
func (r *search) compress() {
	tilting := r.f.tilting()
	rounds := stretch
	if tilting {
		rounds = leanRound
	}
	for again := true; again; {
		if lead := r.team[0]; tilting {
			r.f.leanNear(lead.best, 1-lead.compressed(), lead.rng)
			for _, e := range r.team[1:] {
				e.best, e.score = slices.Clone(lead.best), lead.score
			}
		}
		again = r.together((*explorer).compress, rounds, 1)
	}
}

// together runs a task in all lanes for some rounds; then those that lag go on
// from the best of all. It tells whether some lane has work left.
func (r *search) together(task func(*explorer, int), rounds int, until float64) bool {
	var wait sync.WaitGroup
	for _, e := range r.team {
		r.f.lane(&wait, func() { task(e, e.rounds+rounds) })
	}
	wait.Wait()
	lead := r.team[0]
	for _, e := range r.team[1:] {
		if e.score.better(lead.score) {
			lead = e
		}
	}
	for _, e := range r.team {
		if lead.score.better(e.score) {
			e.restart(lead.best, lead.score)
		}
	}
	r.shown(lead)
	return slices.ContainsFunc(r.team, func(e *explorer) bool {
		return !e.stuck && !e.over() && e.used() < until
	})
}

// lane does some work of a lane beside the others.
func (f *field) lane(wait *sync.WaitGroup, work func()) {
	if f.within == nil {
		wait.Go(work)
		return
	}
	wait.Go(func() { f.within(work) })
}

// shown reports a layout if it is better than the last one told.
func (r *search) shown(e *explorer) {
	if e.score.better(r.last) {
		r.tell(e.best)
	}
}

func (r *search) tell(spots []spot) {
	r.last = r.f.score(spots)
	if r.report != nil {
		r.report(r.f.layout(spots), r.stats(spots))
	}
}

func (r *search) stats(spots []spot) Stats {
	s := Stats{Bound: r.bound, Density: r.f.density(spots)}
	for _, e := range r.team {
		s.Rounds = max(s.Rounds, e.rounds)
		s.Passes += e.rounds
		s.Tried += e.mover.tried
	}
	return s
}

// proved tells that all parts lie and no layout is shorter.
func (r *search) proved(spots []spot) bool {
	s := r.f.score(spots)
	return s.left == 0 && s.length <= r.bound+slack
}

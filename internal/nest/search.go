package nest

import (
	"context"
	"math/rand/v2"
	"slices"
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
	lanes := max(1, b.Lanes)
	first := f.begin(ctx, start, b.Seed, lanes)
	run := &search{f: f, lanes: lanes, bound: f.bound(), report: report}
	run.tell(first)
	if b.Rounds > 0 && ctx.Err() == nil && !run.proved(first) {
		first = run.improve(ctx, first, b)
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
func (f *field) begin(ctx context.Context, start *Layout, seed uint64, lanes int) []spot {
	best := f.firstLayout(ctx, slices.Repeat([]spot{nowhere}, len(f.items)), seed, lanes)
	if start != nil {
		kept := f.firstLayout(ctx, f.adopt(start), seed, lanes)
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
	solver *solver
}

func (r *search) improve(ctx context.Context, spots []spot, b Budget) []spot {
	r.f.cover()
	r.solver = newSolver(ctx, r.f, spots, b, r.lanes)
	e := &explorer{
		solver: r.solver,
		rng:    rand.New(rand.NewPCG(b.Seed, 1<<63)),
		best:   spots,
		score:  r.f.score(spots),
		mess:   newMess(r.f, spots),
	}
	e.report = r.tell
	e.done = func() bool { return r.proved(e.best) }
	e.insert(insertShare)
	e.explore(e.used() + float64(exploreShare*(1-e.used())))
	e.compress()
	return e.best
}

func (r *search) tell(spots []spot) {
	if r.report != nil {
		r.report(r.f.layout(spots), r.stats(spots))
	}
}

func (r *search) stats(spots []spot) Stats {
	s := Stats{Bound: r.bound, Density: r.f.density(spots)}
	if r.solver != nil {
		s.Rounds = r.solver.rounds
		s.Passes = r.solver.rounds * r.lanes
	}
	return s
}

// proved tells that all parts lie and no layout is shorter.
func (r *search) proved(spots []spot) bool {
	s := r.f.score(spots)
	return s.left == 0 && s.length <= r.bound+slack
}

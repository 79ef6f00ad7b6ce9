package nest

import (
	"context"
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
	best := f.firstLayout(ctx, slices.Repeat([]spot{nowhere}, len(f.items)), b.Seed, lanes)
	if start != nil {
		kept := f.firstLayout(ctx, f.adopt(start), b.Seed, lanes)
		if !f.score(best).better(f.score(kept)) {
			best = kept
		}
	}
	stats := Stats{Stopped: StoppedBudget, Bound: f.bound(), Density: f.density(best)}
	if ctx.Err() != nil {
		stats.Stopped = StoppedContext
	}
	l := f.layout(best)
	if report != nil {
		report(l, stats)
	}
	return l, stats, nil
}

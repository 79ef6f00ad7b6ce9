package lay

import (
	"context"
	"slices"
)

// divide gives each cut its home in a scheme. What can be folded need not be: a
// waistband cut singly opens a long stretch of cloth and uses little of it, and
// a pair laid beside it, each hand by itself, saves the length it would take on
// the folded part. So every cut is tried in its other homes in turn, and stays
// where first lays of roughly drawn pieces take less cloth. Something stays folded on every folded
// stretch, or it would be no such plan; false when nothing can be.
func (w *work) divide(ctx context.Context, s scheme) (trial, bool) {
	quiet := w.still()
	quiet.rough, quiet.firsts = true, w.roughs
	homes := make([]home, len(w.cuts))
	for i := range w.cuts {
		quiet.settle(homes, i, quiet.homes(s, i)[0])
	}
	if w.hand != nil {
		for i, h := range w.hand.fixed {
			homes[i] = h
		}
	} else if !quiet.seed(s, homes) {
		return trial{}, false
	}
	best := quiet.try(ctx, s, homes, 0, trial{})
	for i := range w.cuts {
		if t := w.cuts[i].twin; t >= 0 && t < i {
			continue
		}
		for _, h := range quiet.homes(s, i) {
			was := homes[i]
			if h == was || ctx.Err() != nil || w.stays(homes, i) {
				continue
			}
			quiet.settle(homes, i, h)
			if t := quiet.try(ctx, s, homes, 0, trial{}); better(t.lay, best.lay) {
				best = t
			} else {
				quiet.settle(homes, i, was)
			}
		}
	}
	best.homes = slices.Clone(homes)
	return best, true
}

// exactly lays a roughly drawn trial with the pieces as they are.
func (w *work) exactly(ctx context.Context, t trial) trial {
	still := w.still()
	return still.try(ctx, t.scheme, t.homes, 0, trial{})
}

// still is the same work, reporting nothing, on a table without end, which is
// the same for every plan.
func (w *work) still() work {
	s := *w
	s.quiet, s.failed = true, map[string]bool{}
	s.opts.Table = 0
	return s
}

// settle gives a cut and its twin a home.
func (w *work) settle(homes []home, i int, h home) {
	homes[i] = h
	if t := w.cuts[i].twin; t >= 0 {
		homes[t] = h
	}
}

// seed sees to it that every folded stretch has something folded: where none
// came by itself, the widest that may lie there and can be spared.
func (w *work) seed(s scheme, homes []home) bool {
	for k, t := range s.stretches {
		want := home{k, true}
		if t.fold == Flat || slices.Contains(homes, want) {
			continue
		}
		best, wide := -1, int64(-1)
		for i := range w.cuts {
			lo, hi := across(w.cuts[i].cut)
			if hi-lo > wide && slices.Contains(w.homes(s, i), want) && w.spared(homes, i) {
				best, wide = i, hi-lo
			}
		}
		if best < 0 {
			return false
		}
		w.settle(homes, best, want)
	}
	return true
}

// stays tells that a cut has its home for good: it is written there, or is the
// last that keeps its stretch folded.
func (w *work) stays(homes []home, i int) bool {
	if w.hand != nil {
		_, fixed := w.hand.fixed[i]
		return fixed
	}
	return homes[i].double && !w.spared(homes, i)
}

// spared tells that a cut may leave its stretch without leaving it unfolded.
func (w *work) spared(homes []home, i int) bool {
	for k, o := range homes {
		if k != i && k != w.cuts[i].twin && o == homes[i] {
			return true
		}
	}
	return false
}

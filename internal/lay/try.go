package lay

import (
	"cmp"
	"context"
	"slices"

	"gusset/internal/nest"
)

// trial is a scheme with its cuts at home, and the lay it came to.
type trial struct {
	scheme
	homes  []home
	lay    Lay
	found  map[int]nest.Layout // by stretch, to go on from
	phases map[int]float64     // by group of pieces that stripes bind
	rounds int                 // passes of the search so far
}

// try lays everything by one scheme, going on from what an earlier trial of
// the same scheme and homes found.
func (w *work) try(ctx context.Context, s scheme, homes []home, rounds int, before trial) trial {
	t := trial{scheme: s, homes: homes, found: map[int]nest.Layout{}, phases: w.settled(s), rounds: before.rounds + rounds}
	t.lay = Lay{Cloth: w.cloth, Role: w.role, Plan: s.plan, OffGrain: w.opts.OffGrain, Unplaced: slices.Clone(w.out), Unmatched: w.unmatched}
	all := w.jobs(s, homes)
	if w.course != nil && !w.quiet {
		w.course.pieces = 0
		for _, jobs := range all {
			w.course.pieces += len(jobs)
		}
	}
	for k, jobs := range all {
		if len(jobs)+len(w.heldOn(k)) > 0 {
			w.stretch(ctx, &t, k, jobs, rounds, before)
		}
	}
	t.lay.Density = density(t.lay)
	inCutOrder(t.lay.Placed)
	return t
}

// inCutOrder puts pieces in the order in which they are come to: section by
// section, from the cut end on.
func inCutOrder(placed []Placed) {
	reach := func(p Placed) int64 { lo, _ := p.box(); return lo.X }
	slices.SortStableFunc(placed, func(a, b Placed) int {
		return cmp.Or(cmp.Compare(a.Section, b.Section), cmp.Compare(reach(a), reach(b)), cmp.Compare(a.Cut.ID, b.Cut.ID))
	})
}

// stretch lays jobs on the next stretch of cloth.
func (w *work) stretch(ctx context.Context, t *trial, k int, jobs []job, rounds int, before trial) {
	b := bed{stretch: t.stretches[k], jobs: jobs, phases: t.phases, held: w.heldOn(k)}
	b.strips = []strip{w.stripFor(t, k)}
	var start *nest.Layout
	if n, ok := before.found[k]; ok {
		start = &n
	}
	best, err := w.search(ctx, b, rounds, start, w.reporter(t, b))
	if err != nil {
		w.fail(&t.lay, jobs, err)
		return
	}
	t.found[k] = best
	from := b.strips[0].from
	if b.across() && !b.strips[0].held && w.meets(from, from+2*micron(best.Length)) {
		b, best = w.foldedAt(ctx, b, best, rounds)
	}
	if w.overTable(b, best) {
		b, best = w.onTable(ctx, t, b, best, rounds)
	}
	w.keepStep(t, b, best)
	if rounds > 0 && len(best.Placements) > 0 {
		best = nest.Gather(w.problem(b), best)
	}
	w.take(&t.lay, b, best)
}

// reporter tells the length of the whole lay as a bed of it gets shorter.
func (w *work) reporter(t *trial, b bed) func(nest.Layout) {
	if w.opts.Report == nil || w.quiet {
		return nil
	}
	return func(n nest.Layout) {
		length := n.Length
		if b.across() {
			length *= 2
		}
		w.opts.Report(t.plan, float64(b.strips[0].from)/1000+length)
	}
}

// fail tells an error of the search once; the plan is left without the jobs.
func (w *work) fail(l *Lay, jobs []job, err error) {
	if !w.failed[err.Error()] {
		w.failed[err.Error()] = true
		w.found = append(w.found, refused.At(w.cloth.Place, err.Error()))
	}
	for _, j := range jobs {
		l.Unplaced = append(l.Unplaced, j.ids...)
	}
}

// longest bounds a section that begins at from: a remnant ends where it ends.
// Plain cloth does not bound the lay, so that it can be told how much is short.
func (w *work) longest(s stretch, from int64) float64 {
	if !w.cloth.Remnant() {
		return 0
	}
	left := max(w.cloth.UsableLength()-float64(from)/1000, 0.001)
	if s.across() {
		left /= 2
	}
	return left
}

// across tells that a stretch is folded across the cloth.
func (s stretch) across() bool { return s.fold == Across || s.fold == Swung }

// foldedAt lays a bed whose crosswise fold must be known beforehand, because a
// flaw on the layer above lies elsewhere for every fold: it is tried with the
// fold as near as it may be, then a little farther.
func (w *work) foldedAt(ctx context.Context, b bed, best nest.Layout, rounds int) (bed, nest.Layout) {
	const tries, step = 9, 1.05
	limit := b.strips[0].most
	for length, n := best.Length, 0; n < tries; length, n = length*step, n+1 {
		if limit > 0 {
			length = min(length, limit)
		}
		b.strips = []strip{{from: b.strips[0].from, most: float64(micron(length)+1) / 1000, held: true}}
		w.again(b, rounds)
		next, err := w.search(ctx, b, rounds, &best, nil)
		if err != nil {
			break
		}
		if best = next; len(best.Unplaced) == 0 || length == limit {
			break
		}
	}
	return b, best
}

// take adds the sections of a bed, and what lies in them, to a lay.
func (w *work) take(l *Lay, b bed, best nest.Layout) {
	for k, st := range b.strips {
		placed := append(w.put(b, best, k), b.held...)
		if len(placed) == 0 {
			continue
		}
		shift := int64(0)
		if !st.held { // begins where the one before ended
			shift = w.wholePeriods(max(micron(l.Length), micron(Squaring)) - st.from)
		}
		s := Section{Fold: b.fold, Width: w.wide(b.stretch), Depth: float64(b.depth) / 1000}
		end := st.from + shift
		for _, p := range placed {
			p.AtX, p.Section = p.AtX+shift, len(l.Sections)
			_, hi := p.box()
			end = max(end, hi.X)
			l.Placed = append(l.Placed, p)
		}
		if st.held && b.across() {
			end = st.from + micron(st.most)
		}
		s.From, s.To = float64(st.from+shift)/1000, float64(end)/1000
		l.Sections = append(l.Sections, s)
		l.Length = s.End()
	}
	for _, k := range best.Unplaced {
		l.Unplaced = append(l.Unplaced, b.jobs[k].ids...)
	}
}

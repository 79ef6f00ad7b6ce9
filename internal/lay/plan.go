package lay

import (
	"context"
	"math"

	"gusset/internal/cloth"
	"gusset/internal/finish"
	"gusset/internal/geom"
	"gusset/internal/nest"
)

// lanes are the passes that the search tries side by side; fixed, because the
// lay found depends on it.
const lanes = 2

// job is one piece for a section of the cloth.
type job struct {
	cut    finish.Cut
	layers int
	ids    []string // what is cut when it is cut
	poses  []nest.Orientation
	pins   []nest.Pin
}

// try lays everything by one plan. open says for each cut whether it is laid
// on a single layer.
func (w *work) try(ctx context.Context, p Plan, open []bool, rounds int) Lay {
	l := Lay{Cloth: w.cloth, Role: w.role, Plan: p, Unplaced: append([]string(nil), w.out...)}
	var folded, single []job
	for i, r := range w.cuts {
		switch {
		case open[i]:
			single = append(single, w.single(r))
		case r.cut.OnFold:
			folded = append(folded, w.half(r))
		case i < r.twin:
			folded = append(folded, w.pair(r))
		}
	}
	w.section(ctx, &l, folded, true, rounds)
	w.section(ctx, &l, single, false, rounds)
	l.Density = density(l)
	return l
}

// section lays jobs on the next stretch of cloth.
func (w *work) section(ctx context.Context, l *Lay, jobs []job, folded bool, rounds int) {
	if len(jobs) == 0 {
		return
	}
	from := max(l.Length, Squaring)
	width := float64(w.width) / 1000
	if folded {
		width = float64(w.width/2) / 1000
	}
	problem := nest.Problem{Containers: []nest.Container{{Width: width}}}
	for _, j := range jobs {
		part := nest.Part{Poses: j.poses, Pins: j.pins}
		for _, p := range millimetres(j.cut.Outline) {
			part.Shape = append(part.Shape, nest.Pt(p))
		}
		problem.Parts = append(problem.Parts, part)
	}
	budget := nest.Budget{Rounds: rounds, Lanes: lanes, Seed: w.opts.Seed}
	best, _, err := nest.Search(ctx, problem, budget, nil, func(n nest.Layout, _ nest.Stats) {
		if w.opts.Report != nil && len(n.Unplaced) == 0 {
			w.opts.Report(l.Plan, from+n.Length)
		}
	})
	if err != nil {
		w.fail(l, jobs, err)
		return
	}
	w.add(l, jobs, best, Section{Folded: folded, From: from, Width: width})
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

// add takes over the search's layout, on whole micrometres.
func (w *work) add(l *Lay, jobs []job, best nest.Layout, s Section) {
	from, end := micron(s.From), micron(s.From)
	for _, pl := range best.Placements {
		j := jobs[pl.Part]
		flip, degrees := onCloth(nest.Orientation{Degrees: pl.Degrees, Flip: pl.Flip})
		p := Placed{
			Cut: j.cut, Section: len(l.Sections), Layers: j.layers, Flip: flip, Degrees: degrees,
			AtX: from + micron(pl.At.X), AtY: micron(pl.At.Y),
		}
		for _, q := range p.Outline() {
			end = max(end, micron(q.X))
		}
		l.Placed = append(l.Placed, p)
	}
	for _, k := range best.Unplaced {
		l.Unplaced = append(l.Unplaced, jobs[k].ids...)
	}
	s.To = float64(end) / 1000
	l.Length = s.To
	l.Sections = append(l.Sections, s)
}

func micron(mm float64) int64 { return int64(math.Round(mm * 1000)) }

// tops are the ways the top of a piece may point.
func (w *work) tops() []float64 {
	if w.cloth.Direction == cloth.OneWay {
		return []float64{-90}
	}
	return []float64{-90, 90}
}

func (w *work) single(r ready) job {
	j := job{cut: r.open, layers: 1, ids: []string{r.cut.ID}}
	for _, d := range w.tops() {
		j.poses = append(j.poses, forSearch(false, d))
	}
	return j
}

// pair is cut through both layers; whichever hand lies on top, the same two
// pieces come out.
func (w *work) pair(r ready) job {
	j := job{cut: r.cut, layers: 2, ids: []string{r.cut.ID, r.cut.Pair}}
	for _, d := range w.tops() {
		j.poses = append(j.poses, forSearch(false, d), forSearch(true, d))
	}
	return j
}

// half lies with its fold line on the fold and itself above it, which leaves
// one pose for each direction of the top.
func (w *work) half(r ready) job {
	j := job{
		cut: r.cut, layers: 2, ids: []string{r.cut.ID},
		pins: []nest.Pin{{Axis: nest.Y, Of: nest.Low, Value: 0}},
	}
	lo, _ := across(r.cut)
	rightOfFold := lo == r.cut.Fold[0].X
	for _, d := range w.tops() {
		// Turned with its top to +x, what was on the right comes to lie below.
		j.poses = append(j.poses, forSearch(rightOfFold == (d == -90), d))
	}
	return j
}

// forSearch turns a pose on the cloth (flip mirrors x) into the search's (flip
// mirrors y), which is half a turn from it; onCloth turns it back.
func forSearch(flip bool, degrees float64) nest.Orientation {
	if flip {
		degrees += 180
	}
	return nest.Orientation{Degrees: degrees, Flip: flip}
}

func onCloth(o nest.Orientation) (flip bool, degrees float64) {
	degrees = o.Degrees
	if o.Flip {
		degrees -= 180
	}
	return o.Flip, degrees
}

func density(l Lay) float64 {
	if l.Length == 0 {
		return 0
	}
	var cut float64
	for _, p := range l.Placed {
		cut += geom.Area(millimetres(p.Cut.Outline)) * float64(p.Layers)
	}
	return cut / (l.Cloth.UsableWidth() * l.Length)
}

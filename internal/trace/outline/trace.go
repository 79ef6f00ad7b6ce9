package outline

import (
	"math"

	"gusset/internal/geom"
)

// Rough is what is found before the edge is measured.
type Rough struct {
	Border []geom.Pt // closed, about a millimetre off
	// Area is how large the patch of paper is in mm², cut by the region or a
	// card where Cropped and CardTouch tell how many mm of its border run along
	// them.
	Area, Cropped, CardTouch float64
	// Outside is how far the border goes outside the middles of the cards.
	Outside float64
}

// Find looks for the largest patch of paper between the cards; false when there
// is none that differs from the table.
func Find(shots []Shot, cards []Card) (Rough, bool) {
	g := newGrid(shots, cards)
	paper := make([]bool, len(g.shot))
	ok := false
	for i := range shots {
		ok = g.split(cards, int8(i), paper) || ok
	}
	if !ok {
		return Rough{}, false
	}
	hull := hullOf(cards)
	b := g.largest(g.opened(paper), hull)
	cell := g.step * g.step
	r := Rough{Area: float64(len(b.cells)) * cell, Cropped: float64(b.touchesEnd) * g.step, CardTouch: float64(b.touchCard) * g.step}
	if r.Area < 1000 {
		return r, false
	}
	r.Border = g.border(g.filled(b))
	for _, p := range r.Border {
		r.Outside = max(r.Outside, outside(hull, p))
	}
	return r, true
}

// Edge is the measured edge of the paper.
type Edge struct {
	Points []geom.Pt // closed, counter-clockwise, every spacing mm
	// Weak is the part of the points at which the edge does not stand out from
	// the noise around it, and Signal the usual ratio of the two.
	Weak, Signal float64
	WeakAt       geom.Pt // the middle of the longest weak stretch
}

// weakSignal is the ratio below which a place of the edge is taken for weak.
const weakSignal = 6

// Measure finds the edge near a rough border.
func Measure(shots []Shot, r Rough) Edge {
	pts := measured(shots, r.Border)
	e := Edge{Points: placesOf(pts)}
	signals := make([]float64, len(pts))
	weak := make([]bool, len(pts))
	for i, p := range pts {
		signals[i] = p.signal
		weak[i] = !p.found || p.signal < weakSignal
		if weak[i] {
			e.Weak += 1 / float64(len(pts))
		}
	}
	e.Signal = median(signals)
	if at, ok := longest(weak); ok {
		e.WeakAt = e.Points[at]
	}
	return e
}

// longest returns the middle of the longest run of true values in a ring.
func longest(v []bool) (int, bool) {
	best, at, run := 0, 0, 0
	for i := range 2 * len(v) {
		if !v[i%len(v)] {
			run = 0
			continue
		}
		if run++; run > best && run <= len(v) {
			best, at = run, (i-run/2)%len(v)
		}
	}
	return at, best > 0
}

// Disagreement compares the edge as each photo alone shows it, where two or more
// do: paper that stands up from the table is drawn outward or inward by each
// according to where it was taken from. It returns the largest distance in mm,
// as the middle value of a stretch of 10 mm, where it is, and how much of the
// edge was compared.
func Disagreement(shots []Shot, e Edge) (apart float64, at geom.Pt, compared float64) {
	n := len(e.Points)
	axes := make([][][4]float64, len(shots))
	for k := range shots {
		axes[k] = axesOf(shots[k:k+1], e.Points)
	}
	offs := make([]float64, n)
	both := 0
	for i, p := range e.Points {
		lo, hi, seen := math.Inf(1), math.Inf(-1), 0
		dir := heading(e.Points, i, 3)
		for k, s := range shots {
			if px, ok := s.View.Project(p, 0); !ok || !s.Photo.Inside(px, edgePixels+20) {
				continue
			}
			if off, signal, ok := steepest(profile(s, p, dir, axes[k][i]), firstLook); ok && signal > weakSignal {
				lo, hi, seen = min(lo, off), max(hi, off), seen+1
			}
		}
		if seen >= 2 {
			offs[i] = hi - lo
			both++
		} else {
			offs[i] = math.NaN()
		}
	}
	if both == 0 {
		return 0, geom.Pt{}, 0
	}
	return worstStretch(e.Points, offs, float64(both)/float64(n))
}

// worstStretch takes the middle value of every 10 mm, so that single places do
// not count, and returns the largest.
func worstStretch(pts []geom.Pt, offs []float64, compared float64) (float64, geom.Pt, float64) {
	n := len(pts)
	const reach = 7
	worst, at := 0.0, geom.Pt{}
	for i := range pts {
		var around []float64
		for k := -reach; k <= reach; k++ {
			if v := offs[((i+k)%n+n)%n]; !math.IsNaN(v) {
				around = append(around, v)
			}
		}
		if len(around) <= reach {
			continue
		}
		if m := median(around); m > worst {
			worst, at = m, pts[i]
		}
	}
	return worst, at, compared
}

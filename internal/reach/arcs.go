package reach

import (
	"math"
	"slices"

	"gusset/internal/construct"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/seam"
)

const (
	sameBreak = 0.05 // mm: two breaks this near on an edge are one
	matching  = 2.0  // mm: breaks of two sides this near are sewn on each other
)

// arc is a stretch of a copy's outline between two corners or seam ends. Its
// number is its place in surface.arcs; next and prev go round the outline.
type arc struct {
	face       int
	edge       string
	from, to   float64 // mm along the edge
	next, prev int
	// mate is the arc it is glued to, -1 for none, once the seam is sewn;
	// always, where seam is unfolded. A seam walks first along one of the two
	// arcs: forward says that it walks this one with the outline.
	mate, seam int
	forward    bool
	first      bool
	curve      geom.Curve // with the outline
	nodes      []int      // sample points from start to end
}

// unfolded is the seam of two halves of a piece cut on the fold.
const unfolded = -2

// copyOf names a copy of a piece.
type copyOf struct {
	piece string
	copy  piece.Copy
}

// onEdge names an edge of a copy.
type onEdge struct {
	copyOf
	edge string
}

func edgeOf(s construct.Stretch) onEdge { return onEdge{copyOf{s.Piece, s.Copy}, s.Edge} }

// outlines finds where the edges of all copies have to be broken.
type outlines struct {
	garment pattern.Garment
	length  map[onEdge]float64
	breaks  map[onEdge][]float64
}

func newOutlines(g pattern.Garment, seams []construct.Seam) *outlines {
	o := &outlines{garment: g, length: map[onEdge]float64{}, breaks: map[onEdge][]float64{}}
	for _, u := range g.View.Uses {
		for _, c := range u.CopyList() {
			p, _ := g.Copy(u.Piece, c)
			for _, e := range p.Edges {
				at := onEdge{copyOf{u.Piece, c}, e.Name}
				o.length[at] = e.Curve.Length()
				o.breaks[at] = []float64{0, o.length[at]}
			}
		}
	}
	for _, s := range seams {
		for _, side := range s.Sides {
			for _, st := range side {
				o.add(st, st.From)
				o.add(st, st.To)
			}
		}
	}
	o.carry(seams)
	return o
}

// add breaks an edge and reports whether that was new.
func (o *outlines) add(st construct.Stretch, at float64) bool {
	e := edgeOf(st)
	if _, known := o.length[e]; !known || st.Inside {
		return false
	}
	for _, b := range o.breaks[e] {
		if math.Abs(b-at) < sameBreak {
			return false
		}
	}
	o.breaks[e] = append(o.breaks[e], at)
	slices.Sort(o.breaks[e])
	return true
}

// carry brings the breaks of one side of each seam to the other, until both
// sides of every seam are broken alike.
func (o *outlines) carry(seams []construct.Seam) {
	const rounds = 8 // each carries breaks one seam further
	for range rounds {
		more := false
		for _, s := range seams {
			if !edges(s) {
				continue
			}
			a, b := o.walk(s.Sides[0]), o.walk(s.Sides[1])
			more = o.match(a, s.Sides[1], b) || more
			more = o.match(b, s.Sides[0], a) || more
		}
		if !more {
			return
		}
	}
}

// edges reports whether a seam joins edge to edge; else it is set on a face.
func edges(s construct.Seam) bool {
	for _, side := range s.Sides[:2] {
		for _, st := range side {
			if st.Inside {
				return false
			}
		}
	}
	return true
}

// walk lists the breaks of a side in walking order, in mm from its beginning.
func (o *outlines) walk(side []construct.Stretch) []float64 {
	var out []float64
	var walked float64
	for _, st := range side {
		for _, b := range o.breaks[edgeOf(st)] {
			if b > st.From-sameBreak && b < st.To+sameBreak {
				out = append(out, walked+st.Walked(b))
			}
		}
		walked += st.Length()
	}
	slices.Sort(out)
	return slices.CompactFunc(out, func(a, b float64) bool { return math.Abs(b-a) < sameBreak })
}

// match breaks a side where the other is broken and it is not.
func (o *outlines) match(from []float64, side []construct.Stretch, has []float64) bool {
	more := false
	total := seam.ChainLength(side)
	scale := total / max(from[len(from)-1], sameBreak)
	for _, f := range from {
		at := f * scale
		if slices.ContainsFunc(has, func(h float64) bool { return math.Abs(h-at) < matching }) {
			continue
		}
		var walked float64
		for _, st := range side {
			if at > walked && at < walked+st.Length() {
				more = o.add(st, st.Along(at-walked)) || more
			}
			walked += st.Length()
		}
	}
	return more
}

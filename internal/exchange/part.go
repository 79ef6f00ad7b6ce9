package exchange

import (
	"math"

	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/piece"
)

// Part is one piece in one size, as it comes in or goes out: face up, y along
// the grain, in mm.
type Part struct {
	Name  string // of the piece; "" when the file does not say
	Title string
	Size  string // "" when the file does not say
	// Cut is the boundary of the paper or cloth piece, counter-clockwise; an edge
	// without a name is one that the file does not name.
	Cut []Edge
	// Sewn is the stitching line, counter-clockwise; empty when it is not told.
	Sewn  []Edge
	Lines []piece.Line
	// Marks are notches and points inside. A notch lies on the stitching line when
	// that is told, on the boundary otherwise.
	Marks []piece.Mark
	// Mirror is the line on which the other half lies; empty for a whole piece.
	Mirror geom.Curve
	// Left and Right are how many are cut as drawn and turned over; 0, 0 when not
	// told.
	Left, Right int
	Material    string
	// Turns are places at which the file says that a line turns sharply.
	Turns []geom.Pt
	// Faceted says that short straight lines stand for the curves.
	Faceted bool
	Place   finding.Place
}

// Edge is a run of an outline between two corners.
type Edge struct {
	Name  string
	Curve geom.Curve
	// Breaks are places inside at which the line turns sharply.
	Breaks []geom.Pt
}

// outline is the line the piece is known by: the stitching line where it is
// told.
func (p *Part) outline() []Edge {
	if len(p.Sewn) > 0 {
		return p.Sewn
	}
	return p.Cut
}

// whole is a closed outline as one curve.
func whole(edges []Edge) geom.Curve {
	var c geom.Curve
	for _, e := range edges {
		c = append(c, e.Curve...)
	}
	return c
}

// loopPoints flattens a closed curve, the first point not repeated.
func loopPoints(c geom.Curve) []geom.Pt {
	pts := c.Flatten(0.01)
	if len(pts) > 1 && pts[0].Dist(pts[len(pts)-1]) < joinTol {
		pts = pts[:len(pts)-1]
	}
	return pts
}

// transform moves a part; a map that turns it over also turns its outlines
// round, so that they run counter-clockwise again.
func (p Part) transform(m geom.Affine) Part {
	p.Cut, p.Sewn = mapEdges(p.Cut, m), mapEdges(p.Sewn, m)
	lines := make([]piece.Line, len(p.Lines))
	for i, l := range p.Lines {
		l.Curve = l.Curve.Transform(m)
		lines[i] = l
	}
	marks := make([]piece.Mark, len(p.Marks))
	for i, k := range p.Marks {
		k.P = m.Apply(k.P)
		marks[i] = k
	}
	turns := make([]geom.Pt, len(p.Turns))
	for i, q := range p.Turns {
		turns[i] = m.Apply(q)
	}
	p.Turns = turns
	p.Lines, p.Marks, p.Mirror = lines, marks, p.Mirror.Transform(m)
	return p
}

func mapEdges(edges []Edge, m geom.Affine) []Edge {
	out := make([]Edge, len(edges))
	for i, e := range edges {
		e.Curve = e.Curve.Transform(m)
		breaks := make([]geom.Pt, len(e.Breaks))
		for k, b := range e.Breaks {
			breaks[k] = m.Apply(b)
		}
		e.Breaks = breaks
		if m.Mirrors() {
			e.Curve = e.Curve.Reverse()
			out[len(edges)-1-i] = e
		} else {
			out[i] = e
		}
	}
	return out
}

// bounds is the box round all that a part shows.
func (p Part) bounds() (lo, hi geom.Pt) {
	var pts []geom.Pt
	for _, e := range append(append([]Edge(nil), p.Cut...), p.Sewn...) {
		pts = append(pts, e.Curve.Flatten(0.1)...)
	}
	for _, l := range p.Lines {
		pts = append(pts, l.Curve.Flatten(0.1)...)
	}
	for _, m := range p.Marks {
		pts = append(pts, m.P)
	}
	return geom.BoundsOf(pts)
}

// grain is the grain line's direction, from its lower end, if there is one.
func (p Part) grain() (geom.Curve, bool) {
	for _, l := range p.Lines {
		if l.Kind == piece.Grain && len(l.Curve) > 0 {
			return l.Curve, true
		}
	}
	return nil, false
}

// upright is the part turned so that its grain stands upright, by the smaller
// turn of the two that do it, and by how many radians it was turned. A lean that
// could be the slip of a ruler stays, for the loader of patterns to judge.
func (p Part) upright() (Part, float64) {
	g, ok := p.grain()
	if !ok {
		return p, 0
	}
	v := g.End().Sub(g.Start())
	if v.Len() < 1 {
		return p, 0
	}
	a := math.Pi/2 - v.Angle()
	for a > math.Pi/2 {
		a -= math.Pi
	}
	for a <= -math.Pi/2+1e-6 { // a grain drawn level is turned to the left
		a += math.Pi
	}
	if math.Abs(a) < slightLean {
		return p, 0
	}
	return p.transform(geom.Turn(a, geom.Pt{})), a
}

// slightLean is the lean of a grain line that is left as it is, in radians (0.5°).
const slightLean = 0.5 * math.Pi / 180

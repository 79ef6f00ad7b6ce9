package outline

import (
	"math"

	"gusset/internal/geom"
)

// Shape is the edge as lines and cubic curves between corners.
type Shape struct {
	Edges   []geom.Curve // counter-clockwise, each from corner to corner
	Notches []Notch      // At on the fitted edge
	Miss    float64      // the largest distance of a measured point from the shape, notches aside
}

// Fit finds notches and corners of a measured edge and puts lines and curves
// through it, within about tol mm of the points.
func Fit(shots []Shot, e Edge, tol float64) Shape {
	found := notches(shots, e)
	c := newChain(e.Points, found)
	at := c.corners()
	if len(at) < 2 { // a piece has two edges or more: a round one is cut at both ends
		at = []int{0, len(c.pts) / 2}
	}
	s := Shape{Notches: found}
	sharp := make([]geom.Pt, len(at))
	for k, i := range at {
		sharp[k] = c.sharpened(i, c.length(at[(k+len(at)-1)%len(at)], i), c.length(i, at[(k+1)%len(at)]))
	}
	for k, i := range at {
		j := (k + 1) % len(at)
		s.Edges = append(s.Edges, c.edge(i, at[j], sharp[k], sharp[j], tol))
	}
	for i, p := range c.pts {
		if !c.hidden[i] && !nearAny(sharp, p, 4) {
			s.Miss = max(s.Miss, distanceTo(s.Edges, p))
		}
	}
	for i := range s.Notches {
		s.Notches[i].At = onto(s.Edges, s.Notches[i].At)
	}
	return s
}

// length is that of the edge from point i on to point j.
func (c chain) length(i, j int) float64 {
	n := len(c.pts)
	var sum float64
	for k := i; k != j; k = (k + 1) % n {
		sum += c.pts[k].Dist(c.pts[(k+1)%n])
	}
	return sum
}

// edge fits the visible points between two corners.
func (c chain) edge(i, j int, from, to geom.Pt, tol float64) geom.Curve {
	pts := []geom.Pt{from}
	n := len(c.pts)
	for k := i; k != j; k = (k + 1) % n {
		p := c.pts[k]
		if !c.hidden[k] && p.Dist(from) > 3 && p.Dist(to) > 3 {
			pts = append(pts, p)
		}
	}
	return curve(append(pts, to), tol)
}

// curve is a straight line through points where that does, otherwise cubic
// curves through the smoothed points.
func curve(pts []geom.Pt, tol float64) geom.Curve {
	if straight(pts, tol) || len(pts) < 8 {
		return geom.Curve{geom.Line(pts[0], pts[len(pts)-1])}
	}
	return geom.Fit(smoothed(pts), geom.Pt{}, geom.Pt{}, tol).Refit(tol / 2)
}

// straight reports whether the points lie on the line between the ends: all but
// one in twenty of them within tol, and none far off.
func straight(pts []geom.Pt, tol float64) bool {
	a, b := pts[0], pts[len(pts)-1]
	d := b.Sub(a).Unit()
	over := 0
	for _, p := range pts {
		m := math.Abs(d.Cross(p.Sub(a)))
		if m > 2*tol {
			return false
		}
		if m > tol {
			over++
		}
	}
	return over*20 <= len(pts)
}

// smoothed moves every point but the ends onto the parabola through what lies
// within 6 mm of it.
func smoothed(pts []geom.Pt) []geom.Pt {
	out := make([]geom.Pt, len(pts))
	copy(out, pts)
	for i := 1; i < len(pts)-1; i++ {
		lo, hi := i, i
		for lo > 0 && pts[lo-1].Dist(pts[i]) <= 6 {
			lo--
		}
		for hi < len(pts)-1 && pts[hi+1].Dist(pts[i]) <= 6 {
			hi++
		}
		if hi-lo < 5 {
			continue
		}
		b := bendOf(pts[lo : hi+1])
		out[i] = b.at(b.along(pts[i]))
	}
	return out
}

func nearAny(pts []geom.Pt, p geom.Pt, reach float64) bool {
	for _, q := range pts {
		if p.Dist(q) < reach {
			return true
		}
	}
	return false
}

func distanceTo(edges []geom.Curve, p geom.Pt) float64 {
	best := math.Inf(1)
	for _, e := range edges {
		_, d := e.Nearest(p)
		best = min(best, d)
	}
	return best
}

// onto is the place of the edges nearest to p.
func onto(edges []geom.Curve, p geom.Pt) geom.Pt {
	best, out := math.Inf(1), p
	for _, e := range edges {
		if at, d := e.Nearest(p); d < best {
			best, out = d, e.At(at)
		}
	}
	return out
}

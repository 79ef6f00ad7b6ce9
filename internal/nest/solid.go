package nest

import (
	"math"
	"slices"
)

// box is an axis-parallel rectangle.
type box struct{ x0, y0, x1, y1 float64 }

func (b box) moved(x, y float64) box { return box{b.x0 + x, b.y0 + y, b.x1 + x, b.y1 + y} }

// apart tells that the boxes leave at least the gap c between them on an axis.
func (b box) apart(o box, c float64) bool {
	return b.x0 >= o.x1+c || o.x0 >= b.x1+c || b.y0 >= o.y1+c || o.y0 >= b.y1+c
}

func (b box) holds(o box) bool {
	return b.x0 <= o.x0 && b.y0 <= o.y0 && b.x1 >= o.x1 && b.y1 >= o.y1
}

// edge is one side of a polygon with its bounding box.
type edge struct {
	ax, ay, bx, by float64
	box
}

// solid is a polygon in one orientation, prepared for the questions the
// search asks thousands of times: does it come near another, and how far must
// it slide to be free of it.
type solid struct {
	edges []edge
	box   box
	along slab // for sliding along X
	cross slab // for sliding along Y
	base  int  // what it is a quarter turn or a flip of, by its number within the field; -1 before it has one
	by    quarter
	back  [4]float64 // the matrix that undoes by, row by row
	area  float64
	blob  float64 // square root of the convex hull's area, mm
	diam  float64 // diagonal of the box, mm
}

func newSolid(ring []Pt) *solid {
	ring = tidyRing(ring)
	s := &solid{edges: make([]edge, len(ring)), base: -1}
	s.box = box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		e := edge{ax: p.X, ay: p.Y, bx: q.X, by: q.Y}
		e.box = box{min(p.X, q.X), min(p.Y, q.Y), max(p.X, q.X), max(p.Y, q.Y)}
		s.edges[i] = e
		s.box = box{min(s.box.x0, p.X), min(s.box.y0, p.Y), max(s.box.x1, p.X), max(s.box.y1, p.Y)}
	}
	s.along = newSlab(ring, false)
	s.cross = newSlab(ring, true)
	s.area = signedArea(ring)
	s.blob = math.Sqrt(signedArea(hull(ring)))
	s.diam = math.Hypot(s.box.x1-s.box.x0, s.box.y1-s.box.y0)
	return s
}

// tidyRing drops repeated points, and points on the straight line between
// their neighbours: they change no answer and cost time.
func tidyRing(ring []Pt) []Pt {
	out := make([]Pt, 0, len(ring))
	for i, p := range ring {
		if i == 0 || p != out[len(out)-1] {
			out = append(out, p)
		}
	}
	for len(out) > 3 && out[0] == out[len(out)-1] {
		out = out[:len(out)-1]
	}
	for i := 0; i < len(out) && len(out) > 3; {
		a, p, b := out[(i+len(out)-1)%len(out)], out[i], out[(i+1)%len(out)]
		if side(a, b, p) == 0 && between(a, b, p) {
			out = slices.Delete(out, i, i+1)
			continue
		}
		i++
	}
	return out
}

func between(a, b, p Pt) bool {
	return float64((p.X-a.X)*(b.X-p.X))+float64((p.Y-a.Y)*(b.Y-p.Y)) >= 0
}

// contains tells whether a point lies inside by counting edges to its right.
func (s *solid) contains(x, y float64) bool {
	in := false
	for i := range s.edges {
		e := &s.edges[i]
		if (e.ay > y) == (e.by > y) {
			continue
		}
		if x < e.ax+float64((y-e.ay)/(e.by-e.ay)*(e.bx-e.ax)) {
			in = !in
		}
	}
	return in
}

// hull is the convex hull, counter-clockwise (Andrew's monotone chain, 1979).
func hull(ring []Pt) []Pt {
	pts := slices.Clone(ring)
	slices.SortFunc(pts, func(a, b Pt) int {
		switch {
		case a.X < b.X || a.X == b.X && a.Y < b.Y:
			return -1
		case a == b:
			return 0
		}
		return 1
	})
	out := make([]Pt, 0, len(pts)+1)
	grow := func(p Pt, base int) {
		for len(out) >= base+2 && side(out[len(out)-2], out[len(out)-1], p) <= 0 {
			out = out[:len(out)-1]
		}
		out = append(out, p)
	}
	for _, p := range pts {
		grow(p, 0)
	}
	base := len(out) - 1
	for i := len(pts) - 2; i >= 0; i-- {
		grow(pts[i], base)
	}
	return out[:len(out)-1]
}

func (s *solid) ring() []Pt {
	out := make([]Pt, len(s.edges))
	for i, e := range s.edges {
		out[i] = Pt{e.ax, e.ay}
	}
	return out
}

func bounds(ring []Pt) box {
	b := box{ring[0].X, ring[0].Y, ring[0].X, ring[0].Y}
	for _, p := range ring {
		b = box{math.Min(b.x0, p.X), math.Min(b.y0, p.Y), math.Max(b.x1, p.X), math.Max(b.y1, p.Y)}
	}
	return b
}

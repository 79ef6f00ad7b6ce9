package fit

import (
	"fmt"
	"math"

	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// drawn is one graded piece made ready for blending. Its field of sizes is
// worked out on the base size, the middle one.
type drawn struct {
	use   pattern.Use
	sizes []piece.Piece // by size
	base  piece.Piece
	edges []ruler // of the base's edges
	field field
}

func ready(g piece.Graded, u pattern.Use) *drawn {
	d := &drawn{use: u, sizes: g.In, base: g.In[len(g.In)/2]}
	for _, e := range d.base.Edges {
		d.edges = append(d.edges, rule(e.Curve))
	}
	d.field.over = make([][]patch, len(d.edges))
	return d
}

// alike says in which way the sizes of a piece differ in make-up, nil when
// they do not.
func alike(g piece.Graded, n int) error {
	if n == 0 || len(g.In) != n {
		return fmt.Errorf("%d sizes are drawn of %d", len(g.In), n)
	}
	a := g.In[0]
	for i, b := range g.In {
		switch {
		case len(a.Edges) != len(b.Edges):
			return fmt.Errorf("the number of edges differs in size %d of the list", i+1)
		case len(a.Lines) != len(b.Lines) || len(a.Marks) != len(b.Marks):
			return fmt.Errorf("the number of inside lines or marks differs in size %d of the list", i+1)
		}
		for j, e := range a.Edges {
			if f := b.Edges[j]; e.Name != f.Name || len(e.Curve) != len(f.Curve) || len(e.Curve) == 0 {
				return fmt.Errorf("edge %s has %d segments in the first size and %d in size %d of the list",
					e.Name, len(e.Curve), len(f.Curve), i+1)
			}
		}
		for j, l := range a.Lines {
			if m := b.Lines[j]; l.Name != m.Name || len(l.Curve) != len(m.Curve) || len(l.Curve) == 0 {
				return fmt.Errorf("line %s differs in size %d of the list", l.Name, i+1)
			}
		}
		for j, m := range a.Marks {
			if k := b.Marks[j]; m.Name != k.Name || m.Kind != k.Kind || m.Edge != k.Edge {
				return fmt.Errorf("mark %s differs in size %d of the list", m.Name, i+1)
			}
		}
	}
	return nil
}

// ruler is a table of a curve's points by arc length, for many quick readings.
type ruler struct {
	arc []float64
	pts []geom.Pt
}

// ruled is how many readings a ruler takes of one curved segment; between them
// it goes straight, which a field of sizes cannot tell from the curve.
const ruled = 24

func rule(c geom.Curve) ruler {
	r := ruler{arc: []float64{0}, pts: []geom.Pt{c.Start()}}
	for _, s := range c {
		n := ruled
		if s.Straight {
			n = 1
		}
		from := r.length()
		var run float64
		last := r.pts[len(r.pts)-1]
		first := len(r.arc)
		for k := 1; k <= n; k++ {
			p := s.At(float64(k) / float64(n))
			run += last.Dist(p)
			r.arc, r.pts = append(r.arc, run), append(r.pts, p)
			last = p
		}
		// Stretch the chords to the true length, so that segment ends are exact.
		stretch := 1.0
		if run > 0 {
			stretch = s.Length() / run
		}
		for k := first; k < len(r.arc); k++ {
			r.arc[k] = from + float64(r.arc[k]*stretch)
		}
	}
	return r
}

func (r ruler) length() float64 { return r.arc[len(r.arc)-1] }

// at returns the point at an arc length, clamped to the ends.
func (r ruler) at(d float64) geom.Pt {
	lo, hi := 0, len(r.arc)-1
	if !(d > 0) {
		return r.pts[0]
	}
	if d >= r.arc[hi] {
		return r.pts[hi]
	}
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		if r.arc[mid] <= d {
			lo = mid
		} else {
			hi = mid
		}
	}
	span := r.arc[hi] - r.arc[lo]
	if span < 1e-12 {
		return r.pts[lo]
	}
	return r.pts[lo].Lerp(r.pts[hi], (d-r.arc[lo])/span)
}

// heights returns the lowest and highest y on the ruler.
func (r ruler) heights() (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, p := range r.pts {
		lo, hi = min(lo, p.Y), max(hi, p.Y)
	}
	return lo, hi
}

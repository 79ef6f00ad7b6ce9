package fit

import (
	"cmp"
	"math"
	"slices"

	"gusset/internal/geom"
)

// known is a size read at a place on a joined edge.
type known struct {
	p geom.Pt
	s float64
}

// gather makes the field of a piece without levels from the sizes along its
// joined edges: constant where they agree, a function of the height where one
// explains them (a fly shield along the fly), otherwise scattered.
func (d *drawn) gather(rank int) {
	if d.field.own != nil {
		return
	}
	var at []known
	for e, over := range d.field.over {
		for _, p := range over {
			n := max(int((p.to-p.from)/10), 8)
			for k := range n + 1 {
				arc := p.from + float64((p.to-p.from)*float64(k)/float64(n))
				at = append(at, known{d.edges[e].at(arc), p.at(arc)})
			}
		}
	}
	if len(at) == 0 {
		return
	}
	d.field.rank = rank
	if lo, hi := sizeRange(at); hi-lo < 1e-9 {
		d.field.own = func(geom.Pt) float64 { return lo }
		return
	}
	if f, ok := byHeight(at); ok {
		d.field.own = f
		return
	}
	d.field.own = scattered(at)
}

// byHeight returns the sizes as a smooth function of the height, when that
// explains every one of them but for a tenth of their range.
func byHeight(at []known) (func(geom.Pt) float64, bool) {
	const band = 8.0 // mm
	at = slices.Clone(at)
	slices.SortStableFunc(at, func(a, b known) int { return cmp.Compare(a.p.Y, b.p.Y) })
	var ys, ss []float64
	for i := 0; i < len(at); {
		var y, s, n float64
		for from := at[i].p.Y; i < len(at) && at[i].p.Y <= from+band; i++ {
			y, s, n = y+at[i].p.Y, s+at[i].s, n+1
		}
		ys, ss = append(ys, y/n), append(ss, s/n)
	}
	ys[0], ys[len(ys)-1] = at[0].p.Y, at[len(at)-1].p.Y
	f := geom.Monotone(ys, ss)
	lo, hi := sizeRange(at)
	for _, k := range at {
		if math.Abs(f(k.p.Y)-k.s) > (hi-lo)/10 {
			return nil, false
		}
	}
	return func(p geom.Pt) float64 { return f(p.Y) }, true
}

func sizeRange(at []known) (lo, hi float64) {
	lo, hi = at[0].s, at[0].s
	for _, k := range at {
		lo, hi = min(lo, k.s), max(hi, k.s)
	}
	return lo, hi
}

// scattered returns the mean of the sizes weighted by the inverse of the
// distance (Shepard, A two-dimensional interpolation function for irregularly
// spaced data, Proc. 23rd ACM National Conference, 1968), which stays between
// them and meets them where they were read. The fourth power keeps a place to
// the edges near it.
func scattered(at []known) func(geom.Pt) float64 {
	return func(p geom.Pt) float64 {
		var sum, weight float64
		for _, k := range at {
			d := p.Sub(k.p)
			q := d.Dot(d) + 1e-3
			w := 1 / (q * q)
			sum += float64(w * k.s)
			weight += w
		}
		return sum / weight
	}
}

package sheet

import (
	"math"

	"gusset/internal/construct"
	"gusset/internal/geom"
)

// samples is how many points of a stretch are matched with its partner.
const samples = 25

// run is a chain of stretches as it lies on the table, walked from its
// beginning.
type run struct {
	curves []geom.Curve
	length float64
}

func (r *run) add(c geom.Curve) {
	r.curves = append(r.curves, c)
	r.length += c.Length()
}

// at is the point so far along the chain.
func (r run) at(d float64) geom.Pt {
	for i, c := range r.curves {
		if l := c.Length(); d <= l || i == len(r.curves)-1 {
			return c.At(min(d, l))
		} else {
			d -= l
		}
	}
	return geom.Pt{}
}

// matched are points of a piece with the places where they should come to lie.
type matched struct{ from, to []geom.Pt }

// match pairs points of a stretch, which lies between two distances along its
// own chain of the given length, with points of a chain that lies already.
func (m *matched) match(s construct.Stretch, begin, length float64, onto run) {
	for i := range samples {
		d := s.Length() * float64(i) / (samples - 1)
		m.from = append(m.from, s.Curve.At(min(d, s.Curve.Length())))
		m.to = append(m.to, onto.at((begin+d)*onto.length/length))
	}
}

// rigid is the movement, with a turn over when mirrored is set, that brings the
// points nearest to their places in the sense of least squares, and the mean
// square that is left. In the plane the turn is the angle of the sum of the
// products of corresponding vectors from both centroids.
func (m matched) rigid(mirrored bool) (geom.Affine, float64) {
	pre := geom.Identity()
	if mirrored {
		pre = geom.Affine{A: -1, D: 1}
	}
	n := 1 / float64(len(m.from))
	var a, b geom.Pt
	for i, p := range m.from {
		a, b = a.Add(pre.Apply(p).Mul(n)), b.Add(m.to[i].Mul(n))
	}
	var dot, cross float64
	for i, p := range m.from {
		u, v := pre.Apply(p).Sub(a), m.to[i].Sub(b)
		dot += u.Dot(v)
		cross += u.Cross(v)
	}
	t := pre.Then(geom.Shift(a.Mul(-1))).Then(geom.Turn(math.Atan2(cross, dot), geom.Pt{})).Then(geom.Shift(b))
	var left float64
	for i, p := range m.from {
		d := t.Apply(p).Dist(m.to[i])
		left += float64(d * d * n)
	}
	return t, left
}

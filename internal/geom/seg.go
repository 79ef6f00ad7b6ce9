package geom

// Seg is one piece of a curve: a straight line or a cubic Bézier. A straight
// segment keeps its inner control points on the thirds of the line, so every
// algorithm can treat both alike; Straight says that it must stay a line.
type Seg struct {
	P        [4]Pt
	Straight bool
}

// Line returns the straight segment from a to b.
func Line(a, b Pt) Seg {
	return Seg{P: [4]Pt{a, a.Lerp(b, 1.0/3), a.Lerp(b, 2.0/3), b}, Straight: true}
}

// Cubic returns the Bézier segment with the given control points.
func Cubic(a, b, c, d Pt) Seg { return Seg{P: [4]Pt{a, b, c, d}} }

// Start and End are the ends of the segment.
func (s Seg) Start() Pt { return s.P[0] }

// End returns the last point of the segment.
func (s Seg) End() Pt { return s.P[3] }

// At returns the point at parameter t in 0..1.
func (s Seg) At(t float64) Pt {
	if s.Straight {
		return s.P[0].Lerp(s.P[3], t)
	}
	a, b, c := s.P[0].Lerp(s.P[1], t), s.P[1].Lerp(s.P[2], t), s.P[2].Lerp(s.P[3], t)
	d, e := a.Lerp(b, t), b.Lerp(c, t)
	return d.Lerp(e, t)
}

// Deriv returns the derivative with respect to the parameter at t.
func (s Seg) Deriv(t float64) Pt {
	if s.Straight {
		return s.P[3].Sub(s.P[0])
	}
	a, b, c := s.P[1].Sub(s.P[0]), s.P[2].Sub(s.P[1]), s.P[3].Sub(s.P[2])
	return a.Lerp(b, t).Lerp(b.Lerp(c, t), t).Mul(3)
}

// Deriv2 returns the second derivative with respect to the parameter at t.
func (s Seg) Deriv2(t float64) Pt {
	if s.Straight {
		return Pt{}
	}
	a := s.P[2].Sub(s.P[1].Mul(2)).Add(s.P[0])
	b := s.P[3].Sub(s.P[2].Mul(2)).Add(s.P[1])
	return a.Lerp(b, t).Mul(6)
}

// Tangent returns the unit direction of travel at t. Where the derivative
// vanishes (a handle of no length) the direction to the next control point
// stands in for it.
func (s Seg) Tangent(t float64) Pt {
	if d := s.Deriv(t); d.Len() > 1e-9 {
		return d.Mul(1 / d.Len())
	}
	if t < 0.5 {
		for _, q := range s.P[1:] {
			if d := q.Sub(s.P[0]); d.Len() > 1e-9 {
				return d.Mul(1 / d.Len())
			}
		}
		return Pt{}
	}
	for i := 2; i >= 0; i-- {
		if d := s.P[3].Sub(s.P[i]); d.Len() > 1e-9 {
			return d.Mul(1 / d.Len())
		}
	}
	return Pt{}
}

// Split cuts the segment at parameter t.
func (s Seg) Split(t float64) (Seg, Seg) {
	if s.Straight {
		m := s.At(t)
		return Line(s.P[0], m), Line(m, s.P[3])
	}
	a, b, c := s.P[0].Lerp(s.P[1], t), s.P[1].Lerp(s.P[2], t), s.P[2].Lerp(s.P[3], t)
	d, e := a.Lerp(b, t), b.Lerp(c, t)
	m := d.Lerp(e, t)
	return Cubic(s.P[0], a, d, m), Cubic(m, e, c, s.P[3])
}

// Between returns the part of the segment from parameter t0 to t1.
func (s Seg) Between(t0, t1 float64) Seg {
	if t0 <= 0 && t1 >= 1 {
		return s
	}
	_, right := s.Split(t0)
	if t1 >= 1 {
		return right
	}
	left, _ := right.Split((t1 - t0) / (1 - t0))
	return left
}

// Reverse returns the segment walked the other way.
func (s Seg) Reverse() Seg {
	return Seg{P: [4]Pt{s.P[3], s.P[2], s.P[1], s.P[0]}, Straight: s.Straight}
}

// Transform returns the segment under the map m.
func (s Seg) Transform(m Affine) Seg {
	for i := range s.P {
		s.P[i] = m.Apply(s.P[i])
	}
	return s
}

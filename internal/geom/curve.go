package geom

// Curve is a connected run of segments: each begins where the one before it
// ends. An edge of a piece is one curve; so is an inside line.
type Curve []Seg

// Polyline returns the curve of straight segments through pts.
func Polyline(pts ...Pt) Curve {
	var c Curve
	for i := 1; i < len(pts); i++ {
		c = append(c, Line(pts[i-1], pts[i]))
	}
	return c
}

// Start returns the first point; the curve must not be empty.
func (c Curve) Start() Pt { return c[0].P[0] }

// End returns the last point; the curve must not be empty.
func (c Curve) End() Pt { return c[len(c)-1].P[3] }

// Length returns the arc length in millimetres.
func (c Curve) Length() float64 {
	var sum float64
	for _, s := range c {
		sum += s.Length()
	}
	return sum
}

// locate finds the segment and parameter at arc length d, clamped to the ends.
func (c Curve) locate(d float64) (int, float64) {
	for i, s := range c {
		l := s.Length()
		if d <= l || i == len(c)-1 {
			return i, s.ParamAt(d)
		}
		d -= l
	}
	return 0, 0
}

// At returns the point at arc length d from the start, clamped to the ends.
func (c Curve) At(d float64) Pt {
	i, t := c.locate(d)
	return c[i].At(t)
}

// TangentAt returns the unit direction of travel at arc length d.
func (c Curve) TangentAt(d float64) Pt {
	i, t := c.locate(d)
	return c[i].Tangent(t)
}

// StartTangent returns the direction in which the curve sets out.
func (c Curve) StartTangent() Pt { return c[0].Tangent(0) }

// EndTangent returns the direction in which the curve arrives.
func (c Curve) EndTangent() Pt { return c[len(c)-1].Tangent(1) }

// Between returns the part from arc length d0 to d1, d0 < d1.
func (c Curve) Between(d0, d1 float64) Curve {
	if d1-d0 < 1e-9 {
		return nil
	}
	i, t := c.locate(d0)
	j, u := c.locate(d1)
	if i < j && 1-t < 1e-12 { // the cut falls on a joint: start with the next segment
		i, t = i+1, 0
	}
	if j > i && u < 1e-12 {
		j, u = j-1, 1
	}
	if i == j {
		return Curve{c[i].Between(t, u)}
	}
	out := Curve{c[i].Between(t, 1)}
	out = append(out, c[i+1:j]...)
	return append(out, c[j].Between(0, u))
}

// Split cuts the curve at arc length d.
func (c Curve) Split(d float64) (Curve, Curve) {
	return c.Between(0, d), c.Between(d, c.Length())
}

// Reverse returns the curve walked the other way.
func (c Curve) Reverse() Curve {
	out := make(Curve, len(c))
	for i, s := range c {
		out[len(c)-1-i] = s.Reverse()
	}
	return out
}

// Transform returns the curve under the map m.
func (c Curve) Transform(m Affine) Curve {
	out := make(Curve, len(c))
	for i, s := range c {
		out[i] = s.Transform(m)
	}
	return out
}

// Straight reports whether the curve is one straight run: every control point
// within tol of the line between its ends, and none further back along that
// line than the one before it. A curve that ends where it began is not.
func (c Curve) Straight(tol float64) bool {
	if len(c) == 0 || c.Start().Dist(c.End()) <= tol {
		return false
	}
	a, d := c.Start(), c.End().Sub(c.Start()).Unit()
	reached := 0.0
	for _, s := range c {
		for _, p := range s.P {
			v := p.Sub(a)
			if h := d.Cross(v); h > tol || h < -tol {
				return false
			}
			run := d.Dot(v)
			if run < reached-tol {
				return false
			}
			reached = max(reached, run)
		}
	}
	return true
}

// Bounds returns the corners of the box round the flattened curve.
func (c Curve) Bounds() (lo, hi Pt) { return BoundsOf(c.Flatten(0.01)) }

// BoundsOf returns the corners of the box round pts.
func BoundsOf(pts []Pt) (lo, hi Pt) {
	if len(pts) == 0 {
		return
	}
	lo, hi = pts[0], pts[0]
	for _, p := range pts[1:] {
		lo.X, lo.Y = min(lo.X, p.X), min(lo.Y, p.Y)
		hi.X, hi.Y = max(hi.X, p.X), max(hi.Y, p.Y)
	}
	return
}

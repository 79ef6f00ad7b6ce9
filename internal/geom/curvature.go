package geom

import "math"

// Curvature returns the signed curvature at parameter t in 1/mm: positive
// where the segment bends to the left. It is zero on straight segments and
// where the derivative vanishes and no curvature is defined.
func (s Seg) Curvature(t float64) float64 {
	if s.Straight {
		return 0
	}
	return bendOf(s.Deriv(t), s.Deriv2(t))
}

// bendOf is the curvature that belongs to a first and a second derivative.
func bendOf(d, dd Pt) float64 {
	l := d.Len()
	if l < 1e-9 {
		return 0
	}
	return d.Cross(dd) / l / l / l
}

// Joint is where two segments of a curve meet.
type Joint struct {
	At   float64 // arc length, mm
	Turn float64 // change of direction in radians, positive to the left, -π..π
}

// TurnAtJoints returns the turn at every inside joint of the curve. Segments of
// no length are passed over, so a joint through one is reported once.
func (c Curve) TurnAtJoints() []Joint {
	var out []Joint
	var in Pt
	var at float64
	for _, s := range c {
		l := s.Length()
		if l < 1e-9 {
			continue
		}
		if in != (Pt{}) {
			out = append(out, Joint{at, turn(in, s.Tangent(0))})
		}
		in = s.Tangent(1)
		at += l
	}
	return out
}

// Kinks returns the arc lengths of the joints at which the direction jumps by
// more than angle radians.
func (c Curve) Kinks(angle float64) []float64 {
	var out []float64
	for _, j := range c.TurnAtJoints() {
		if math.Abs(j.Turn) > angle {
			out = append(out, j.At)
		}
	}
	return out
}

// turn returns the angle from direction a to direction b.
func turn(a, b Pt) float64 { return math.Atan2(a.Cross(b), a.Dot(b)) }

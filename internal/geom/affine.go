package geom

import "math"

// Affine maps (x, y) to (A·x + C·y + E, B·x + D·y + F).
type Affine struct{ A, B, C, D, E, F float64 }

// Identity leaves every point where it is.
func Identity() Affine { return Affine{A: 1, D: 1} }

// Shift moves by v.
func Shift(v Pt) Affine { return Affine{A: 1, D: 1, E: v.X, F: v.Y} }

// Turn rotates counter-clockwise by a radians about c.
func Turn(a float64, c Pt) Affine {
	s, k := math.Sincos(a)
	r := Affine{A: k, B: s, C: -s, D: k}
	m := r.Apply(c)
	r.E, r.F = c.X-m.X, c.Y-m.Y
	return r
}

// MirrorAbout reflects in the straight line through a and b.
func MirrorAbout(a, b Pt) Affine {
	d := b.Sub(a).Unit()
	r := Affine{
		A: float64(d.X*d.X) - float64(d.Y*d.Y), B: 2 * d.X * d.Y,
		C: 2 * d.X * d.Y, D: float64(d.Y*d.Y) - float64(d.X*d.X),
	}
	m := r.Apply(a)
	r.E, r.F = a.X-m.X, a.Y-m.Y
	return r
}

// Apply returns the image of p.
func (t Affine) Apply(p Pt) Pt {
	return Pt{
		float64(t.A*p.X) + float64(t.C*p.Y) + t.E,
		float64(t.B*p.X) + float64(t.D*p.Y) + t.F,
	}
}

// Then returns the map that does t first and u after it.
func (t Affine) Then(u Affine) Affine {
	o := u.Apply(Pt{t.E, t.F})
	return Affine{
		A: float64(u.A*t.A) + float64(u.C*t.B), B: float64(u.B*t.A) + float64(u.D*t.B),
		C: float64(u.A*t.C) + float64(u.C*t.D), D: float64(u.B*t.C) + float64(u.D*t.D),
		E: o.X, F: o.Y,
	}
}

// Mirrors reports whether the map turns the plane over.
func (t Affine) Mirrors() bool { return float64(t.A*t.D)-float64(t.B*t.C) < 0 }

package geom

import "math"

// Pt is a point or a vector in millimetres.
type Pt struct{ X, Y float64 }

// Add returns p + q.
func (p Pt) Add(q Pt) Pt { return Pt{p.X + q.X, p.Y + q.Y} }

// Sub returns p - q.
func (p Pt) Sub(q Pt) Pt { return Pt{p.X - q.X, p.Y - q.Y} }

// Mul returns p scaled by k.
func (p Pt) Mul(k float64) Pt { return Pt{p.X * k, p.Y * k} }

// Dot returns the scalar product.
func (p Pt) Dot(q Pt) float64 { return float64(p.X*q.X) + float64(p.Y*q.Y) }

// Cross returns the z component of the vector product: positive when q lies
// counter-clockwise of p.
func (p Pt) Cross(q Pt) float64 { return float64(p.X*q.Y) - float64(p.Y*q.X) }

// Len returns the length of the vector. Lengths in millimetres need none of the
// care that math.Hypot takes with the largest and the smallest numbers, which
// costs several times as much.
func (p Pt) Len() float64 { return math.Sqrt(float64(p.X*p.X) + float64(p.Y*p.Y)) }

// Dist returns the distance between two points.
func (p Pt) Dist(q Pt) float64 { return p.Sub(q).Len() }

// Unit returns the vector scaled to length 1, or the zero vector for one
// shorter than a nanometre.
func (p Pt) Unit() Pt {
	l := p.Len()
	if l < 1e-6 {
		return Pt{}
	}
	return p.Mul(1 / l)
}

// Left returns the vector turned a quarter counter-clockwise: the side on
// which the inside of a counter-clockwise loop lies.
func (p Pt) Left() Pt { return Pt{-p.Y, p.X} }

// Lerp returns the point a fraction t of the way from p to q.
func (p Pt) Lerp(q Pt, t float64) Pt {
	return Pt{p.X + float64((q.X-p.X)*t), p.Y + float64((q.Y-p.Y)*t)}
}

// Rot returns the vector turned counter-clockwise by a radians.
func (p Pt) Rot(a float64) Pt {
	s, c := math.Sincos(a)
	return Pt{float64(p.X*c) - float64(p.Y*s), float64(p.X*s) + float64(p.Y*c)}
}

// Angle returns the direction of the vector in radians, -π..π.
func (p Pt) Angle() float64 { return math.Atan2(p.Y, p.X) }

// Finite reports whether both coordinates are numbers.
func (p Pt) Finite() bool {
	return !math.IsNaN(p.X) && !math.IsInf(p.X, 0) && !math.IsNaN(p.Y) && !math.IsInf(p.Y, 0)
}

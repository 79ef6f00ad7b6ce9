package geom

import (
	"math"
	"math/big"
)

// Every decision about sides is taken here, so that its rounding is bounded in
// one place.

// orientBound is the relative error bound of the rounded orientation
// determinant: (3 + 16ε)ε with ε = 2⁻⁵³ (Shewchuk, Adaptive Precision
// Floating-Point Arithmetic and Fast Robust Geometric Predicates, Discrete &
// Computational Geometry 18, 1997, bound A of Orient2D).
const orientBound = 3.3306690738754716e-16

// tinyProduct is the size below which products may have lost digits to
// underflow, which the bound does not cover.
const tinyProduct = 1e-280

// Orient returns +1 when c lies left of the line from a to b, -1 when it lies
// right, 0 when the three points are exactly in line. The answer is exact for
// all finite points.
func Orient(a, b, c Pt) int {
	l := float64((a.X - c.X) * (b.Y - c.Y))
	r := float64((a.Y - c.Y) * (b.X - c.X))
	if (a.X == c.X || b.Y == c.Y) && (a.Y == c.Y || b.X == c.X) {
		return 0
	}
	det, size := l-r, math.Abs(l)+math.Abs(r)
	if size > tinyProduct {
		if bound := orientBound * size; det > bound {
			return 1
		} else if -det > bound {
			return -1
		}
	}
	return orientExact(a, b, c)
}

// orientExact computes the sign with as many digits as it takes.
func orientExact(a, b, c Pt) int {
	num := func(x float64) *big.Float { return new(big.Float).SetPrec(big.MaxPrec).SetFloat64(x) }
	sub := func(x, y float64) *big.Float { return num(0).Sub(num(x), num(y)) }
	l := num(0).Mul(sub(a.X, c.X), sub(b.Y, c.Y))
	r := num(0).Mul(sub(a.Y, c.Y), sub(b.X, c.X))
	return l.Cmp(r)
}

// inBox reports whether p lies in the box spanned by a and b, edges included.
func inBox(a, b, p Pt) bool {
	return min(a.X, b.X) <= p.X && p.X <= max(a.X, b.X) &&
		min(a.Y, b.Y) <= p.Y && p.Y <= max(a.Y, b.Y)
}

// meet reports whether the closed segments a-b and c-d share a point, exactly.
func meet(a, b, c, d Pt) bool {
	o1, o2 := Orient(a, b, c), Orient(a, b, d)
	o3, o4 := Orient(c, d, a), Orient(c, d, b)
	if o1*o2 < 0 && o3*o4 < 0 {
		return true
	}
	return o1 == 0 && inBox(a, b, c) || o2 == 0 && inBox(a, b, d) ||
		o3 == 0 && inBox(c, d, a) || o4 == 0 && inBox(c, d, b)
}

// meetingPoint returns a point shared by two segments that meet: an end that
// lies on the other where there is one, else the computed crossing.
func meetingPoint(a, b, c, d Pt) Pt {
	switch {
	case Orient(a, b, c) == 0 && inBox(a, b, c):
		return c
	case Orient(a, b, d) == 0 && inBox(a, b, d):
		return d
	case Orient(c, d, a) == 0 && inBox(c, d, a):
		return a
	case Orient(c, d, b) == 0 && inBox(c, d, b):
		return b
	}
	u, v := b.Sub(a), d.Sub(c)
	den := u.Cross(v)
	if den == 0 {
		return a.Lerp(b, 0.5)
	}
	t := c.Sub(a).Cross(v) / den
	return a.Lerp(b, min(max(t, 0), 1))
}

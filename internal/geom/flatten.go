package geom

import "math"

// Flatten returns points on the curve such that the polyline through them
// stays within tol millimetres of it. The ends of every segment are among
// them.
func (c Curve) Flatten(tol float64) []Pt {
	if len(c) == 0 {
		return nil
	}
	out := []Pt{c[0].P[0]}
	for _, s := range c {
		n := s.steps(tol)
		for k := 1; k < n; k++ {
			out = append(out, s.At(float64(k)/float64(n)))
		}
		out = append(out, s.P[3])
	}
	return out
}

// steps returns how many equal parameter steps keep a chord within tol of the
// segment: the chord error is at most h²/8 times the largest second derivative
// (the standard bound for linear interpolation).
func (s Seg) steps(tol float64) int {
	if s.Straight {
		return 1
	}
	bend := math.Max(s.Deriv2(0).Len(), s.Deriv2(1).Len())
	n := int(math.Ceil(math.Sqrt(bend / (8 * tol))))
	return min(max(n, 1), 4096)
}

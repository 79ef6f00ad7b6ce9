package geom

import "math"

// lengthTol is how closely arc lengths are computed, in millimetres. It is far
// below anything that cloth can show, so that sums over a garment stay exact.
const lengthTol = 1e-7

// gauss5 holds the nodes and weights of five-point Gauss-Legendre quadrature
// on 0..1 (Abramowitz and Stegun, Handbook of Mathematical Functions, table
// 25.4, moved from -1..1).
var gauss5 = [5][2]float64{
	{0.5, 0.2844444444444444},
	{0.2307653449471585, 0.2393143352496832},
	{0.7692346550528415, 0.2393143352496832},
	{0.0469100770306680, 0.1184634425280945},
	{0.9530899229693320, 0.1184634425280945},
}

// Length returns the arc length of the segment in millimetres.
func (s Seg) Length() float64 { return s.LengthTo(1) }

// LengthTo returns the arc length from the start to parameter t.
func (s Seg) LengthTo(t float64) float64 {
	if s.Straight {
		return s.P[0].Dist(s.P[3]) * t
	}
	return s.lengthBetween(0, t, s.quad(0, t), 0)
}

func (s Seg) quad(t0, t1 float64) float64 {
	var sum float64
	for _, g := range gauss5 {
		sum += g[1] * s.Deriv(t0+(t1-t0)*g[0]).Len()
	}
	return sum * (t1 - t0)
}

func (s Seg) lengthBetween(t0, t1, whole float64, depth int) float64 {
	mid := (t0 + t1) / 2
	l, r := s.quad(t0, mid), s.quad(mid, t1)
	if depth > 16 || !(math.Abs(l+r-whole) >= lengthTol) { // what is not a number is not halved either
		return l + r
	}
	return s.lengthBetween(t0, mid, l, depth+1) + s.lengthBetween(mid, t1, r, depth+1)
}

// ParamAt returns the parameter at arc length d from the start, clamped to
// 0..1.
func (s Seg) ParamAt(d float64) float64 {
	total := s.Length()
	if d <= 0 || total < 1e-12 {
		return 0
	}
	if d >= total {
		return 1
	}
	if s.Straight {
		return d / total
	}
	lo, hi := 0.0, 1.0
	t := d / total
	for range 60 {
		miss := s.LengthTo(t) - d
		if math.Abs(miss) < lengthTol {
			return t
		}
		if miss > 0 {
			hi = t
		} else {
			lo = t
		}
		if v := s.Deriv(t).Len(); v > 1e-9 {
			t -= miss / v
		}
		if t <= lo || t >= hi {
			t = (lo + hi) / 2
		}
	}
	return t
}

package geom

import (
	"fmt"
	"math"
)

// FoldError says that a parallel curve would fold over itself: the curve bends,
// or turns a corner, more tightly than the distance allows.
type FoldError struct {
	At float64 // arc length of the tightest place on the given curve, mm
	D  float64 // the distance asked for, mm
}

func (e *FoldError) Error() string {
	return fmt.Sprintf("a parallel at %.3g mm folds over at %.1f mm along the curve", e.D, e.At)
}

// foldSlack is how many millimetres a parallel may run backwards unnoticed: a
// handle of no length has infinite curvature at its end, but over a stretch
// too short to matter.
const foldSlack = 1e-3

// fold reports the parameter at which the parallel at d runs backwards most.
// The parallel moves at the pace (1 - κd) of the curve, so it runs backwards
// where the curvature κ on that side exceeds 1/d.
func (s Seg) fold(d float64) (t float64, folds bool) {
	if s.Straight || d == 0 {
		return 0, false
	}
	const n = 48
	pace := func(t float64) float64 { return 1 - float64(s.Curvature(t)*d) }
	param := func(k int) float64 { return min(max(float64(k)/n, 1e-7), 1-1e-7) }
	var paces [n + 1]float64
	for k := range paces {
		paces[k] = pace(param(k))
	}
	least := 0.0
	for k := 0; k <= n; k++ {
		low := param(k)
		if k > 0 && k < n && paces[k] < paces[k-1] && paces[k] < paces[k+1] {
			low = lowest(pace, param(k-1), param(k+1))
		}
		if v := pace(low); v <= least && s.backward(d, pace, low) > foldSlack {
			t, least, folds = low, v, true
		}
	}
	return t, folds
}

// lowest narrows down the low point of f between lo and hi by golden section.
func lowest(f func(float64) float64, lo, hi float64) float64 {
	const g = 0.6180339887498949
	a, b := lo, hi
	x, y := b-float64(g*(b-a)), a+float64(g*(b-a))
	fx, fy := f(x), f(y)
	for range 40 {
		if fx < fy {
			b, y, fy = y, x, fx
			x = b - float64(g*(b-a))
			fx = f(x)
		} else {
			a, x, fx = x, y, fy
			y = a + float64(g*(b-a))
			fy = f(y)
		}
	}
	return (a + b) / 2
}

// backward returns how many millimetres the parallel runs backwards round t.
func (s Seg) backward(d float64, pace func(float64) float64, t float64) float64 {
	edge := func(out, in float64) float64 {
		if pace(out) <= 0 {
			return out
		}
		for range 40 {
			m := (out + in) / 2
			if pace(m) > 0 {
				out = m
			} else {
				in = m
			}
		}
		return in
	}
	const step = 1.0 / 96
	lo, hi := t, t
	for lo > 0 && pace(lo) <= 0 {
		lo -= step
	}
	for hi < 1 && pace(hi) <= 0 {
		hi += step
	}
	lo, hi = edge(max(lo, 0), t), edge(min(hi, 1), t)
	var sum float64
	const n = 32
	for k := range n {
		a, b := lo+float64((hi-lo)*float64(k)/n), lo+float64((hi-lo)*float64(k+1)/n)
		mid := (a + b) / 2
		sum -= pace(mid) * s.Deriv(mid).Len() * (b - a)
	}
	if math.IsNaN(sum) {
		return math.Inf(1)
	}
	return sum
}

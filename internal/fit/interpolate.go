package fit

import (
	"math"

	"gusset/internal/geom"
)

// between returns the value at position s of a size list, given one value per
// size: exactly the printed one on a printed size, and between two of them on
// the smooth monotone curve through all.
func between(values []float64, s float64) float64 {
	n := len(values)
	if i := int(math.Round(s)); math.Abs(s-float64(i)) < 1e-12 || s <= 0 || s >= float64(n-1) {
		return values[min(max(i, 0), n-1)]
	}
	xs := make([]float64, n)
	for k := range xs {
		xs[k] = float64(k)
	}
	return geom.Monotone(xs, values)(s)
}

// invert finds the position at which between reaches a value. The values must
// not fall; on a level stretch the first position is returned.
func invert(values []float64, v float64) float64 {
	lo, hi := 0.0, float64(len(values)-1)
	for i, w := range values {
		if w == v {
			return float64(i)
		}
		if w < v {
			lo = float64(i)
		} else {
			hi = float64(i)
			break
		}
	}
	for range 60 {
		mid := (lo + hi) / 2
		if between(values, mid) < v {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

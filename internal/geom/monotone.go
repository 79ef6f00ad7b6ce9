package geom

import (
	"math"
	"sort"
)

// Monotone returns a smooth curve through the points (xs[i], ys[i]) that rises
// only where neighbouring points rise and falls only where they fall: it has a
// continuous slope and never overshoots between neighbours. Outside the given
// range it keeps the end value. xs must increase; a point whose x does not
// exceed the one before it is left out. Without points the function is zero.
//
// The slopes are those of Fritsch and Carlson, Monotone Piecewise Cubic
// Interpolation, SIAM Journal on Numerical Analysis 17(2), 1980.
func Monotone(xs, ys []float64) func(x float64) float64 {
	var x, y []float64
	for i := range min(len(xs), len(ys)) {
		if len(x) == 0 || xs[i] > x[len(x)-1] {
			x, y = append(x, xs[i]), append(y, ys[i])
		}
	}
	switch len(x) {
	case 0:
		return func(float64) float64 { return 0 }
	case 1:
		return func(float64) float64 { return y[0] }
	}
	m := monotoneSlopes(x, y)
	last := len(x) - 1
	return func(at float64) float64 {
		if !(at > x[0]) {
			return y[0]
		}
		if at >= x[last] {
			return y[last]
		}
		i := sort.SearchFloat64s(x, at)
		if x[i] == at {
			return y[i]
		}
		i--
		return hermite(at-x[i], x[i+1]-x[i], y[i], y[i+1], m[i], m[i+1])
	}
}

// hermite evaluates the cubic on 0..h with the given end values and slopes and
// keeps rounding from leaving the range of the end values of a monotone piece.
func hermite(d, h, y0, y1, m0, m1 float64) float64 {
	t := d / h
	u := 1 - t
	v := float64(u*u*(1+2*t)*y0) + float64(t*t*(1+2*u)*y1) + float64(h*t*u*(float64(u*m0)-float64(t*m1)))
	return min(max(v, min(y0, y1)), max(y0, y1))
}

// monotoneSlopes starts from slopes weighted by the neighbouring intervals and
// shortens them into the circle of radius 3 that guarantees monotone pieces.
func monotoneSlopes(x, y []float64) []float64 {
	n := len(x)
	s := make([]float64, n-1)
	for i := range s {
		s[i] = (y[i+1] - y[i]) / (x[i+1] - x[i])
	}
	m := make([]float64, n)
	m[0], m[n-1] = s[0], s[n-2]
	for i := 1; i < n-1; i++ {
		if s[i-1]*s[i] > 0 {
			h0, h1 := x[i]-x[i-1], x[i+1]-x[i]
			m[i] = (float64(h1*s[i-1]) + float64(h0*s[i])) / (h0 + h1)
		}
	}
	for i, d := range s {
		if d == 0 {
			m[i], m[i+1] = 0, 0
			continue
		}
		a, b := m[i]/d, m[i+1]/d
		if r := math.Hypot(a, b); r > 3 {
			m[i], m[i+1] = 3/r*a*d, 3/r*b*d
		}
	}
	return m
}

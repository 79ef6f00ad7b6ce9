package exchange

import (
	"fmt"

	"gonum.org/v1/gonum/interp"

	"gusset/internal/geom"
)

// smoothThrough is the curve that a bent ruler takes through points: in each
// coordinate a cubic spline over the length of the chords, with no knot in its
// first and last inner point, so that it goes to its ends as it runs inside. Two
// points give a straight line, three a parabola. Points must not repeat.
func smoothThrough(pts []geom.Pt) (geom.Curve, error) {
	n := len(pts)
	if n == 2 {
		return geom.Curve{geom.Line(pts[0], pts[1])}, nil
	}
	s, xs, ys := make([]float64, n), make([]float64, n), make([]float64, n)
	for i, p := range pts {
		xs[i], ys[i] = p.X, p.Y
		if i > 0 {
			d := p.Dist(pts[i-1])
			if d < 0.1 {
				return nil, fmt.Errorf("two points lie on each other")
			}
			s[i] = s[i-1] + d
		}
	}
	slope := func(vs []float64) ([]float64, error) {
		if n == 3 {
			return parabola(s, vs), nil
		}
		var c interp.NotAKnotCubic
		if err := c.Fit(s, vs); err != nil {
			return nil, err
		}
		out := make([]float64, n)
		for i := range out {
			out[i] = c.PredictDerivative(s[i])
		}
		return out, nil
	}
	dx, err := slope(xs)
	if err != nil {
		return nil, err
	}
	dy, err := slope(ys)
	if err != nil {
		return nil, err
	}
	var out geom.Curve
	for i := 1; i < n; i++ {
		h := (s[i] - s[i-1]) / 3
		a := pts[i-1].Add(geom.Pt{X: dx[i-1], Y: dy[i-1]}.Mul(h))
		b := pts[i].Sub(geom.Pt{X: dx[i], Y: dy[i]}.Mul(h))
		out = append(out, geom.Cubic(pts[i-1], a, b, pts[i]))
	}
	return out, nil
}

// parabola is the slopes at three places of the parabola through three values.
func parabola(s, v []float64) []float64 {
	h, k := s[1]-s[0], s[2]-s[1]
	a, b := (v[1]-v[0])/h, (v[2]-v[1])/k
	c := (b - a) / (h + k)
	return []float64{a - c*h, a + c*h, b + c*k}
}

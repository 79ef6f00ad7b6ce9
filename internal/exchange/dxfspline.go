package exchange

import (
	"math"
	"strconv"

	"gusset/internal/geom"
)

// maxSplinePoints bounds the control points of one SPLINE.
const maxSplinePoints = 20_000

// spline reads a SPLINE as the curve that it is (DXF reference, SPLINE): degree
// 1, 2 or 3, its weights all alike, by control points and knots. Others, and
// those given by points on the curve alone, are not read, and told.
func (r *dxfReader) spline(e entity) geom.Curve {
	b := bspline{degree: 3}
	if t := e.text(71); t != "" {
		b.degree, _ = strconv.Atoi(t)
	}
	var weights []float64
	for _, g := range e.groups {
		if g.code != 10 && g.code != 20 && g.code != 40 && g.code != 41 {
			continue
		}
		v, err := strconv.ParseFloat(orZero(g.value), 64)
		if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
			r.tell(dxfNumber, r.lines.at(g.line), shown(g.value), g.code, e.kind)
			return nil
		}
		switch g.code {
		case 40:
			b.knots = append(b.knots, v)
		case 41:
			weights = append(weights, v)
		case 10:
			p, ok := r.value(g, e.kind)
			if !ok {
				return nil
			}
			b.points = append(b.points, geom.Pt{X: p})
		case 20:
			p, ok := r.value(g, e.kind)
			if !ok {
				return nil
			}
			if n := len(b.points); n > 0 {
				b.points[n-1].Y = p
			}
		}
	}
	if !b.sound() || !allAlike(weights) {
		r.tell(dxfEntity, r.lines.at(e.line), e.kind, shown(e.layer()))
		return nil
	}
	return tidied(b.curve())
}

func allAlike(v []float64) bool {
	for _, w := range v {
		if math.Abs(w-v[0]) > 1e-9*math.Abs(v[0]) {
			return false
		}
	}
	return true
}

// bspline is a curve by control points and knots.
type bspline struct {
	degree int
	points []geom.Pt
	knots  []float64
}

// sound reports whether the knots go with the points, and do not run backwards.
func (b bspline) sound() bool {
	n := len(b.points)
	if b.degree < 1 || b.degree > 3 || n <= b.degree || n > maxSplinePoints || len(b.knots) != n+b.degree+1 {
		return false
	}
	for i := 1; i < len(b.knots); i++ {
		if b.knots[i] < b.knots[i-1] {
			return false
		}
	}
	return b.knots[b.degree] < b.knots[n]
}

// curve is the spline between its first and last full knot, one cubic for each
// span.
func (b bspline) curve() geom.Curve {
	var c geom.Curve
	for k := b.degree; k < len(b.points); k++ {
		u, v := b.knots[k], b.knots[k+1]
		if u == v {
			continue
		}
		switch b.degree {
		case 1:
			c = append(c, geom.Line(b.polar(k, u), b.polar(k, v)))
		case 2: // raised to a cubic
			p, q, s := b.polar(k, u, u), b.polar(k, u, v), b.polar(k, v, v)
			c = append(c, geom.Cubic(p, p.Lerp(q, 2.0/3), s.Lerp(q, 2.0/3), s))
		default:
			c = append(c, geom.Cubic(b.polar(k, u, u, u), b.polar(k, u, u, v), b.polar(k, u, v, v), b.polar(k, v, v, v)))
		}
	}
	return c
}

// polar is the polar form of the span that begins at knot k, at as many values as
// its degree: for the ends of the span it gives the control points of the Bézier
// curve there (Ramshaw, Blossoms Are Polar Forms, Computer Aided Geometric Design
// 6(4), 1989).
func (b bspline) polar(k int, at ...float64) geom.Pt {
	var d [4]geom.Pt
	copy(d[:], b.points[k-b.degree:k+1])
	for r, t := range at {
		for j := b.degree; j > r; j-- {
			lo, hi := b.knots[k-b.degree+j], b.knots[k+j-r]
			d[j] = d[j-1].Lerp(d[j], (t-lo)/(hi-lo))
		}
	}
	return d[b.degree]
}

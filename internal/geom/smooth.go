package geom

// Smooth returns a curve through all the points with continuous direction and
// curvature: the cubic spline over chord length. A zero end direction gives a
// natural end (no curvature there), any other is taken as the direction of
// travel. Two points with natural ends give a straight segment; repeated
// points are passed over; fewer than two different points give nil.
func Smooth(pts []Pt, startTan, endTan Pt) Curve {
	pts = distinct(pts)
	n := len(pts)
	if n < 2 {
		return nil
	}
	a, b := unit(startTan), unit(endTan)
	if n == 2 && a == (Pt{}) && b == (Pt{}) {
		return Curve{Line(pts[0], pts[1])}
	}
	h := make([]float64, n-1)
	for i := range h {
		h[i] = pts[i].Dist(pts[i+1])
	}
	m := splineSlopes(pts, h, a, b)
	out := make(Curve, n-1)
	for i := range out {
		k := h[i] / 3
		out[i] = Cubic(pts[i], pts[i].Add(m[i].Mul(k)), pts[i+1].Sub(m[i+1].Mul(k)), pts[i+1])
	}
	return out
}

// splineSlopes solves the tridiagonal system for the derivative at each point
// (de Boor, A Practical Guide to Splines, chapter IV).
func splineSlopes(pts []Pt, h []float64, a, b Pt) []Pt {
	n := len(pts)
	lower, diag, upper := make([]float64, n), make([]float64, n), make([]float64, n)
	rhs := make([]Pt, n)
	chord := func(i int) Pt { return pts[i+1].Sub(pts[i]).Mul(1 / h[i]) }
	for i := 1; i < n-1; i++ {
		lower[i], diag[i], upper[i] = h[i], 2*(h[i-1]+h[i]), h[i-1]
		rhs[i] = chord(i - 1).Mul(3 * h[i]).Add(chord(i).Mul(3 * h[i-1]))
	}
	diag[0], upper[0], rhs[0] = 2, 1, chord(0).Mul(3)
	if a != (Pt{}) {
		diag[0], upper[0], rhs[0] = 1, 0, a
	}
	diag[n-1], lower[n-1], rhs[n-1] = 2, 1, chord(n-2).Mul(3)
	if b != (Pt{}) {
		diag[n-1], lower[n-1], rhs[n-1] = 1, 0, b
	}
	for i := 1; i < n; i++ {
		k := lower[i] / diag[i-1]
		diag[i] -= float64(k * upper[i-1])
		rhs[i] = rhs[i].Sub(rhs[i-1].Mul(k))
	}
	rhs[n-1] = rhs[n-1].Mul(1 / diag[n-1])
	for i := n - 2; i >= 0; i-- {
		rhs[i] = rhs[i].Sub(rhs[i+1].Mul(upper[i])).Mul(1 / diag[i])
	}
	return rhs
}

package geom

import "math"

// Fitting finds one cubic whose ends and end directions are given and whose two
// handle lengths are free, by least squares with repeated projection of the
// points (Schneider, An Algorithm for Automatically Fitting Digitized Curves,
// Graphics Gems, 1990). After the first solution only the part of each miss
// that is square to the curve counts, which converges in a few rounds where
// plain reparametrising takes dozens (tangent distance minimisation: Wang,
// Pottmann, Liu, ACM Transactions on Graphics 25(2), 2006).

// Fit returns cubics through the first and last of pts that pass every other
// point within tol millimetres. startTan and endTan are directions of travel;
// a zero vector leaves the direction to be taken from the points. Inside
// joints are smooth. Repeated points are passed over; fewer than two different
// points give nil.
func Fit(pts []Pt, startTan, endTan Pt, tol float64) Curve {
	pts = distinct(pts)
	if len(pts) < 2 {
		return nil
	}
	a, b := startTan.Unit(), endTan.Unit()
	if a == (Pt{}) {
		a = endDirection(pts)
	}
	if b == (Pt{}) {
		b = backDirection(pts)
	}
	return fitPoints(pts, a, b, tol)
}

func fitPoints(pts []Pt, a, b Pt, tol float64) Curve {
	s, miss, worst := fitOne(pts, a, b, tol)
	if miss <= tol || len(pts) == 2 {
		return Curve{s}
	}
	mid := min(max(worst, 1), len(pts)-2)
	m := middleDirection(pts[mid-1], pts[mid], pts[mid+1])
	return append(fitPoints(pts[:mid+1], a, m, tol), fitPoints(pts[mid:], m, b, tol)...)
}

// distinct drops points that repeat the one before them.
func distinct(pts []Pt) []Pt {
	var out []Pt
	for _, p := range pts {
		if len(out) == 0 || p.Dist(out[len(out)-1]) > 1e-9 {
			out = append(out, p)
		}
	}
	return out
}

// endDirection is the direction at the first point of the parabola through the
// first three, by chord length.
func endDirection(pts []Pt) Pt {
	d := pts[1].Sub(pts[0])
	if len(pts) == 2 {
		return unit(d)
	}
	e := pts[2].Sub(pts[1])
	h, k := d.Len(), e.Len()
	v, w := d.Mul(1/h), e.Mul(1/k)
	if r := unit(v.Add(v.Sub(w).Mul(h / (h + k)))); r != (Pt{}) {
		return r
	}
	return v
}

func backDirection(pts []Pt) Pt {
	n := len(pts)
	if n == 2 {
		return unit(pts[1].Sub(pts[0]))
	}
	return endDirection([]Pt{pts[n-1], pts[n-2], pts[n-3]}).Mul(-1)
}

// middleDirection is the direction at q of the parabola through p, q, r.
func middleDirection(p, q, r Pt) Pt {
	d, e := q.Sub(p), r.Sub(q)
	h, k := d.Len(), e.Len()
	if m := unit(d.Mul(k / h).Add(e.Mul(h / k))); m != (Pt{}) {
		return m
	}
	return unit(d.Left()) // the points turn straight back: go across
}

// unit is Unit without its lower limit, for vectors of any length.
func unit(p Pt) Pt {
	if l := p.Len(); l > 0 && !math.IsInf(1/l, 0) {
		return p.Mul(1 / l)
	}
	return Pt{}
}

// fitOne returns the cubic from the first to the last point with end
// directions a and b that comes nearest to pts, the largest miss, and where.
func fitOne(pts []Pt, a, b Pt, tol float64) (s Seg, miss float64, worst int) {
	n := len(pts) - 1
	span := pts[0].Dist(pts[n])
	u, run := chordParams(pts)
	if n == 1 {
		s = handles(pts[0], pts[n], a, b, span/3, span/3)
		return s, 0, 0
	}
	al, be, ok := solveHandles(pts, u, a, b)
	if !ok || al < run*shortest || be < run*shortest || al > 3*run || be > 3*run {
		al, be = run/3, run/3
	}
	s = handles(pts[0], pts[n], a, b, al, be)
	if runsBack(s) {
		al, be = run/3, run/3
		s = handles(pts[0], pts[n], a, b, al, be)
	}
	miss, worst = project(s, pts, u)
	for range 16 {
		if miss <= tol/8 {
			break
		}
		da, db, ok := squareStep(s, pts, u, a, b, 0)
		if !ok {
			break
		}
		// The step is made for the sum of squares; it is halved until the largest
		// miss falls as well.
		var next Seg
		var v []float64
		var m float64
		var w int
		var al2, be2 float64
		better := false
		for k := 1.0; k > 0.02 && !better; k /= 2 {
			al2, be2 = max(al+float64(k*da), run*shortest), max(be+float64(k*db), run*shortest)
			next = handles(pts[0], pts[n], a, b, al2, be2)
			if runsBack(next) {
				continue
			}
			v = append([]float64(nil), u...)
			m, w = project(next, pts, v)
			better = m < miss
		}
		if !better {
			break
		}
		gain := miss - m
		s, u, miss, worst, al, be = next, v, m, w, al2, be2
		if gain < miss*0.01 {
			break
		}
	}
	return s, miss, worst
}

// shortest is the least share of the run that a handle is given; that of an even
// bend is a third. Distances to points almost in line hardly depend on the
// handles, and a shorter one makes a hook: a bend of a fraction of a millimetre
// that no point shows and every parallel folds at.
const shortest = 0.1

func handles(p, q, a, b Pt, al, be float64) Seg {
	return Cubic(p, p.Add(a.Mul(al)), q.Sub(b.Mul(be)), q)
}

// runsBack reports whether a cubic that sets out and arrives along its chord
// turns back on the way. On points almost in line such a curve can come as near
// to them as a good one, but it is longer than they are. Along the chord its
// speed is a quadratic with Bernstein coefficients u, v, w, which has a zero
// inside when v is below the negative geometric mean of u and w.
func runsBack(s Seg) bool {
	chord := s.P[3].Sub(s.P[0])
	u, v, w := s.P[1].Sub(s.P[0]).Dot(chord), s.P[2].Sub(s.P[1]).Dot(chord), s.P[3].Sub(s.P[2]).Dot(chord)
	return u > 0 && w > 0 && v < -math.Sqrt(float64(u*w))
}

// chordParams spreads parameters by distance along the points.
func chordParams(pts []Pt) (u []float64, run float64) {
	u = make([]float64, len(pts))
	for i := 1; i < len(pts); i++ {
		run += pts[i].Dist(pts[i-1])
		u[i] = run
	}
	for i := range u {
		u[i] /= run
	}
	return u, run
}

func bernstein(t float64) (b0, b1, b2, b3 float64) {
	v := 1 - t
	return v * v * v, 3 * t * v * v, 3 * t * t * v, t * t * t
}

// solveHandles is Schneider's least squares for the two handle lengths.
func solveHandles(pts []Pt, u []float64, a, b Pt) (al, be float64, ok bool) {
	p, q := pts[0], pts[len(pts)-1]
	var c00, c01, c11, x0, x1 float64
	for i, t := range u {
		b0, b1, b2, b3 := bernstein(t)
		v, w := a.Mul(b1), b.Mul(-b2)
		r := pts[i].Sub(p.Mul(b0 + b1)).Sub(q.Mul(b2 + b3))
		c00, c01, c11 = c00+v.Dot(v), c01+v.Dot(w), c11+w.Dot(w)
		x0, x1 = x0+v.Dot(r), x1+w.Dot(r)
	}
	return solve2(c00, c01, c11, x0, x1)
}

// squareStep improves the handle lengths against the misses square to the
// curve, held back by the damping.
func squareStep(s Seg, pts []Pt, u []float64, a, b Pt, damping float64) (da, db float64, ok bool) {
	var c00, c01, c11, x0, x1 float64
	for i, t := range u {
		_, b1, b2, _ := bernstein(t)
		n := s.Tangent(t).Left()
		v, w := n.Dot(a)*b1, -n.Dot(b)*b2
		r := n.Dot(pts[i].Sub(s.At(t)))
		c00, c01, c11 = c00+float64(v*v), c01+float64(v*w), c11+float64(w*w)
		x0, x1 = x0+float64(v*r), x1+float64(w*r)
	}
	return solve2(c00*(1+damping), c01, c11*(1+damping), x0, x1)
}

// solve2 solves the symmetric system of two equations.
func solve2(a, b, d, x, y float64) (p, q float64, ok bool) {
	det := float64(a*d) - float64(b*b)
	if !(math.Abs(det) > 1e-12*float64(a*d)) {
		return 0, 0, false
	}
	return (float64(x*d) - float64(b*y)) / det, (float64(a*y) - float64(b*x)) / det, true
}

// project moves every parameter to the nearest place on s and returns the
// largest distance and where it is.
func project(s Seg, pts []Pt, u []float64) (miss float64, worst int) {
	for i := 1; i < len(pts)-1; i++ {
		t := u[i]
		for range 4 {
			e, d := s.At(t).Sub(pts[i]), s.Deriv(t)
			den := d.Dot(d) + e.Dot(s.Deriv2(t))
			if !(den > 0) {
				break
			}
			step := e.Dot(d) / den
			t = min(max(t-step, 0), 1)
			if math.Abs(step) < 1e-9 {
				break
			}
		}
		u[i] = t
		if m := s.At(t).Dist(pts[i]); m > miss {
			miss, worst = m, i
		}
	}
	return miss, worst
}

// FitOne returns the one cubic with the given end directions (a zero vector
// leaves one to be taken from the points) that comes nearest to pts, and by how
// much it misses the worst of them, in mm; looking on ends below tol. Fewer than
// two different points give false.
func FitOne(pts []Pt, startTan, endTan Pt, tol float64) (s Seg, miss float64, ok bool) {
	pts = distinct(pts)
	if len(pts) < 2 {
		return Seg{}, 0, false
	}
	a, b := startTan.Unit(), endTan.Unit()
	if a == (Pt{}) {
		a = endDirection(pts)
	}
	if b == (Pt{}) {
		b = backDirection(pts)
	}
	s, miss, _ = fitOne(pts, a, b, tol)
	return s, miss, true
}

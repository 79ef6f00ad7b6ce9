package geom

// fitNearest is fitOne where no division into more segments is open: it goes
// on until one cubic can come no nearer to the points, and returns it with the
// largest miss.
func fitNearest(pts []Pt, a, b Pt) (Seg, float64) {
	s, miss, _ := fitOne(pts, a, b, 0)
	u, run := chordParams(pts)
	f := fitting{pts: pts, a: a, b: b, u: u, s: s}
	f.al, f.be = s.P[1].Sub(s.P[0]).Len(), s.P[3].Sub(s.P[2]).Len()
	project(s, pts, u)
	f.squares = squares(s, pts, u)
	for range 60 {
		was := f.squares
		if !f.improve(run) || was-f.squares < was*1e-6 {
			break
		}
	}
	if m, _ := project(f.s, pts, f.u); m < miss {
		return f.s, m
	}
	return s, miss
}

// fitting is one cubic on its way to the points: its end directions a and b,
// its handle lengths al and be, the parameters u at which it comes nearest to
// the points, and the sum of the squares of the misses.
type fitting struct {
	pts     []Pt
	a, b    Pt
	al, be  float64
	u       []float64
	s       Seg
	squares float64
}

// improve takes one step that brings the sum of squares down: a whole
// Gauss-Newton step, or a more and more damped one where that leads away, as
// it does where the two handles pull against each other (Marquardt, An
// Algorithm for Least-Squares Estimation of Nonlinear Parameters, SIAM Journal
// on Applied Mathematics 11(2), 1963).
func (f *fitting) improve(run float64) bool {
	n := len(f.pts) - 1
	for _, damping := range [...]float64{0, 1e-4, 1e-3, 1e-2, 0.1, 1} {
		da, db, ok := squareStep(f.s, f.pts, f.u, f.a, f.b, damping)
		if !ok {
			continue
		}
		al, be := max(f.al+da, run*shortest), max(f.be+db, run*shortest)
		s := handles(f.pts[0], f.pts[n], f.a, f.b, al, be)
		if runsBack(s) {
			continue
		}
		u := append([]float64(nil), f.u...)
		project(s, f.pts, u)
		if sum := squares(s, f.pts, u); sum < f.squares {
			f.s, f.u, f.al, f.be, f.squares = s, u, al, be, sum
			return true
		}
	}
	return false
}

// squares sums the squares of the misses at the parameters u.
func squares(s Seg, pts []Pt, u []float64) float64 {
	var sum float64
	for i, t := range u {
		d := s.At(t).Sub(pts[i])
		sum += d.Dot(d)
	}
	return sum
}

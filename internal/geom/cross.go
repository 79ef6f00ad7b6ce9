package geom

import (
	"cmp"
	"math"
	"slices"
)

const (
	touch     = 1e-6 // mm: ends this near to the other curve touch it
	crossTol  = 1e-3 // mm: chords for finding candidates stay this near
	minSine   = 1e-4 // curves meeting at a smaller angle only graze
	minSineLn = 1e-9 // the same for two straight segments, which are solved directly
)

// Crossing is a point where two curves meet.
type Crossing struct {
	A, B float64 // arc length on each curve, mm
	P    Pt
}

// Crossings returns the points where the two curves cross, found to 1e-6 mm and
// sorted by arc length on a. An end of one curve that lies on the other
// (shared ends included) counts, once; so does a corner that reaches the other
// curve. Curves that only graze without crossing are not reported, and a
// stretch that both share is reported by the ends that lie in it.
func Crossings(a, b Curve) []Crossing {
	if len(a) == 0 || len(b) == 0 {
		return nil
	}
	var found []Crossing
	oa, ob := a.offsets(), b.offsets()
	const gap = 2.5 * crossTol
	for _, pair := range nearChords(a.chordsNear(b, gap), b.chordsNear(a, gap), gap) {
		i, j := pair[0].seg, pair[1].seg
		if t, u, ok := solveCrossing(a[i], b[j], pair[0], pair[1]); ok {
			found = append(found, Crossing{oa[i] + a[i].LengthTo(t), ob[j] + b[j].LengthTo(u), a[i].At(t)})
		}
	}
	la, lb := oa[len(a)], ob[len(b)]
	for _, at := range []float64{0, la} {
		p := a.endPoint(at > 0)
		if on, d := b.Nearest(p); d <= touch {
			found = append(found, Crossing{at, on, p})
		}
	}
	for _, at := range []float64{0, lb} {
		p := b.endPoint(at > 0)
		if on, d := a.Nearest(p); d <= touch {
			found = append(found, Crossing{on, at, p})
		}
	}
	return merge(found, wrap(a, la), wrap(b, lb))
}

func (c Curve) endPoint(last bool) Pt {
	if last {
		return c.End()
	}
	return c.Start()
}

// wrap returns the length after which arc length starts again: the length of a
// closed curve, and never for an open one.
func wrap(c Curve, length float64) float64 {
	if c.Start().Dist(c.End()) <= touch && length > 2*touch {
		return length
	}
	return math.Inf(1)
}

// merge sorts the crossings and drops those found twice: from both sides of a
// joint, or as an end and as a crossing.
func merge(found []Crossing, wrapA, wrapB float64) []Crossing {
	slices.SortStableFunc(found, func(x, y Crossing) int { return cmp.Or(cmp.Compare(x.A, y.A), cmp.Compare(x.B, y.B)) })
	const same = 1e-5
	near := func(x, y, period float64) bool {
		d := math.Abs(x - y)
		return d < same || period-d < same
	}
	var out []Crossing
next:
	for _, c := range found {
		for _, o := range out {
			if near(c.A, o.A, wrapA) && near(c.B, o.B, wrapB) {
				continue next
			}
		}
		out = append(out, c)
	}
	return out
}

// offsets returns the arc length at which each segment begins, and the length.
func (c Curve) offsets() []float64 {
	out := make([]float64, len(c)+1)
	for i, s := range c {
		out[i+1] = out[i] + s.Length()
	}
	return out
}

// chord is a straight stand-in for a short stretch of a segment.
type chord struct {
	seg    int
	t0, t1 float64
	a, b   Pt
	lo, hi Pt
}

// chordsNear cuts into chords only what may come within gap of the other
// curve: a curve lies in the box round its control points.
func (c Curve) chordsNear(other Curve, gap float64) []chord {
	var out []chord
	for i, s := range c {
		near := box{}
		for _, o := range other {
			if boxesNear(s, o, gap) {
				near = near.round(o.P[:])
			}
		}
		if near.some {
			near.lo, near.hi = near.lo.Sub(Pt{gap, gap}), near.hi.Add(Pt{gap, gap})
			out = s.chords(out, i, crossTol, near)
		}
	}
	return out
}

// box is the box round some points.
type box struct {
	lo, hi Pt
	some   bool
}

func (b box) round(pts []Pt) box {
	lo, hi := BoundsOf(pts)
	if b.some {
		lo, hi = Pt{min(lo.X, b.lo.X), min(lo.Y, b.lo.Y)}, Pt{max(hi.X, b.hi.X), max(hi.Y, b.hi.Y)}
	}
	return box{lo, hi, true}
}

func boxesNear(a, b Seg, gap float64) bool {
	alo, ahi := BoundsOf(a.P[:])
	blo, bhi := BoundsOf(b.P[:])
	return alo.X <= bhi.X+gap && blo.X <= ahi.X+gap && alo.Y <= bhi.Y+gap && blo.Y <= ahi.Y+gap
}

// chords adds the chords of one segment, the i-th of its curve, that come into a
// box.
func (s Seg) chords(out []chord, i int, tol float64, near box) []chord {
	n := s.steps(tol)
	if cap(out) == 0 {
		out = make([]chord, 0, min(n, 16))
	}
	prev := s.P[0]
	for k := 1; k <= n; k++ {
		q := s.P[3]
		if k < n {
			q = s.At(float64(k) / float64(n))
		}
		ch := chord{seg: i, t0: float64(k-1) / float64(n), t1: float64(k) / float64(n), a: prev, b: q}
		ch.lo, ch.hi = Pt{min(prev.X, q.X), min(prev.Y, q.Y)}, Pt{max(prev.X, q.X), max(prev.Y, q.Y)}
		if ch.lo.X <= near.hi.X && near.lo.X <= ch.hi.X && ch.lo.Y <= near.hi.Y && near.lo.Y <= ch.hi.Y {
			out = append(out, ch)
		}
		prev = q
	}
	return out
}

// nearChords returns the pairs that come within gap of each other, by sweeping
// across x.
func nearChords(a, b []chord, gap float64) [][2]chord {
	byX := func(c []chord) {
		slices.SortStableFunc(c, func(x, y chord) int { return cmp.Compare(x.lo.X, y.lo.X) })
	}
	byX(a)
	byX(b)
	var out [][2]chord
	var live []chord
	next := 0
	for _, c := range a {
		for next < len(b) && b[next].lo.X <= c.hi.X+gap {
			live = append(live, b[next])
			next++
		}
		kept := live[:0]
		for _, d := range live {
			if d.hi.X < c.lo.X-gap {
				continue
			}
			kept = append(kept, d)
			if d.lo.X <= c.hi.X+gap && d.lo.Y <= c.hi.Y+gap && c.lo.Y <= d.hi.Y+gap && segDist(c.a, c.b, d.a, d.b) <= gap {
				out = append(out, [2]chord{c, d})
			}
		}
		live = kept
	}
	return out
}

// segDist returns the distance between the segments a-b and c-d.
func segDist(a, b, c, d Pt) float64 {
	if meet(a, b, c, d) {
		return 0
	}
	to := func(p, a, b Pt) float64 { return a.Lerp(b, along(a, b, p)).Dist(p) }
	return min(to(a, c, d), to(b, c, d), to(c, a, b), to(d, a, b))
}

// solveCrossing refines a candidate by Newton's method on a(t) = b(u). It
// accepts only roots on both segments where the directions differ.
func solveCrossing(a, b Seg, ca, cb chord) (t, u float64, ok bool) {
	const over = 1e-10
	least := minSine
	if a.Straight && b.Straight {
		least = minSineLn
	}
	t, u = chordGuess(ca, cb)
	for range 40 {
		gap := b.At(u).Sub(a.At(t))
		da, db := a.Deriv(t), b.Deriv(u)
		den := da.Cross(db)
		if math.Abs(den) <= least*da.Len()*db.Len() {
			// A handle of no length has no derivative at its end, where the
			// tangent still tells whether the curves cross.
			return 0, 0, false
		}
		dt, du := gap.Cross(db)/den, gap.Cross(da)/den
		t, u = t+dt, u+du
		if math.Abs(dt)*da.Len()+math.Abs(du)*db.Len() < 1e-10 {
			slackA, slackB := over+1e-9/(1+da.Len()), over+1e-9/(1+db.Len())
			if t < -slackA || t > 1+slackA || u < -slackB || u > 1+slackB {
				return 0, 0, false
			}
			return min(max(t, 0), 1), min(max(u, 0), 1), true
		}
		// Leave room to overshoot an end, not to run away.
		t, u = min(max(t, -0.25), 1.25), min(max(u, -0.25), 1.25)
	}
	return 0, 0, false
}

// chordGuess returns parameters near the crossing of two chords.
func chordGuess(a, b chord) (t, u float64) {
	d, e := a.b.Sub(a.a), b.b.Sub(b.a)
	x, y := 0.5, 0.5
	if den := d.Cross(e); math.Abs(den) > 1e-12*d.Len()*e.Len() {
		g := b.a.Sub(a.a)
		x, y = min(max(g.Cross(e)/den, 0), 1), min(max(g.Cross(d)/den, 0), 1)
	}
	return a.t0 + float64(x*(a.t1-a.t0)), b.t0 + float64(y*(b.t1-b.t0))
}

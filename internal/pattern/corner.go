package pattern

import (
	"fmt"
	"math"

	"gusset/internal/geom"
)

const (
	// meetTol is how far the ends of neighbouring edges may lie apart and
	// still count as one corner, in mm: the print of a file's decimals, far
	// below a pencil line.
	meetTol = 0.02
	// sameTol is how near moved ends lie when two edges run on in one line.
	sameTol = 0.01
)

// corner is where two neighbouring edges meet after both have been moved: on
// segment A of the first at parameter T, on segment B of the second at U.
// Segments of the first after A, and of the second before B, are dropped.
// Parameters outside 0..1 mean that the segment runs on past its end as the
// same polynomial.
type corner struct {
	A, B int
	T, U float64
	P    geom.Pt
}

// spot is a place on a curve that may be told from either side of a joint.
type spot struct {
	seg int
	t   float64
}

// cornerOf finds where the moved curve a, run on past its end if need be,
// meets the moved curve b, run on before its start. Where a meeting lies on a
// joint, keepA and keepB say which segment is to be told; -1 leaves it open.
func cornerOf(a, b geom.Curve, reach float64) (onA, onB []spot, err error) {
	if a.End().Dist(b.Start()) <= sameTol {
		return []spot{{len(a) - 1, 1}}, []spot{{0, 0}}, nil
	}
	x, ok := nearestCrossing(a, b, reach)
	if !ok {
		t, u, ok := runOn(a[len(a)-1], b[0], 1, 0)
		if !ok || a[len(a)-1].At(t).Dist(a.End()) > reach {
			return nil, nil, fmt.Errorf("they do not meet within %.0f mm of their ends", reach)
		}
		return []spot{{len(a) - 1, t}}, []spot{{0, u}}, nil
	}
	return spots(a, x.A, true), spots(b, x.B, false), nil
}

// nearestCrossing finds the crossing nearest to the corner, arc lengths
// measured on a from its start and on b from its start, negative before it.
func nearestCrossing(a, b geom.Curve, reach float64) (geom.Crossing, bool) {
	la := a.Length()
	best, cost, found := geom.Crossing{}, math.Inf(1), false
	for _, x := range geom.Crossings(a.Extend(0, reach), b.Extend(reach, 0)) {
		x.B -= reach
		if c := math.Abs(x.A-la) + math.Abs(x.B); c < cost {
			best, cost, found = x, c, true
		}
	}
	return best, found
}

// spots tells a place at arc length d by segment and parameter; twice where it
// lies within meetTol of an inside joint. Past the ends the parameter is a
// first guess only. The segment that leaves less behind comes first: for the
// end of a curve (end is true) the earlier one.
func spots(c geom.Curve, d float64, end bool) []spot {
	var out []spot
	var from float64
	for i, s := range c {
		l := s.Length()
		lo, hi := from-meetTol, from+l+meetTol
		if i == 0 {
			lo = math.Inf(-1)
		}
		if i == len(c)-1 {
			hi = math.Inf(1)
		}
		if d >= lo && d <= hi && l > 0 {
			t := s.ParamAt(d - from)
			switch {
			case d < from:
				t = (d - from) / l
			case d > from+l:
				t = 1 + (d-from-l)/l
			}
			out = append(out, spot{i, t})
		}
		from += l
	}
	if !end && len(out) == 2 {
		out[0], out[1] = out[1], out[0]
	}
	return out
}

// runOn solves a(t) = b(u) by Newton's method from a first guess, both
// segments continued as polynomials beyond their ends.
func runOn(a, b geom.Seg, t, u float64) (float64, float64, bool) {
	for range 50 {
		gap := b.At(u).Sub(a.At(t))
		da, db := a.Deriv(t), b.Deriv(u)
		den := da.Cross(db)
		if math.Abs(den) < 1e-9*(1e-9+da.Len()*db.Len()) {
			return t, u, false
		}
		dt, du := gap.Cross(db)/den, gap.Cross(da)/den
		t, u = t+dt, u+du
		if math.IsNaN(t+u) || math.Abs(t) > 50 || math.Abs(u) > 50 {
			return t, u, false
		}
		if math.Abs(dt)*da.Len()+math.Abs(du)*db.Len() < 1e-10 {
			return t, u, true
		}
	}
	return t, u, false
}

// settle polishes a corner once its segments are chosen.
func settle(a, b geom.Curve, onA, onB spot) (corner, bool) {
	k := corner{A: onA.seg, B: onB.seg, T: onA.t, U: onB.t}
	sa, sb := a[k.A], b[k.B]
	if p, q := sa.At(k.T), sb.At(k.U); p.Dist(q) <= sameTol && k.T == 1 && k.U == 0 {
		k.P = p.Lerp(q, 0.5)
		return k, true
	}
	t, u, ok := runOn(sa, sb, k.T, k.U)
	if !ok {
		return k, false
	}
	k.T, k.U, k.P = t, u, sa.At(t)
	return k, k.P.Finite()
}

// continued returns the segment between two parameters that may lie outside
// 0..1, as the same polynomial: the control points are the values of its polar
// form (Ramshaw, Blossoms are polar forms, Computer Aided Geometric Design 6,
// 1989).
func continued(s geom.Seg, t0, t1 float64) geom.Seg {
	if s.Straight {
		return geom.Line(s.At(t0), s.At(t1))
	}
	return geom.Cubic(blossom(s, t0, t0, t0), blossom(s, t0, t0, t1), blossom(s, t0, t1, t1), blossom(s, t1, t1, t1))
}

func blossom(s geom.Seg, x, y, z float64) geom.Pt {
	a, b, c := s.P[0].Lerp(s.P[1], x), s.P[1].Lerp(s.P[2], x), s.P[2].Lerp(s.P[3], x)
	return a.Lerp(b, y).Lerp(b.Lerp(c, y), z)
}

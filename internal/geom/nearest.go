package geom

import "math"

// chordTol is how far a chord used for pruning may lie from its curve, in
// millimetres. It sets speed, not accuracy: answers are refined on the curve.
const chordTol = 0.05

// Nearest returns the arc length of the point of the curve nearest to p and
// its distance, in millimetres. Of equally near points the first is returned.
// The curve must not be empty.
func (c Curve) Nearest(p Pt) (at, dist float64) {
	best, seg, par := math.Inf(1), 0, 0.0
	for i, s := range c {
		if boxDist(s.P, p) >= best {
			continue
		}
		if t, d := s.nearest(p, best); d < best {
			best, seg, par = d, i, t
		}
	}
	for _, s := range c[:seg] {
		at += s.Length()
	}
	return at + c[seg].LengthTo(par), best
}

// nearest returns the parameter and distance of the nearest point; anything
// not nearer than limit may be reported as it is found.
func (s Seg) nearest(p Pt, limit float64) (t, dist float64) {
	if s.Straight {
		t = along(s.P[0], s.P[3], p)
		return t, s.At(t).Dist(p)
	}
	n := s.steps(chordTol)
	t, dist = 0, s.P[0].Dist(p)
	if d := s.P[3].Dist(p); d < dist {
		t, dist = 1, d
	}
	prev := s.P[0]
	for k := 1; k <= n; k++ {
		q := s.At(float64(k) / float64(n))
		u := along(prev, q, p)
		if prev.Lerp(q, u).Dist(p)-chordTol < min(dist, limit) {
			if v, d := s.polish(p, float64(k-1)/float64(n), float64(k)/float64(n)); d < dist {
				t, dist = v, d
			}
		}
		prev = q
	}
	return t, dist
}

// polish finds the nearest point between two close parameters. Where the
// distance has one lowest point it is found by Newton steps kept inside a
// shrinking bracket.
func (s Seg) polish(p Pt, lo, hi float64) (t, dist float64) {
	slope := func(t float64) float64 { return s.At(t).Sub(p).Dot(s.Deriv(t)) }
	end, endDist := lo, s.At(lo).Dist(p)
	if d := s.At(hi).Dist(p); d < endDist {
		end, endDist = hi, d
	}
	if slope(lo) >= 0 || slope(hi) <= 0 {
		return end, endDist
	}
	t = (lo + hi) / 2
	for range 60 {
		g := slope(t)
		if g == 0 || hi-lo < 1e-15 {
			break
		}
		if g > 0 {
			hi = t
		} else {
			lo = t
		}
		d := s.Deriv(t)
		step := g / (d.Dot(d) + s.At(t).Sub(p).Dot(s.Deriv2(t)))
		next := t - step
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		if math.Abs(next-t) < 1e-15 {
			break
		}
		t = next
	}
	if d := s.At(t).Dist(p); d < endDist {
		return t, d
	}
	return end, endDist
}

// along returns the fraction of a-b at which the line is nearest to p, 0..1.
func along(a, b, p Pt) float64 {
	d := b.Sub(a)
	den := d.Dot(d)
	if den == 0 {
		return 0
	}
	return min(max(p.Sub(a).Dot(d)/den, 0), 1)
}

// boxDist is a lower bound on the distance from p to a segment: the curve lies
// in the box round its control points.
func boxDist(c [4]Pt, p Pt) float64 {
	lo, hi := BoundsOf(c[:])
	return math.Hypot(max(lo.X-p.X, 0, p.X-hi.X), max(lo.Y-p.Y, 0, p.Y-hi.Y))
}

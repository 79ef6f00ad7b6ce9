package geom

import "math"

// FlattenOutward returns a polygon that contains the counter-clockwise loop
// and lies within tol millimetres outside it, so that nothing cut by it is too
// small. Where the loop bulges outward the polygon runs along tangents, where
// it is hollow along chords; it passes through every joint and point of
// inflection. The loop is closed with a straight line if its ends differ. For
// a clockwise loop reverse it first.
func FlattenOutward(loop Curve, tol float64) []Pt {
	var out []Pt
	add := func(p Pt) {
		if len(out) == 0 || out[len(out)-1] != p {
			out = append(out, p)
		}
	}
	for _, s := range loop {
		add(s.P[0])
		if !s.Straight {
			prev := 0.0
			for _, t := range append(s.inflections(), 1) {
				if t > prev {
					s.Between(prev, t).outward(tol, 14, add)
				}
				prev = t
			}
		}
		add(s.P[3])
	}
	if n := len(out); n > 1 && out[n-1].Dist(out[0]) <= closeGap {
		out = out[:n-1]
	}
	return out
}

// inflections returns the parameters inside the segment where it changes its
// side of bending: the roots of the cross product of the first and second
// derivative, a quadratic for a cubic.
func (s Seg) inflections() []float64 {
	if s.Straight {
		return nil
	}
	a := s.P[1].Sub(s.P[0])
	b := s.P[2].Sub(s.P[1]).Sub(a)
	c := s.P[3].Sub(s.P[2]).Sub(s.P[2].Sub(s.P[1])).Sub(b)
	// B'/3 = a + 2bt + ct², B''/6 = b + ct; their cross product:
	return rootsInside(b.Cross(c), a.Cross(c), a.Cross(b))
}

// rootsInside returns the roots of pt² + qt + r strictly inside 0..1, rising.
func rootsInside(p, q, r float64) []float64 {
	var roots []float64
	keep := func(t float64) {
		if t > 1e-9 && t < 1-1e-9 {
			roots = append(roots, t)
		}
	}
	disc := float64(q*q) - 4*float64(p*r)
	if disc <= 0 {
		return nil // no root, or one where the sign does not change
	}
	w := -0.5 * (q + math.Copysign(math.Sqrt(disc), q))
	if p != 0 {
		keep(w / p)
	}
	if w != 0 {
		keep(r / w)
	}
	if len(roots) == 2 && roots[0] > roots[1] {
		roots[0], roots[1] = roots[1], roots[0]
	}
	return roots
}

// outward adds the corners between the ends of a segment that bends to one
// side only, and its end.
func (s Seg) outward(tol float64, depth int, add func(Pt)) {
	a, b := s.Tangent(0), s.Tangent(1)
	chord := s.P[3].Sub(s.P[0])
	bend := a.Cross(b)
	mid := s.At(0.5)
	flat := chord.Len() < 1e-9
	switch {
	case depth == 0 || flat && mid.Dist(s.P[0]) < 1e-9:
		add(s.P[3])
		return
	case a.Dot(b) < 0.3 || flat: // too much turn to judge in one piece
	case bend <= 0:
		if s.sagitta() <= tol {
			add(s.P[3])
			return
		}
	default:
		tip := s.P[0].Add(a.Mul(chord.Cross(b) / bend))
		if !tip.Finite() || bend < 1e-12 {
			add(s.P[3])
			return
		}
		if d := tip.Dist(mid); d <= tol || s.tipRise(tip) <= tol {
			add(tip)
			add(s.P[3])
			return
		}
	}
	l, r := s.Split(0.5)
	l.outward(tol, depth-1, add)
	r.outward(tol, depth-1, add)
}

// sagitta bounds how far the segment lies from its chord: no farther than its
// control points.
func (s Seg) sagitta() float64 {
	u := unit(s.P[3].Sub(s.P[0]))
	return 0.75 * max(math.Abs(u.Cross(s.P[1].Sub(s.P[0]))), math.Abs(u.Cross(s.P[2].Sub(s.P[0]))))
}

// tipRise returns the distance from a tangent tip to the segment.
func (s Seg) tipRise(tip Pt) float64 {
	_, d := s.nearest(tip, math.Inf(1))
	return d
}

package referee

import "gusset/internal/finish"

// whole is the outline of a half piece opened out about its fold line; false
// when the fold line is not upright, or the outline does not run along it once
// and lie to one side of it otherwise.
func whole(c finish.Cut) (ring, bool) {
	r, f := ring(c.Outline), c.Fold[0].X
	if len(r) < 3 || c.Fold[1].X != f || c.Fold[0].Y == c.Fold[1].Y {
		return nil, false
	}
	on := func(k int) bool { return r[(k+len(r))%len(r)].X == f }
	last := -1 // the point where the outline leaves the fold line
	for k := range r {
		if on(k) && !on(k+1) {
			if last >= 0 {
				return nil, false
			}
			last = k
		}
	}
	if last < 0 {
		return nil, false
	}
	var open ring // from the fold line round to the fold line
	open = append(open, r[last])
	for k := last + 1; ; k++ {
		open = append(open, r[k%len(r)])
		if on(k) {
			break
		}
	}
	if !spans(open[0], open[len(open)-1], c.Fold) || !oneSided(open, f) {
		return nil, false
	}
	back := open[1 : len(open)-1].mirrored(2 * f)
	return append(open, back...), true
}

// spans tells whether an outline's stretch on the fold line is the fold given.
func spans(a, b point, fold [2]point) bool {
	return a == fold[0] && b == fold[1] || a == fold[1] && b == fold[0]
}

func oneSided(open ring, f int64) bool {
	left, right := false, false
	for _, p := range open {
		left = left || p.X < f
		right = right || p.X > f
	}
	return left != right
}

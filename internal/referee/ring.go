package referee

import (
	"slices"

	"gusset/internal/finish"
)

type point = finish.Micron

// farthest is the largest coordinate judged, in micrometres. Doubled
// coordinates then reach 1e9, differences 2e9, their products 4e18 and a
// difference of two products 8e18, which is less than 2^63.
const farthest = 500_000_000

// ring is a closed outline without its first point repeated.
type ring []point

// side is +1 when c lies left of the line from a to b, -1 right, 0 on it.
func side(a, b, c point) int {
	v := (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X)
	switch {
	case v > 0:
		return 1
	case v < 0:
		return -1
	}
	return 0
}

// between tells whether p, on the line through a and b, lies on the stretch
// from a to b, ends included.
func between(a, b, p point) bool {
	return min(a.X, b.X) <= p.X && p.X <= max(a.X, b.X) && min(a.Y, b.Y) <= p.Y && p.Y <= max(a.Y, b.Y)
}

// cross tells whether two stretches cross at an inner point of both.
func cross(a, b, c, d point) bool {
	return side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
}

func (r ring) edge(i int) (a, b point) { return r[i], r[(i+1)%len(r)] }

// box is the least upright rectangle round points.
type box struct{ lo, hi point }

func boxOf(pts ...point) box {
	b := box{pts[0], pts[0]}
	for _, p := range pts[1:] {
		b.lo = point{X: min(b.lo.X, p.X), Y: min(b.lo.Y, p.Y)}
		b.hi = point{X: max(b.hi.X, p.X), Y: max(b.hi.Y, p.Y)}
	}
	return b
}

// apart tells whether the boxes share no area. Boxes with no width or height
// (of upright edges) count as apart only when they do not even touch.
func (b box) apart(c box) bool {
	return b.hi.X < c.lo.X || c.hi.X < b.lo.X || b.hi.Y < c.lo.Y || c.hi.Y < b.lo.Y
}

// common is the rectangle that two boxes share.
func (b box) common(c box) box {
	return box{
		point{X: max(b.lo.X, c.lo.X), Y: max(b.lo.Y, c.lo.Y)},
		point{X: min(b.hi.X, c.hi.X), Y: min(b.hi.Y, c.hi.Y)},
	}
}

// plain tells whether r has at least three corners, lies within reach, runs
// counter-clockwise and does not cross itself.
func (r ring) plain() bool {
	if len(r) < 3 {
		return false
	}
	for _, p := range r {
		if max(p.X, -p.X, p.Y, -p.Y) > farthest {
			return false
		}
	}
	for i := range r {
		a, b := r.edge(i)
		for j := i + 2; j < len(r); j++ {
			if c, d := r.edge(j); cross(a, b, c, d) {
				return false
			}
		}
	}
	return r.turns() > 0
}

// turns is the way the outline bends at its lowest leftmost corner: +1 when it
// runs counter-clockwise. Corners on a straight line are no corners.
func (r ring) turns() int {
	c := r.corners()
	if len(c) < 3 {
		return 0
	}
	k := lowest(c)
	return side(c[(k+len(c)-1)%len(c)], c[k], c[(k+1)%len(c)])
}

func lowest(r ring) int {
	k := 0
	for i, p := range r {
		if p.Y < r[k].Y || p.Y == r[k].Y && p.X < r[k].X {
			k = i
		}
	}
	return k
}

// corners leaves out points that repeat or lie straight between neighbours.
func (r ring) corners() ring {
	out := slices.Compact(slices.Clone(r))
	for i := 0; i < len(out) && len(out) > 2; {
		n := len(out)
		if p, q := out[(i+n-1)%n], out[(i+1)%n]; p == out[i] || side(p, out[i], q) == 0 {
			out = slices.Delete(out, i, i+1)
			i = max(0, i-1)
			continue
		}
		i++
	}
	return out
}

// same tells whether two outlines bound the same shape; with moved, after one
// of them is slid onto the other.
func same(a, b ring, moved bool) bool {
	a, b = a.corners(), b.corners()
	if len(a) != len(b) || len(a) == 0 {
		return false
	}
	i, j := lowest(a), lowest(b)
	shift := point{X: b[j].X - a[i].X, Y: b[j].Y - a[i].Y}
	if !moved && shift != (point{}) {
		return false
	}
	for k := range a {
		p, q := a[(i+k)%len(a)], b[(j+k)%len(b)]
		if q.X-p.X != shift.X || q.Y-p.Y != shift.Y {
			return false
		}
	}
	return true
}

// mirrored is the mirror image about x = at/2, again counter-clockwise.
func (r ring) mirrored(at int64) ring {
	out := make(ring, len(r))
	for i, p := range r {
		out[len(r)-1-i] = point{X: at - p.X, Y: p.Y}
	}
	return out
}

// put places r: flip mirrors x, then come counter-clockwise quarter turns,
// then the shift. The result runs counter-clockwise again.
func (r ring) put(flip bool, quarters int, at point) ring {
	if flip {
		r = r.mirrored(0)
	}
	out := make(ring, len(r))
	for i, p := range r {
		out[i] = turned(p, quarters)
		out[i].X += at.X
		out[i].Y += at.Y
	}
	return out
}

func turned(p point, quarters int) point {
	switch quarters & 3 {
	case 1:
		return point{X: -p.Y, Y: p.X}
	case 2:
		return point{X: -p.X, Y: -p.Y}
	case 3:
		return point{X: p.Y, Y: -p.X}
	}
	return p
}

package referee

import (
	"cmp"
	"slices"
)

// share tells whether two plain outlines have area in common; touching at
// points or along edges is none.
//
// If no two edges cross at an inner point, edges meet only where one of them
// has a corner. So cut every edge of one outline at the corners of the other
// that lie on it: each stretch is then inside the other outline, outside it, or
// on its border. Area is shared exactly when some stretch is inside, or when a
// stretch lies on a border that runs the same way (both outlines have their
// area on the left of it). Coordinates are doubled, so that the middle of every
// stretch is whole.
func share(a, b ring) bool {
	if boxOf(a...).apart(boxOf(b...)) {
		return false
	}
	a, b = doubled(a), doubled(b)
	for i := range a {
		p, q := a.edge(i)
		edge := boxOf(p, q)
		for j := range b {
			r, s := b.edge(j)
			if !edge.apart(boxOf(r, s)) && cross(p, q, r, s) {
				return true
			}
		}
	}
	return enters(a, b) || enters(b, a)
}

func doubled(r ring) ring {
	out := make(ring, len(r))
	for i, p := range r {
		out[i] = point{X: 2 * p.X, Y: 2 * p.Y}
	}
	return out
}

// enters tells whether a stretch of a's border is inside b, or on b's border
// running the same way.
func enters(a, b ring) bool {
	around := boxOf(b...)
	for i := range a {
		p, q := a.edge(i)
		if boxOf(p, q).apart(around) {
			continue
		}
		stops := stretches(p, q, b)
		for k := 1; k < len(stops); k++ {
			s, t := stops[k-1], stops[k]
			mid := point{X: (s.X + t.X) / 2, Y: (s.Y + t.Y) / 2}
			if s != t && (inside(mid, b) || alongside(s, t, mid, b)) {
				return true
			}
		}
	}
	return false
}

// stretches is p, the corners of b on the way to q in order, and q.
func stretches(p, q point, b ring) []point {
	out := []point{p, q}
	for _, c := range b {
		if between(p, q, c) && side(p, q, c) == 0 {
			out = append(out, c)
		}
	}
	slices.SortFunc(out, func(a, b point) int {
		if p.X != q.X {
			return cmp.Compare(a.X, b.X) * cmp.Compare(q.X, p.X)
		}
		return cmp.Compare(a.Y, b.Y) * cmp.Compare(q.Y, p.Y)
	})
	return out
}

// inside tells whether p lies strictly inside b, by counting how often the
// outline winds round it.
func inside(p point, b ring) bool {
	winds := 0
	for i := range b {
		r, s := b.edge(i)
		where := side(r, s, p)
		switch {
		case where == 0 && between(r, s, p):
			return false
		case r.Y <= p.Y && s.Y > p.Y && where > 0:
			winds++
		case r.Y > p.Y && s.Y <= p.Y && where < 0:
			winds--
		}
	}
	return winds != 0
}

// alongside tells whether the stretch from s to t, with its middle on an edge
// of b, runs the way of that edge.
func alongside(s, t, mid point, b ring) bool {
	for i := range b {
		u, v := b.edge(i)
		if between(u, v, mid) && side(u, v, mid) == 0 && side(u, v, t) == 0 && (t.X-s.X)*(v.X-u.X)+(t.Y-s.Y)*(v.Y-u.Y) > 0 {
			return true
		}
	}
	return false
}

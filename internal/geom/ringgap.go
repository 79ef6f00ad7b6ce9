package geom

import "math"

// RingGap is the least distance between two closed polygons' outlines; 0 where
// they touch or cross. Nothing is said of one inside the other.
func RingGap(a, b []Pt) float64 {
	best := math.Inf(1)
	lo, hi := BoundsOf(b)
	for i, p := range a {
		q := a[(i+1)%len(a)]
		if boxGap(p, q, lo, hi) >= best {
			continue
		}
		for j, r := range b {
			s := b[(j+1)%len(b)]
			if boxGap(p, q, r, s) < best {
				best = min(best, segDist(p, q, r, s))
			}
		}
	}
	return best
}

// boxGap is the distance between the rectangles that two pairs of opposite
// corners span.
func boxGap(a, b, c, d Pt) float64 {
	x := max(min(a.X, b.X)-max(c.X, d.X), min(c.X, d.X)-max(a.X, b.X), 0)
	y := max(min(a.Y, b.Y)-max(c.Y, d.Y), min(c.Y, d.Y)-max(a.Y, b.Y), 0)
	return math.Hypot(x, y)
}

package nest

import (
	"cmp"
	"math"
	"slices"
)

// convexParts cuts a ring into convex polygons: into triangles first, by
// clipping ears, then every cut is taken out again that leaves convex parts,
// longest first (Hertel and Mehlhorn, 1983: at most four times as many parts
// as needed).
func convexParts(ring []Pt) [][]Pt {
	parts := triangles(ring)
	type chord struct {
		a, b int
		long float64
	}
	var chords []chord
	seen := map[[2]int]bool{}
	for _, t := range parts {
		for k, a := range t {
			b := t[(k+1)%len(t)]
			if seen[[2]int{b, a}] {
				chords = append(chords, chord{a, b, math.Hypot(ring[b].X-ring[a].X, ring[b].Y-ring[a].Y)})
			}
			seen[[2]int{a, b}] = true
		}
	}
	slices.SortStableFunc(chords, func(a, b chord) int { return cmp.Compare(b.long, a.long) })
	for _, c := range chords {
		parts = joinAt(ring, parts, c.a, c.b)
	}
	out := make([][]Pt, len(parts))
	for i, part := range parts {
		for _, k := range part {
			out[i] = append(out[i], ring[k])
		}
	}
	return out
}

// joinAt takes out the cut between points a and b if that leaves a convex
// part.
func joinAt(ring []Pt, parts [][]int, a, b int) [][]int {
	one, other := sideAt(parts, a, b), sideAt(parts, b, a)
	if one < 0 || other < 0 || one == other {
		return parts
	}
	// One part from b on round to a, then the other's points after a.
	joined := slices.Concat(rotated(parts[one], b), rotated(parts[other], a)[1:])
	joined = joined[:len(joined)-1]
	n := len(joined)
	for k := range joined {
		if left(ring[joined[k]], ring[joined[(k+1)%n]], ring[joined[(k+2)%n]]) < 0 {
			return parts
		}
	}
	parts[one] = joined
	return slices.Delete(parts, other, other+1)
}

// sideAt finds the part that has the side from a to b.
func sideAt(parts [][]int, a, b int) int {
	return slices.IndexFunc(parts, func(p []int) bool {
		k := slices.Index(p, a)
		return k >= 0 && p[(k+1)%len(p)] == b
	})
}

// rotated lists a part's points from point first on.
func rotated(part []int, first int) []int {
	k := slices.Index(part, first)
	return slices.Concat(part[k:], part[:k])
}

// triangles clips ears: corners that bulge and whose triangle holds no other
// corner of what is left. The roundest ear goes first, since slivers make poor
// parts. Where rounding leaves no ear at all, the most bulging corner goes.
func triangles(ring []Pt) [][]int {
	left := make([]int, len(ring))
	for i := range left {
		left[i] = i
	}
	var out [][]int
	for len(left) > 3 {
		best, bestScore, bestEar := 0, math.Inf(-1), false
		for k := range left {
			score, ear := earAt(ring, left, k)
			if ear && !bestEar || ear == bestEar && score > bestScore {
				best, bestScore, bestEar = k, score, ear
			}
		}
		n := len(left)
		out = append(out, []int{left[(best+n-1)%n], left[best], left[(best+1)%n]})
		left = slices.Delete(left, best, best+1)
	}
	return append(out, left)
}

// earAt tells whether corner k is an ear, and how round it is: its area over
// the square of its longest side.
func earAt(ring []Pt, corners []int, k int) (round float64, ear bool) {
	n := len(corners)
	a, b, c := ring[corners[(k+n-1)%n]], ring[corners[k]], ring[corners[(k+1)%n]]
	area := left(a, b, c)
	long := max(dist2(a, b), dist2(b, c), dist2(c, a))
	if long == 0 {
		return 0, true // two points in one: nothing is lost
	}
	round = area / long
	if area <= 0 {
		return round, false
	}
	for _, i := range corners {
		p := ring[i]
		if p == a || p == b || p == c {
			continue
		}
		if left(a, b, p) >= 0 && left(b, c, p) >= 0 && left(c, a, p) >= 0 {
			return round, false
		}
	}
	return round, true
}

// left is twice the area of a triangle, negative when it runs clockwise.
func left(a, b, c Pt) float64 {
	return float64((b.X-a.X)*(c.Y-a.Y)) - float64((b.Y-a.Y)*(c.X-a.X))
}

func dist2(a, b Pt) float64 {
	return float64((b.X-a.X)*(b.X-a.X)) + float64((b.Y-a.Y)*(b.Y-a.Y))
}

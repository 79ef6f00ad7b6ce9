package geom

import "sort"

// A loop is a closed polygon given by its corners in order; the last is joined
// to the first and need not repeat it.

// Area returns the signed area in mm²: positive for a counter-clockwise loop.
// It is summed about the first corner, so a loop far from the origin loses no
// digits.
func Area(pts []Pt) float64 {
	var sum float64
	for i := 1; i+1 < len(pts); i++ {
		sum += pts[i].Sub(pts[0]).Cross(pts[i+1].Sub(pts[0]))
	}
	return sum / 2
}

// Perimeter returns the length round the closed loop in millimetres.
func Perimeter(pts []Pt) float64 {
	var sum float64
	for i, p := range pts {
		sum += p.Dist(pts[(i+1)%len(pts)])
	}
	return sum
}

// Inside reports whether p lies within the loop by the even-odd rule. Points
// exactly on the boundary count as inside. The answer is exact.
func Inside(pts []Pt, p Pt) bool {
	in := false
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		side := Orient(a, b, p)
		if side == 0 && inBox(a, b, p) {
			return true
		}
		if (a.Y > p.Y) != (b.Y > p.Y) && (side > 0) == (b.Y > a.Y) {
			in = !in
		}
	}
	return in
}

// SelfCrossing looks for two edges of the closed loop that share a point which
// simple loops do not share: a crossing, a corner touching an edge or another
// corner, or an edge folded back on its neighbour. It returns the pair i < j
// that comes first round the loop (edge i runs from corner i to the next) and
// a point they share. Repeated corners are passed over. The decision is exact;
// the returned point is rounded.
func SelfCrossing(pts []Pt) (p Pt, i, j int, found bool) {
	edges := loopEdges(pts)
	order := make([]int, len(edges))
	for k := range order {
		order[k] = k
	}
	sort.Slice(order, func(a, b int) bool { return edges[order[a]].lo.X < edges[order[b]].lo.X })
	var active []int
	bi, bj := -1, -1
	for _, k := range order {
		e := edges[k]
		kept := active[:0]
		for _, m := range active {
			f := edges[m]
			if f.hi.X < e.lo.X {
				continue
			}
			kept = append(kept, m)
			lo, hi := min(k, m), max(k, m)
			if bi >= 0 && (lo > bi || lo == bi && hi >= bj) {
				continue
			}
			if f.lo.Y <= e.hi.Y && e.lo.Y <= f.hi.Y && conflict(edges, lo, hi) {
				bi, bj = lo, hi
			}
		}
		active = append(kept, k)
	}
	if bi < 0 {
		return Pt{}, 0, 0, false
	}
	e, f := edges[bi], edges[bj]
	return sharedPoint(e, f), e.at, f.at, true
}

// loopEdge is one edge of a loop with its box and its place in the loop.
type loopEdge struct {
	a, b, lo, hi Pt
	at           int
}

// loopEdges lists the edges that have a length.
func loopEdges(pts []Pt) []loopEdge {
	out := make([]loopEdge, 0, len(pts))
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		if a == b {
			continue
		}
		out = append(out, loopEdge{a, b, Pt{min(a.X, b.X), min(a.Y, b.Y)}, Pt{max(a.X, b.X), max(a.Y, b.Y)}, i})
	}
	return out
}

// conflict reports whether edges i < j share more than neighbours may.
func conflict(edges []loopEdge, i, j int) bool {
	e, f := edges[i], edges[j]
	next, wrap := j == i+1, i == 0 && j == len(edges)-1
	if next && foldsBack(e.a, e.b, f.b) || wrap && foldsBack(f.a, f.b, e.b) {
		return true
	}
	return !next && !wrap && meet(e.a, e.b, f.a, f.b)
}

// foldsBack reports whether, having gone from a to b, going on to c runs back
// over the same line.
func foldsBack(a, b, c Pt) bool {
	if Orient(a, b, c) != 0 {
		return false
	}
	// In line: back when c lies on a's side of b. Comparing coordinates keeps it exact.
	if a.X != b.X {
		return (c.X > b.X) == (a.X > b.X)
	}
	return (c.Y > b.Y) == (a.Y > b.Y)
}

// sharedPoint names a point of both edges. Neighbours that fold back share the
// nearer of their far ends.
func sharedPoint(e, f loopEdge) Pt {
	if e.b == f.a && foldsBack(e.a, e.b, f.b) {
		return nearer(e.b, e.a, f.b)
	}
	if f.b == e.a && foldsBack(f.a, f.b, e.b) {
		return nearer(f.b, f.a, e.b)
	}
	return meetingPoint(e.a, e.b, f.a, f.b)
}

func nearer(from, p, q Pt) Pt {
	if from.Dist(p) <= from.Dist(q) {
		return p
	}
	return q
}

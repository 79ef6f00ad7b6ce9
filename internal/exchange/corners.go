package exchange

import (
	"math"

	"gusset/internal/geom"
)

// What counts as a corner, in radians. A seam's corner may be blunt (a yoke that
// runs on into a side seam), so 12° are one where the file marks its turn points.
// Between short straight lines that stand for a curve the angle must be larger,
// and stand out from its neighbours.
const (
	markedCorner = 12 * math.Pi / 180
	plainCorner  = 15 * math.Pi / 180
	facetCorner  = 25 * math.Pi / 180
)

// hints is what a file says of the corners of an outline.
type hints struct {
	starts []label   // where edges begin that have names
	turns  []geom.Pt // where the line turns
}

// label is a name at a place.
type label struct {
	name string
	p    geom.Pt
}

// labelTol is how near a label must lie to the point it names, in mm: what inches
// of a file round off.
const labelTol = 0.01

// split cuts a closed outline into edges at its corners.
func split(loop geom.Curve, h hints, faceted bool) []Edge {
	n := len(loop)
	names := make([]string, n)
	named := 0
	starts := newGrid(labelTol)
	for i, l := range h.starts {
		starts.add(l.p, end{curve: i})
	}
	for i, s := range loop {
		if here := starts.at(s.P[0]); len(here) > 0 {
			names[i] = h.starts[here[0].curve].name
			named++
		}
	}
	turn := turns(loop)
	marked := make([]bool, n)
	marks := 0
	points := gridOf(h.turns, labelTol)
	for i, s := range loop {
		if points.near(s.P[0]) {
			marked[i] = true
			marks++
		}
	}
	var at, breaks []int
	for i := range loop {
		switch {
		case named >= 2 && names[i] != "", named < 2 && cornerAt(i, turn, marked, marks, faceted):
			at = append(at, i)
		case marked[i] && math.Abs(turn[i]) > 1*math.Pi/180, !faceted && math.Abs(turn[i]) > 1*math.Pi/180, faceted && marks == 0 && math.Abs(turn[i]) > facetCorner:
			breaks = append(breaks, i)
		}
	}
	return cut(loop, atLeastTwo(loop, at), breaks, names)
}

// turns is by how much the direction changes where each segment begins.
func turns(loop geom.Curve) []float64 {
	out := make([]float64, len(loop))
	for i := range loop {
		a := loop[(i+len(loop)-1)%len(loop)].Tangent(1)
		b := loop[i].Tangent(0)
		out[i] = math.Atan2(a.Cross(b), a.Dot(b))
	}
	return out
}

func cornerAt(i int, turn []float64, marked []bool, marks int, faceted bool) bool {
	n := len(turn)
	a := math.Abs(turn[i])
	switch {
	case marks >= 2:
		return marked[i] && a > markedCorner
	case !faceted:
		return a > plainCorner
	}
	if a <= facetCorner {
		return false
	}
	before, after := math.Abs(turn[(i+n-1)%n]), math.Abs(turn[(i+1)%n])
	return a > 2.5*math.Min(before, after) || n < 9
}

// atLeastTwo adds places where an outline has fewer than two corners: where it
// begins, and the vertex nearest to half its length from there.
func atLeastTwo(loop geom.Curve, at []int) []int {
	if len(at) >= 2 || len(loop) < 2 {
		return at
	}
	if len(at) == 0 {
		at = []int{0}
	}
	half, run := loop.Length()/2, 0.0
	best, miss := -1, math.Inf(1)
	for k := 1; k < len(loop); k++ {
		run += loop[(at[0]+k-1)%len(loop)].Length()
		if d := math.Abs(run - half); d < miss {
			best, miss = (at[0]+k)%len(loop), d
		}
	}
	if best < at[0] {
		return []int{best, at[0]}
	}
	return []int{at[0], best}
}

// cut is the outline in parts that begin at the given segments.
func cut(loop geom.Curve, at, breaks []int, names []string) []Edge {
	n := len(loop)
	if len(at) < 2 {
		return []Edge{{Curve: loop}}
	}
	sharp := map[int]bool{}
	for _, b := range breaks {
		sharp[b] = true
	}
	var out []Edge
	for k, from := range at {
		to := at[(k+1)%len(at)]
		e := Edge{Name: names[from]}
		for i := from; ; i = (i + 1) % n {
			if i != from {
				if i == to {
					break
				}
				if sharp[i] {
					e.Breaks = append(e.Breaks, loop[i].P[0])
				}
			}
			e.Curve = append(e.Curve, loop[i])
			if (i+1)%n == to {
				break
			}
		}
		out = append(out, e)
	}
	return out
}

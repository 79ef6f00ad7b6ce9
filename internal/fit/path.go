package fit

import (
	"math"

	"gusset/internal/geom"
)

// path is one line of a piece in every printed size: the closed outline or a
// line inside. Segment k runs from node k to node k+1; on a closed path the
// last ends in node 0.
type path struct {
	sizes  [][]geom.Seg // by size, all of one length
	closed bool
	edge   []int     // for each segment, the edge it belongs to
	arc    []float64 // for each segment, where it begins along the base's edge, mm
	length []float64 // for each segment, its length in the base size, mm
	// first holds, for each edge, its first segment, and one more at the end.
	first []int
}

// size is where a node or handle stands in the size list, for each coordinate.
type size struct{ x, y float64 }

// smoothTurn is the largest turn at a node, in radians, that counts as smooth
// when it holds in every size: what rounding a drawn handle leaves.
const smoothTurn = 0.01

// flatTol is how far the points of a straight line may lie off it, in mm.
const flatTol = 0.01

func (p *path) nodes() int {
	if p.closed {
		return len(p.sizes[0])
	}
	return len(p.sizes[0]) + 1
}

// into and from return the segments that end and begin at a node, -1 for none.
func (p *path) into(node int) int {
	if node > 0 {
		return node - 1
	}
	if p.closed {
		return len(p.sizes[0]) - 1
	}
	return -1
}

func (p *path) from(node int) int {
	if node < len(p.sizes[0]) {
		return node
	}
	return -1
}

func (p *path) next(node int) int { return (node + 1) % p.nodes() }

// node returns a node's place in one printed size.
func (p *path) node(i, node int) geom.Pt {
	if node < len(p.sizes[i]) {
		return p.sizes[i][node].P[0]
	}
	return p.sizes[i][node-1].P[3]
}

// over collects one number for each size.
func (p *path) over(f func(i int) float64) []float64 {
	out := make([]float64, len(p.sizes))
	for i := range out {
		out[i] = f(i)
	}
	return out
}

// place returns a node at a size.
func (p *path) place(node int, s size) geom.Pt {
	return geom.Pt{
		X: between(p.over(func(i int) float64 { return p.node(i, node).X }), s.x),
		Y: between(p.over(func(i int) float64 { return p.node(i, node).Y }), s.y),
	}
}

// grade is how a node moves from size to size, in mm per size.
func (p *path) grade(node int, s size) geom.Pt {
	const step = 0.01
	last := float64(len(p.sizes) - 1)
	a := size{max(s.x-step, 0), max(s.y-step, 0)}
	b := size{min(s.x+step, last), min(s.y+step, last)}
	d := p.place(node, b).Sub(p.place(node, a))
	if a == b {
		return geom.Pt{}
	}
	return geom.Pt{X: d.X / max(b.x-a.x, step), Y: d.Y / max(b.y-a.y, step)}
}

// flat reports whether a segment is straight in every size.
func (p *path) flat(seg int) bool {
	for i := range p.sizes {
		s := p.sizes[i][seg]
		if !s.Straight && !(geom.Curve{s}.Straight(flatTol) && onward(s)) {
			return false
		}
	}
	return true
}

// onward reports whether a segment drawn along a line never turns back on it.
func onward(s geom.Seg) bool {
	d := s.P[3].Sub(s.P[0])
	return s.P[1].Sub(s.P[0]).Dot(d) >= 0 && s.P[3].Sub(s.P[2]).Dot(d) >= 0
}

// smooth reports whether the line runs through a node without a corner in
// every size.
func (p *path) smooth(node int) bool {
	a, b := p.into(node), p.from(node)
	if a < 0 || b < 0 {
		return false
	}
	for i := range p.sizes {
		if math.Abs(turn(p.sizes[i][a].Tangent(1), p.sizes[i][b].Tangent(0))) > smoothTurn {
			return false
		}
	}
	return true
}

// turn is the angle from direction a to direction b.
func turn(a, b geom.Pt) float64 { return math.Atan2(a.Cross(b), a.Dot(b)) }

// kink is the turn at a smooth node, in each size: what rounding left, kept so
// that a printed size comes out as printed.
func (p *path) kink(node int, s float64) float64 {
	a, b := p.into(node), p.from(node)
	return between(p.over(func(i int) float64 {
		return turn(p.sizes[i][a].Tangent(1), p.sizes[i][b].Tangent(0))
	}), s)
}

// handle returns the handle of a segment at one of its ends at a size, as a
// vector from the node: its direction and its length are each carried from
// size to size, so that a handle does not shrink while it turns.
func (p *path) handle(seg int, end bool, s size) geom.Pt {
	n := len(p.sizes)
	angle, length := make([]float64, n), make([]float64, n)
	for i := range p.sizes {
		g := p.sizes[i][seg]
		v, t := g.P[1].Sub(g.P[0]), g.Tangent(0)
		if end {
			v, t = g.P[2].Sub(g.P[3]), g.Tangent(1).Mul(-1)
		}
		length[i] = v.Len()
		angle[i] = t.Angle()
		if i > 0 {
			angle[i] = angle[i-1] + math.Remainder(angle[i]-angle[i-1], 2*math.Pi)
		}
	}
	at := func(s float64) geom.Pt { return geom.Pt{X: between(length, s)}.Rot(between(angle, s)) }
	if s.x == s.y {
		return at(s.x)
	}
	return geom.Pt{X: at(s.x).X, Y: at(s.y).Y}
}

// baseHandle is the length of a handle in the base size.
func (p *path) baseHandle(seg int, end bool) float64 {
	g := p.sizes[len(p.sizes)/2][seg]
	if end {
		return g.P[2].Dist(g.P[3])
	}
	return g.P[1].Dist(g.P[0])
}

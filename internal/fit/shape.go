package fit

import (
	"gusset/internal/geom"
)

// shape is a path between sizes: its nodes with their handles, as vectors from
// the node, and what must hold among them.
type shape struct {
	path *path
	at   []geom.Pt
	out  []geom.Pt // for each segment, the handle at its start
	in   []geom.Pt // for each segment, the handle at its end
	size []size    // for each node
	flat []bool    // for each segment, straight in every size
	even []bool    // for each node, smooth in every size
	kink []float64 // for each node, the turn that a smooth node keeps
	runs []run
}

// run is several straight segments on one line: its inner nodes stay on it, at
// fixed fractions.
type run struct {
	nodes []int
	share []float64 // of the inner nodes
}

// slope says how fast the size changes along a segment at its start or end, per
// mm.
type slope func(seg int, end bool) size

// blend makes the shape of a path with the given size at each node.
func blend(p *path, sizes []size, d slope) *shape {
	segs := len(p.sizes[0])
	s := &shape{
		path: p, size: sizes, at: make([]geom.Pt, p.nodes()), out: make([]geom.Pt, segs), in: make([]geom.Pt, segs),
		flat: make([]bool, segs), even: make([]bool, p.nodes()), kink: make([]float64, p.nodes()),
	}
	for k := range s.flat {
		s.flat[k] = p.flat(k)
	}
	for n := range s.at {
		s.at[n] = p.place(n, sizes[n])
		if s.even[n] = p.smooth(n); s.even[n] {
			s.kink[n] = p.kink(n, sizes[n].x)
		}
	}
	s.findRuns()
	for k := range segs {
		s.out[k] = s.handle(k, false, d)
		s.in[k] = s.handle(k, true, d)
	}
	s.settle()
	return s
}

// handle returns a handle at its node's size, leaning as far as the change of
// size along it carries the line: a point further on is a little larger, and so
// stands a little further out.
func (s *shape) handle(seg int, end bool, d slope) geom.Pt {
	node := seg
	if end {
		node = (seg + 1) % s.path.nodes()
		if !s.path.closed {
			node = seg + 1
		}
	}
	z := s.size[node]
	h := s.path.handle(seg, end, z)
	if s.path.sizes[0][seg].Straight {
		return h
	}
	by := d(seg, end)
	if by == (size{}) {
		return h
	}
	away := s.path.baseHandle(seg, end)
	if end {
		away = -away
	}
	lean := s.path.grade(node, z)
	return h.Add(geom.Pt{X: lean.X * by.x, Y: lean.Y * by.y}.Mul(away))
}

// findRuns collects the straight runs of two or more segments.
func (s *shape) findRuns() {
	n := len(s.flat)
	joined := func(node int) bool { // the run goes on through this node
		a, b := s.path.into(node), s.path.from(node)
		return a >= 0 && b >= 0 && s.flat[a] && s.flat[b] && s.even[node]
	}
	for k := range n {
		if !s.flat[k] || joined(k) || !joined(s.path.next(k)) {
			continue
		}
		nodes := []int{k}
		for m := s.path.next(k); ; m = s.path.next(m) {
			nodes = append(nodes, m)
			if !joined(m) {
				break
			}
		}
		if s.collinear(nodes) {
			s.runs = append(s.runs, run{nodes, s.shares(nodes)})
		}
	}
}

// collinear reports whether nodes lie on one line in every size.
func (s *shape) collinear(nodes []int) bool {
	for i := range s.path.sizes {
		a := s.path.node(i, nodes[0])
		dir := s.path.node(i, nodes[len(nodes)-1]).Sub(a).Unit()
		for _, n := range nodes {
			if h := dir.Cross(s.path.node(i, n).Sub(a)); h > flatTol || h < -flatTol {
				return false
			}
		}
	}
	return true
}

// shares returns how far along the line each inner node lies, as a fraction at
// that node's size.
func (s *shape) shares(nodes []int) []float64 {
	out := make([]float64, 0, len(nodes)-2)
	for _, n := range nodes[1 : len(nodes)-1] {
		out = append(out, between(s.path.over(func(i int) float64 {
			a := s.path.node(i, nodes[0])
			d := s.path.node(i, nodes[len(nodes)-1]).Sub(a)
			return s.path.node(i, n).Sub(a).Dot(d) / d.Dot(d)
		}), (s.size[n].x+s.size[n].y)/2))
	}
	return out
}

// settle makes hold what must hold: nodes of a straight run on its line, and
// no corner at smooth nodes.
func (s *shape) settle() {
	for _, r := range s.runs {
		a, b := s.at[r.nodes[0]], s.at[r.nodes[len(r.nodes)-1]]
		for i, share := range r.share {
			s.at[r.nodes[i+1]] = a.Lerp(b, share)
		}
	}
	for k, flat := range s.flat {
		if dir := s.chord(k); flat && dir != (geom.Pt{}) {
			s.out[k] = dir.Mul(s.out[k].Len())
			s.in[k] = dir.Mul(-s.in[k].Len())
		}
	}
	for n, even := range s.even {
		if even {
			s.align(n)
		}
	}
}

// chord is the direction from the start to the end of a segment.
func (s *shape) chord(seg int) geom.Pt {
	return s.at[s.end(seg)].Sub(s.at[seg]).Unit()
}

func (s *shape) end(seg int) int {
	if s.path.closed {
		return (seg + 1) % len(s.at)
	}
	return seg + 1
}

// align takes the corner out of a smooth node: a curve follows a straight
// neighbour, two curves meet half way.
func (s *shape) align(n int) {
	a, b := s.path.into(n), s.path.from(n)
	in, out := s.in[a].Mul(-1).Unit(), s.out[b].Unit() // directions of travel
	if in == (geom.Pt{}) || out == (geom.Pt{}) {
		return
	}
	k := s.kink[n]
	switch {
	case s.flat[a] && s.flat[b]:
	case s.flat[a]:
		s.out[b] = s.chord(a).Rot(k).Mul(s.out[b].Len())
	case s.flat[b]:
		s.in[a] = s.chord(b).Rot(-k).Mul(-s.in[a].Len())
	default:
		half := turn(in, out) / 2
		s.out[b] = in.Rot(half + k/2).Mul(s.out[b].Len())
		s.in[a] = in.Rot(half - k/2).Mul(-s.in[a].Len())
	}
}

// segments returns the shape's segments from one to before another.
func (s *shape) segments(from, to int) geom.Curve {
	out := make(geom.Curve, 0, to-from)
	for k := from; k < to; k++ {
		a, b := s.at[k], s.at[s.end(k)]
		if s.path.sizes[0][k].Straight {
			out = append(out, geom.Line(a, b))
			continue
		}
		out = append(out, geom.Cubic(a, a.Add(s.out[k]), b.Add(s.in[k]), b))
	}
	return out
}

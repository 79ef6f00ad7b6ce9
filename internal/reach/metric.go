package reach

import (
	"math"

	"gusset/internal/geom"
)

// node is a sample point on the outline of a face. Where an arc is glued it
// has twins, one on each mate; a corner lies on two arcs.
type node struct {
	point
	own int // its number on its face
	// twins are met by crossing an arc: the arc and the node beyond.
	twins []twin
}

type twin struct{ arc, node int }

// spacing is how far sample points lie apart on an arc, in mm. A loop that
// crosses a seam between two of them is found half a spacing off at most; with
// panels 200 mm wide that lengthens it by a quarter of a percent.
const spacing = 40

// sample sets nodes on all arcs, as many on an arc as on its mate, and measures
// the ways across every face.
func (s *surface) sample() {
	for f := range s.faces {
		for _, i := range s.faces[f].arcs {
			s.sampleArc(f, i)
		}
		ring := s.faces[f].arcs
		for k, i := range ring { // an arc ends where the next begins
			a := &s.arcs[i]
			a.nodes = append(a.nodes, s.arcs[ring[(k+1)%len(ring)]].nodes[0])
		}
	}
	for i := range s.arcs {
		s.twin(i)
	}
	for f := range s.faces {
		s.faces[f].measure(s.nodes)
	}
}

func (s *surface) sampleArc(f, i int) {
	a := &s.arcs[i]
	long := a.to - a.from
	if a.mate >= 0 {
		m := s.arcs[a.mate]
		long = max(long, m.to-m.from)
	}
	n := max(int(math.Ceil(long/spacing)), 1)
	for k := range n {
		p := a.curve.At(float64(k) / float64(n) * (a.to - a.from))
		a.nodes = append(a.nodes, len(s.nodes))
		s.nodes = append(s.nodes, node{point: point{f, p}, own: len(s.faces[f].nodes)})
		s.faces[f].nodes = append(s.faces[f].nodes, len(s.nodes)-1)
	}
}

// twin notes, for the nodes of an arc, those they meet on its mate.
func (s *surface) twin(i int) {
	a := s.arcs[i]
	if a.mate < 0 {
		return
	}
	m := s.arcs[a.mate].nodes
	for k, n := range a.nodes {
		other := m[k]
		if !s.turned(i) {
			other = m[len(m)-1-k]
		}
		s.nodes[n].twins = append(s.nodes[n].twins, twin{i, other})
	}
}

// measure finds the straight ways between the nodes of a face that stay on it;
// where there is none the distance is infinite.
func (f *face) measure(nodes []node) {
	n := len(f.nodes)
	outline := make([]geom.Pt, n)
	for k, i := range f.nodes {
		outline[k] = nodes[i].at
	}
	f.distance = make([][]float64, n)
	for i := range f.distance {
		f.distance[i] = make([]float64, n)
	}
	for i := range n {
		for j := range i {
			d := math.Inf(1)
			if i-j == 1 || j == 0 && i == n-1 || visible(outline, outline[i], outline[j]) {
				d = outline[i].Dist(outline[j])
			}
			f.distance[i][j], f.distance[j][i] = d, d
		}
	}
}

// beside finds, for a point that lies on an outline or outside it, the edge
// nearest to it and a point just within from there; any other point it gives
// back.
func beside(outline []geom.Pt, p geom.Pt) (from geom.Pt, edge int, near bool) {
	const just = 0.5 // mm
	off := math.Inf(1)
	var foot geom.Pt
	for k, a := range outline {
		if q := nearest(a, outline[(k+1)%len(outline)], p); q.Dist(p) < off {
			foot, edge, off = q, k, q.Dist(p)
		}
	}
	if off >= just && inside(outline, p) {
		return p, -1, false
	}
	in := outline[(edge+1)%len(outline)].Sub(outline[edge]).Unit().Left().Mul(just)
	for _, q := range []geom.Pt{foot.Add(in), foot.Sub(in)} {
		if inside(outline, q) {
			return q, edge, true
		}
	}
	return foot, edge, true
}

// visible reports whether the straight way from p to q stays within the
// outline.
func visible(outline []geom.Pt, p, q geom.Pt) bool {
	for k, a := range outline {
		b := outline[(k+1)%len(outline)]
		if a == p || a == q || b == p || b == q {
			continue
		}
		if cross(p, q, a)*cross(p, q, b) < 0 && cross(a, b, p)*cross(a, b, q) < 0 {
			return false
		}
	}
	for _, t := range []float64{0.03, 0.5, 0.97} {
		if !inside(outline, p.Lerp(q, t)) {
			return false
		}
	}
	return true
}

func cross(a, b, p geom.Pt) float64 { return b.Sub(a).Cross(p.Sub(a)) }

// inside counts the edges that a line to the right meets. A point on the
// outline counts as inside.
func inside(outline []geom.Pt, p geom.Pt) bool {
	const onLine = 0.01 // mm
	in := false
	for k, a := range outline {
		b := outline[(k+1)%len(outline)]
		if onSegment(a, b, p, onLine) {
			return true
		}
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}

func onSegment(a, b, p geom.Pt, tol float64) bool { return nearest(a, b, p).Dist(p) < tol }

// nearest is the point of the way from a to b that lies nearest to p.
func nearest(a, b, p geom.Pt) geom.Pt {
	d := b.Sub(a)
	t := 0.0
	if l := d.Dot(d); l > 0 {
		t = min(max(p.Sub(a).Dot(d)/l, 0), 1)
	}
	return a.Lerp(b, t)
}

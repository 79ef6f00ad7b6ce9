package reach

import (
	"math"

	"gusset/internal/geom"
)

// tightness is what is found at one point of a line.
type tightness struct {
	girth float64 // of the shortest loop that does not shrink, infinite for none
	// depth to the nearest opening wide enough for the arm, for a hand, and to
	// the next other one, infinite for none.
	depth, handDepth, second float64
	angle                    float64 // between line and loop, in degrees
	through                  []int   // faces that the loop crosses
}

// start is where a search begins: a node, or a point within a face.
type start struct {
	point
	node    int     // -1 for a point within a face
	tangent geom.Pt // of the line
}

// ways are the shortest ways from a start to all nodes.
type ways struct {
	far   []float64
	label []int64
	from  []int // the node before, -1 at the start
}

// tight looks at a point.
func (t *state) tight(at start, arm float64) tightness {
	w := t.ways(at)
	out := tightness{girth: math.Inf(1), depth: math.Inf(1), handDepth: math.Inf(1), second: math.Inf(1)}
	t.loop(at, w, &out)
	t.depths(at, w, arm, &out)
	return out
}

// ways is Dijkstra's search over the nodes of the part: straight across faces,
// and over glued arcs at no cost.
func (t *state) ways(at start) ways {
	n := len(t.nodes)
	w := ways{far: make([]float64, n), label: make([]int64, n), from: make([]int, n)}
	settled := make([]bool, n)
	var mine []int // nodes of the part
	for i := range w.far {
		w.far[i], w.from[i] = math.Inf(1), -1
		if t.part[t.nodes[i].face] == t.part[at.face] {
			mine = append(mine, i)
		}
	}
	t.seed(at, &w)
	for range mine {
		u := -1
		for _, i := range mine {
			if !settled[i] && (u < 0 || w.far[i] < w.far[u]) {
				u = i
			}
		}
		if math.IsInf(w.far[u], 1) {
			break
		}
		settled[u] = true
		t.relax(u, &w)
	}
	return w
}

// seed sets what can be got at from the start directly. A line may begin or run
// on the outline itself, and then lie a little outside the straight ways between
// its nodes: from there one sees what is seen from just within, and the nodes
// on either side.
func (t *state) seed(at start, w *ways) {
	if at.node >= 0 {
		w.far[at.node] = 0
		return
	}
	f := t.faces[at.face]
	outline := t.outline(at.face)
	from, k, near := beside(outline, at.at)
	if near {
		for _, i := range []int{f.nodes[k], f.nodes[(k+1)%len(f.nodes)]} {
			w.far[i] = at.at.Dist(t.nodes[i].at)
		}
	}
	for _, i := range f.nodes {
		if visible(outline, from, t.nodes[i].at) {
			w.far[i] = at.at.Dist(t.nodes[i].at)
		}
	}
}

func (s *surface) outline(f int) []geom.Pt {
	var out []geom.Pt
	for _, i := range s.faces[f].nodes {
		out = append(out, s.nodes[i].at)
	}
	return out
}

func (t *state) relax(u int, w *ways) {
	f := t.faces[t.nodes[u].face]
	for k, d := range f.distance[t.nodes[u].own] {
		if v := f.nodes[k]; w.far[u]+d < w.far[v] {
			w.far[v], w.label[v], w.from[v] = w.far[u]+d, w.label[u], u
		}
	}
	for _, x := range t.nodes[u].twins {
		if t.glued(x.arc, t.done) && w.far[u] < w.far[x.node] {
			w.far[x.node], w.label[x.node], w.from[x.node] = w.far[u], w.label[u]+t.label[x.arc], u
		}
	}
}

// loop finds the shortest loop with a label: out by the tree of shortest ways,
// along one way more, and back.
func (t *state) loop(at start, w ways, out *tightness) {
	best := [2]int{-1, -1}
	try := func(u, v int, d float64, label int64) {
		if l := w.far[u] + d + w.far[v]; l < out.girth && w.label[u]+label != w.label[v] {
			out.girth, best = l, [2]int{u, v}
		}
	}
	for fi, f := range t.faces {
		if t.part[fi] != t.part[at.face] {
			continue
		}
		for a, u := range f.nodes {
			for b := range a {
				try(u, f.nodes[b], f.distance[a][b], 0)
			}
			for _, x := range t.nodes[u].twins {
				if t.glued(x.arc, t.done) {
					try(u, x.node, 0, t.label[x.arc])
				}
			}
		}
	}
	if best[0] < 0 {
		return
	}
	out.angle = t.angle(at, best, w)
	seen := map[int]bool{}
	for _, n := range best {
		for ; n >= 0; n = w.from[n] {
			if f := t.nodes[n].face; !seen[f] {
				seen[f] = true
				out.through = append(out.through, f)
			}
		}
	}
}

// angle is that between line and loop where it leaves the start by its two
// ends; the greater of those on the start's own face, where the line is known
// best.
func (t *state) angle(at start, ends [2]int, w ways) float64 {
	var own, other float64
	onOwn := false
	for k, n := range ends {
		a, face := t.leaving(at, n, t.nodes[ends[1-k]].point, w)
		if face == at.face {
			own, onOwn = max(own, a), true
		} else {
			other = max(other, a)
		}
	}
	if onOwn {
		return own
	}
	return other
}

// leaving is the angle, from 0 to 90 degrees, between the line and the way to a
// node where it leaves the start, and the face that the way crosses first.
func (t *state) leaving(at start, n int, beyond point, w ways) (float64, int) {
	const still = 0.01 // mm: nodes this near the start are the start
	next := beyond
	for ; n >= 0 && w.far[n] > still; n = w.from[n] {
		next = t.nodes[n].point
	}
	here, line := at.point, at.tangent
	if n >= 0 {
		here = t.nodes[n].point
	}
	if here.face != at.face {
		line = t.lineAt(n)
	}
	if next.face != here.face {
		return 90, here.face
	}
	d := next.at.Sub(here.at).Unit()
	return math.Acos(min(math.Abs(d.Dot(line)), 1)) * 180 / math.Pi, here.face
}

// lineAt is the direction of the glued arc that a node lies on.
func (t *state) lineAt(n int) geom.Pt {
	for _, x := range t.nodes[n].twins {
		if t.glued(x.arc, t.done) {
			return t.tangent(x.arc, n)
		}
	}
	return geom.Pt{}
}

// tangent is the direction of an arc at one of its nodes.
func (s *surface) tangent(i, n int) geom.Pt {
	a := s.arcs[i]
	for k, m := range a.nodes {
		if m == n {
			return a.curve.TangentAt(float64(k) / float64(len(a.nodes)-1) * (a.to - a.from))
		}
	}
	return geom.Pt{}
}

// depths finds the openings and how far they are. An opening is wide enough
// for the arm or the hand; or, as seen from here, no narrower than round a flat
// piece, none of whose points is further in than its outline over 2π.
func (t *state) depths(at start, w ways, arm float64, out *tightness) {
	near := map[int]float64{}
	for i, a := range t.arcs {
		o := t.opening[i]
		if o < 0 || t.part[a.face] != t.part[at.face] {
			continue
		}
		for _, n := range a.nodes {
			if d, known := near[o]; !known || w.far[n] < d {
				near[o] = w.far[n]
			}
		}
	}
	for o := range t.rounds {
		d, known := near[o]
		if !known || math.IsInf(d, 1) {
			continue
		}
		flat := t.rounds[o] >= 2*math.Pi*d
		if t.rounds[o] >= arm || flat {
			if d < out.depth {
				out.depth, out.second = d, out.depth
			} else if d < out.second {
				out.second = d
			}
		}
		if t.rounds[o] >= hand || flat {
			out.handDepth = min(out.handDepth, d)
		}
	}
}

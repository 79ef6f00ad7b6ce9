package construct

import (
	"math"

	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/seam"
)

const (
	sameSpot = 0.05 // mm: two ends this near on an edge are one point
	within   = 0.5  // mm: a point must lie this far inside a stretch to be crossed
	matching = 2.0  // mm: breaks of two sides this near are sewn on each other
)

// copyEdge names an edge or inside line of one copy.
type copyEdge struct {
	piece  string
	copy   piece.Copy
	edge   string
	inside bool
}

func on(s Stretch) copyEdge { return copyEdge{s.Piece, s.Copy, s.Edge, s.Inside} }

// spot is a point on a copy's edge or line.
type spot struct {
	on copyEdge
	at float64
}

// glue gathers spots of all copies into nodes: spots that the joins and the
// folds bring together. It is a union-find structure over the spots.
type glue struct {
	garment pattern.Garment
	spots   []spot
	parent  []int
	byEdge  map[copyEdge][]int
	next    map[copyEdge]follower
}

// follower is an edge's length and the edge that follows it.
type follower struct {
	length float64
	edge   string
}

// newGlue glues a garment. A side that covers(seam, side) says is a seam made
// before is glued already: the edge sewn down over it meets it only folded.
func newGlue(g pattern.Garment, seams []Seam, covers func(s Seam, side int) bool) *glue {
	u := &glue{garment: g, byEdge: map[copyEdge][]int{}, next: map[copyEdge]follower{}}
	for _, s := range seams {
		u.sew(s, covers)
	}
	for _, use := range g.View.Uses {
		if use.Copies == pattern.OnFold && !use.Folded {
			u.unfold(use)
		}
	}
	return u
}

// sew brings together the ends and the matching breaks of a seam's sides.
func (u *glue) sew(s Seam, covers func(s Seam, side int) bool) {
	type mark struct {
		at   float64
		node int
	}
	var first []mark
	for i, chain := range s.Sides {
		if covers(s, i) {
			continue
		}
		total := seam.ChainLength(chain)
		var walked float64
		var marks []mark
		for k, st := range chain {
			from, to := u.ends(st)
			if k > 0 {
				u.union(marks[len(marks)-1].node, from)
			} else {
				marks = append(marks, mark{0, from})
			}
			walked += st.Length()
			marks = append(marks, mark{walked, to})
		}
		if i == 0 {
			first = marks
			continue
		}
		scale := seam.ChainLength(s.Sides[0]) / total
		for _, m := range marks {
			for _, f := range first {
				if math.Abs(m.at*scale-f.at) < matching {
					u.union(m.node, f.node)
				}
			}
		}
	}
}

// unfold brings together the ends of the fold of a piece whose two halves are
// its left and right.
func (u *glue) unfold(use pattern.Use) {
	p, ok := u.garment.Copy(use.Piece, piece.Left)
	if !ok {
		return
	}
	if e, ok := p.Edge(use.FoldEdge); ok {
		l := copyEdge{use.Piece, piece.Left, use.FoldEdge, false}
		r := copyEdge{use.Piece, piece.Right, use.FoldEdge, false}
		long := e.Curve.Length()
		u.union(u.node(l, 0), u.node(r, long))
		u.union(u.node(l, long), u.node(r, 0))
	}
}

// ends returns the nodes at which a stretch begins and ends as walked.
func (u *glue) ends(s Stretch) (from, to int) {
	from, to = u.node(on(s), s.From), u.node(on(s), s.To)
	if !s.Forward {
		from, to = to, from
	}
	return from, to
}

// node returns the node of a spot. A corner is told by the edge it begins.
func (u *glue) node(e copyEdge, at float64) int {
	e, at = u.corner(e, at)
	for _, i := range u.byEdge[e] {
		if math.Abs(u.spots[i].at-at) < sameSpot {
			return u.find(i)
		}
	}
	i := len(u.spots)
	u.spots = append(u.spots, spot{e, at})
	u.parent = append(u.parent, i)
	u.byEdge[e] = append(u.byEdge[e], i)
	return i
}

// corner tells the end of an edge as the start of the next.
func (u *glue) corner(e copyEdge, at float64) (copyEdge, float64) {
	if e.inside {
		return e, at
	}
	f, known := u.next[e]
	if !known {
		u.read(e.piece, e.copy)
		f, known = u.next[e]
	}
	if known && at > f.length-sameSpot {
		e.edge = f.edge
		return e, 0
	}
	return e, at
}

// read notes what follows each edge of a copy.
func (u *glue) read(name string, c piece.Copy) {
	p, _ := u.garment.Copy(name, c)
	for i, e := range p.Edges {
		u.next[copyEdge{name, c, e.Name, false}] = follower{e.Curve.Length(), p.After(i).Name}
	}
}

func (u *glue) find(i int) int {
	for u.parent[i] != i {
		u.parent[i] = u.parent[u.parent[i]]
		i = u.parent[i]
	}
	return i
}

func (u *glue) union(i, j int) { u.parent[u.find(i)] = u.find(j) }

// inside reports whether the node lies strictly within the stretch.
func (u *glue) inside(s Stretch, node int) bool {
	for _, i := range u.byEdge[on(s)] {
		if at := u.spots[i].at; at > s.From+within && at < s.To-within && u.find(i) == u.find(node) {
			return true
		}
	}
	return false
}

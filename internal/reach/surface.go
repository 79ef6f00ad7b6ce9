package reach

import (
	"slices"

	"gusset/internal/construct"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// surface is the garment with all its arcs and the seams that glue them, in no
// state yet.
type surface struct {
	faces []face
	arcs  []arc
	nodes []node
	seams []construct.Seam
	// byEdge lists the arcs of an edge from its start.
	byEdge map[onEdge][]int
}

// face is one copy of a piece.
type face struct {
	copyOf
	piece    piece.Piece
	arcs     []int // round the outline
	nodes    []int // round the outline
	distance [][]float64
}

// newSurface breaks the outlines into arcs and pairs those that a seam joins.
func newSurface(g pattern.Garment, seams []construct.Seam) *surface {
	s := &surface{seams: seams, byEdge: map[onEdge][]int{}}
	o := newOutlines(g, seams)
	for _, u := range g.View.Uses {
		for _, c := range u.CopyList() {
			p, _ := g.Copy(u.Piece, c)
			s.addFace(copyOf{u.Piece, c}, p, o)
		}
	}
	for _, u := range g.View.Uses {
		if u.Copies == pattern.OnFold && !u.Folded {
			s.unfold(u)
		}
	}
	caught := map[int]walked{}
	for _, i := range mainFirst(seams) {
		if edges(seams[i]) {
			s.pair(i, caught)
		}
	}
	s.sample()
	return s
}

func (s *surface) addFace(c copyOf, p piece.Piece, o *outlines) {
	f := face{copyOf: c, piece: p}
	for _, e := range p.Edges {
		at := onEdge{c, e.Name}
		b := o.breaks[at]
		for k := 1; k < len(b); k++ {
			i := len(s.arcs)
			s.arcs = append(s.arcs, arc{
				face: len(s.faces), edge: e.Name, from: b[k-1], to: b[k],
				mate: -1, seam: -1, curve: e.Curve.Between(b[k-1], b[k]),
			})
			f.arcs = append(f.arcs, i)
			s.byEdge[at] = append(s.byEdge[at], i)
		}
	}
	n := len(f.arcs)
	for k, i := range f.arcs {
		s.arcs[i].next, s.arcs[i].prev = f.arcs[(k+1)%n], f.arcs[(k+n-1)%n]
	}
	s.faces = append(s.faces, f)
}

// mainFirst orders seams so that what closes the garment is paired before what
// only bastes, and that before what is sewn down over a seam already made: an
// arc is glued once, further plies lie on it.
func mainFirst(seams []construct.Seam) []int {
	rank := func(s construct.Seam) int {
		closes := false
		for _, o := range s.Method.Operations {
			closes = closes || o.Closes
		}
		if _, own := s.Method.Allowance["b"]; len(s.Method.Allowance) > 0 && !own {
			return 2
		}
		if !closes {
			return 1
		}
		return 0
	}
	order := make([]int, len(seams))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return rank(seams[i]) - rank(seams[j]) })
	return order
}

// walked is an arc as a seam meets it.
type walked struct {
	arc     int
	forward bool
}

// along lists the arcs of a side in walking order.
func (s *surface) along(side []construct.Stretch) []walked {
	var out []walked
	for _, st := range side {
		var some []walked
		for _, i := range s.byEdge[edgeOf(st)] {
			if a := s.arcs[i]; a.from > st.From-sameBreak && a.to < st.To+sameBreak {
				some = append(some, walked{i, st.Forward})
			}
		}
		if !st.Forward {
			slices.Reverse(some)
		}
		out = append(out, some...)
	}
	return out
}

// pair makes mates of the arcs of a seam's first two sides. A ply that is caught
// where another seam is sewn lies on the surface; two such plies close on each
// other, as the two halves of a slant pocket's bag do in the waist and the outseam.
func (s *surface) pair(i int, caught map[int]walked) {
	a, b := s.along(s.seams[i].Sides[0]), s.along(s.seams[i].Sides[1])
	if len(a) != len(b) {
		return
	}
	for k, x := range a {
		y := b[k]
		if x.arc == y.arc || s.arcs[y.arc].mate >= 0 {
			continue
		}
		if s.arcs[x.arc].mate < 0 {
			s.glue(x, y, i)
			continue
		}
		y.forward = y.forward == x.forward // as one goes with the outline it lies on
		if other, two := caught[x.arc]; two && s.arcs[other.arc].mate < 0 && other.arc != y.arc {
			s.glue(other, y, i)
			delete(caught, x.arc)
		} else {
			caught[x.arc] = y
		}
	}
}

func (s *surface) glue(a, b walked, by int) {
	x, y := &s.arcs[a.arc], &s.arcs[b.arc]
	x.mate, x.seam, x.forward, x.first = b.arc, by, a.forward, true
	y.mate, y.seam, y.forward = a.arc, by, b.forward
}

// unfold pairs the halves of a piece cut on the fold, for good.
func (s *surface) unfold(u pattern.Use) {
	l := s.byEdge[onEdge{copyOf{u.Piece, piece.Left}, u.FoldEdge}]
	r := s.byEdge[onEdge{copyOf{u.Piece, piece.Right}, u.FoldEdge}]
	if len(l) != len(r) {
		return
	}
	for k := range l {
		s.glue(walked{l[k], true}, walked{r[len(r)-1-k], false}, unfolded)
	}
}

// sewn is a set of seams by number.
type sewn []bool

// glued reports whether an arc is sewn to its mate.
func (s *surface) glued(i int, done sewn) bool {
	a := s.arcs[i]
	return a.mate >= 0 && (a.seam == unfolded || done[a.seam])
}

// turned reports whether an arc and its mate run the same way, so that its
// start meets the mate's start.
func (s *surface) turned(i int) bool { return s.arcs[i].forward == s.arcs[s.arcs[i].mate].forward }

// point is where a node lies on its face.
type point struct {
	face int
	at   geom.Pt
}

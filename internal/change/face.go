package change

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// The edges of a facing besides the one that it shares with its piece.
const (
	endAfter  = "end-after"  // beside the edge that follows
	endBefore = "end-before" // beside the edge before
	freeEdge  = "free"
)

// faced is one edge that is faced: its piece, and the facing's name.
type faced struct {
	ref    piece.Ref
	p      piece.Piece
	i      int
	facing string
}

// face puts shaped facings in place of a finish: each edge that it took gets a
// facing as wide as asked for, cut from that edge and from the edges beside it.
// The ends of the facings are joined as the edges beside are, the free edges are
// overlocked.
func face(j *job) string {
	s, v := j.step, &j.g.View
	k := slices.IndexFunc(v.Finishes, func(f pattern.Finish) bool { return f.ID == s.Item })
	if k < 0 {
		var ids []string
		for _, f := range v.Finishes {
			ids = append(ids, f.ID)
		}
		j.tell(noItem, s.Item, strings.Join(ids, ", "))
		return ""
	}
	finish := v.Finishes[k]
	list, why := j.facedBy(finish)
	var free []piece.Ref
	for n := range list {
		if why != "" {
			break
		}
		var made piece.Piece
		made, why = facingPiece(list[n], s.By.MM(), j)
		j.g.Pieces[made.Name] = made
		free = append(free, piece.Ref{Piece: list[n].facing, Edge: freeEdge})
	}
	if why != "" {
		j.tell(noFacing, s.Item, s.By, why)
		return ""
	}
	for _, f := range list {
		j.useFacing(f)
	}
	j.joinFacingEnds(list)
	v.Finishes = slices.Clone(v.Finishes)
	if ends := j.openEnds(list); len(ends) > 0 {
		v.Finishes = append(v.Finishes, pattern.Finish{ID: s.ID + "-ends", Title: "open ends of the facing", Edges: ends, Method: "turned-edge", Place: j.place()})
	}
	v.Finishes[k] = pattern.Finish{ID: finish.ID, Title: "free edge of the facing", Edges: free, Method: "overlocked-edge", Place: j.place()}
	return fmt.Sprintf("%s faced, %s wide", finish.Title, s.By)
}

// facedBy lists the edges of a finish; a reason when they cannot be faced.
func (j *job) facedBy(f pattern.Finish) ([]faced, string) {
	var list []faced
	for _, r := range f.Edges {
		p, ok := j.g.Pieces[r.Piece]
		_, forked := j.g.Pieces[r.Piece+"@"+string(piece.Right)]
		name := r.Piece + "-" + j.step.ID
		_, taken := j.g.Pieces[name]
		switch {
		case !ok || r.Inside || r.From != "" || r.Copy != piece.Both:
			return nil, r.String() + " is not a whole edge on both hands"
		case forked:
			return nil, "the two hands of " + r.Piece + " differ"
		case taken:
			return nil, "there is a piece called " + name
		}
		list = append(list, faced{r, p, p.Index(r.Edge), name})
	}
	if len(list) == 0 {
		return nil, "it takes no edge"
	}
	return list, ""
}

// facingPiece draws one facing, as it lies beside its edge before it is turned in.
func facingPiece(f faced, wide float64, j *job) (piece.Piece, string) {
	n := len(f.p.Edges)
	e, after, before := f.p.Edges[f.i], f.p.Edges[(f.i+1)%n], f.p.Edges[(f.i+n-1)%n]
	c := e.Curve
	up, ok1 := beside(after.Curve, c.EndTangent(), wide)
	down, ok2 := beside(before.Curve.Reverse(), c.StartTangent(), wide)
	if !ok1 || !ok2 {
		return piece.Piece{}, "the edges beside " + f.ref.String() + " are too short or lie too flat"
	}
	down = down.Reverse()
	l := c.Length()
	inner := c.MapSpots(func(s geom.Spot) geom.Pt { return s.P.Add(s.Tangent().Left().Mul(wide)) }, fineFit)
	a, b := down.Start().Sub(inner.Start()), up.End().Sub(inner.End())
	inner = inner.MapPoints(func(q geom.Pt, at float64) geom.Pt { return q.Add(a.Lerp(b, math.Min(at/inner.Length(), 1))) }, fineFit)
	edge := func(name string, like piece.Edge, c geom.Curve, printed float64) piece.Edge {
		return piece.Edge{Name: name, Curve: c, Printed: printed, Place: like.Place, Steps: []string{j.step.ID}}
	}
	p := piece.Piece{
		Name: f.facing, Title: f.p.Title + ", facing of the " + f.ref.Edge, Place: j.place(),
		Edges: []piece.Edge{
			edge(f.ref.Edge, e, c, e.Printed), edge(endAfter, after, up, after.Printed),
			edge(freeEdge, e, inner.Reverse(), 0), edge(endBefore, before, down, before.Printed),
		},
	}
	mid := c.At(l / 2).Add(c.TangentAt(l / 2).Left().Mul(wide / 2))
	along := grainOf(f.p).Mul(wide / 3)
	p.Lines = []piece.Line{{Kind: piece.Grain, Name: "grain", Curve: geom.Polyline(mid.Sub(along), mid.Add(along)), Place: j.place()}}
	closeCorners(&p)
	return p.Mirror(), ""
}

// beside is the part of an edge beside a facing: from the corner as far as the
// facing is wide, square to the faced edge.
func beside(c geom.Curve, along geom.Pt, wide float64) (geom.Curve, bool) {
	in := c.StartTangent().Cross(along)
	if math.Abs(in) < leastSlope {
		return nil, false
	}
	far := wide / math.Abs(in)
	if far > c.Length()-1 {
		return nil, false
	}
	return c.Between(0, far), true
}

// useFacing adds a facing to the view and sews it to its edge.
func (j *job) useFacing(f faced) {
	v := &j.g.View
	k := slices.IndexFunc(v.Uses, func(u pattern.Use) bool { return u.Piece == f.ref.Piece })
	u := v.Uses[k]
	n := len(f.p.Edges)
	switch u.FoldEdge {
	case f.p.Edges[(f.i+1)%n].Name:
		u.FoldEdge = endAfter
	case f.p.Edges[(f.i+n-1)%n].Name:
		u.FoldEdge = endBefore
	}
	u.Piece, u.Cloths, u.Place = f.facing, slices.Clone(u.Cloths[:1]), j.place()
	v.Uses = slices.Insert(slices.Clone(v.Uses), k+1, u)
	j.g.Order = append(slices.Clone(j.g.Order), f.facing)
	v.Joins = append(slices.Clone(v.Joins), pattern.Join{
		ID: f.facing, Title: "facing of the " + f.ref.Edge, Each: len(u.CopyList()) > 1, Method: j.step.Method, Place: j.place(),
		Sides: [][]piece.Ref{{f.ref}, {{Piece: f.facing, Edge: f.ref.Edge}}},
	})
}

// joinFacingEnds joins the ends of facings where the edges beside them are sewn
// to each other.
func (j *job) joinFacingEnds(list []faced) {
	for _, x := range slices.Clone(j.g.View.Joins) {
		if len(x.Sides) != 2 || !x.Each {
			continue
		}
		a, ok1 := facingEnd(list, x.Sides[0])
		b, ok2 := facingEnd(list, x.Sides[1])
		if ok1 && ok2 && a != b {
			j.g.View.Joins = append(j.g.View.Joins, pattern.Join{
				ID: j.step.ID + "-" + x.ID, Title: x.Title + " of the facing", Each: true, Method: pressedOpen, Place: j.place(),
				Sides: [][]piece.Ref{{a}, {b}},
			})
		}
	}
}

// openEnds lists the ends of facings that no join takes and no fold: beside a
// front edge, or a vent. They are turned and stitched.
func (j *job) openEnds(list []faced) []piece.Ref {
	var out []piece.Ref
	for _, f := range list {
		for _, end := range []string{endAfter, endBefore} {
			r := piece.Ref{Piece: f.facing, Edge: end}
			taken := slices.ContainsFunc(j.g.View.Joins, func(x pattern.Join) bool {
				return slices.ContainsFunc(slices.Concat(x.Sides...), func(q piece.Ref) bool { return q.Piece == r.Piece && q.Edge == r.Edge })
			})
			if !taken && foldEdge(j.g, f.facing) != end {
				out = append(out, r)
			}
		}
	}
	return out
}

// pressedOpen is the seam of the ends: it lies flattest (common practice).
const pressedOpen = "plain-open"

// facingEnd is the end of a facing that lies on an edge of one side of a join.
func facingEnd(list []faced, side []piece.Ref) (piece.Ref, bool) {
	for _, r := range side {
		for _, f := range list {
			n := len(f.p.Edges)
			if r.Piece != f.ref.Piece || r.Inside {
				continue
			}
			switch r.Edge {
			case f.p.Edges[(f.i+1)%n].Name:
				return piece.Ref{Piece: f.facing, Edge: endAfter}, true
			case f.p.Edges[(f.i+n-1)%n].Name:
				return piece.Ref{Piece: f.facing, Edge: endBefore}, true
			}
		}
	}
	return piece.Ref{}, false
}

package change

import (
	"fmt"
	"slices"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// uprightBy is how far a centre edge may lean, in mm over its length, and still
// be laid on a fold.
const uprightBy = 0.5

// foldToSeam cuts a piece that lies on the fold as a pair with a seam in its
// place: two smaller pieces find room where the whole does not, and the seam can
// be shaped. seamToFold undoes it.
func foldToSeam(j *job) string {
	u, i, ok := j.use(j.step.Piece)
	if !ok {
		return ""
	}
	if u.Copies != pattern.OnFold || u.Folded {
		j.tell(noFold, u.Piece)
		return ""
	}
	p := j.g.Pieces[u.Piece].Clone()
	k := p.Index(u.FoldEdge)
	p.Edges[k].Printed = j.step.To.MM()
	j.mark(&p.Edges[k])
	j.g.Pieces[u.Piece] = p
	edge := u.FoldEdge
	u.Copies, u.FoldEdge = pattern.Pair, ""
	j.setUse(i, u)
	ref := piece.Ref{Piece: u.Piece, Edge: edge}
	j.g.View.Joins = append(j.g.View.Joins, pattern.Join{
		ID: j.step.ID, Title: "centre seam of the " + strings.ToLower(p.Title), Method: j.step.Method, Place: j.place(),
		Sides: [][]piece.Ref{{ref.On(piece.Left)}, {ref.On(piece.Right)}},
	})
	return fmt.Sprintf("%s with a seam in place of the fold", p.Title)
}

// seamToFold lays a pair on the fold where its two halves are sewn to each other
// along a straight edge that runs with the grain: the seam is saved.
func seamToFold(j *job) string {
	u, i, ok := j.use(j.step.Piece)
	if !ok {
		return ""
	}
	var id, edge string
	for _, x := range j.g.View.Joins {
		if len(x.Sides) != 2 || len(x.Sides[0]) != 1 || len(x.Sides[1]) != 1 {
			continue
		}
		a, b := x.Sides[0][0], x.Sides[1][0]
		if a.Piece == u.Piece && a.Copy != b.Copy && a.On(piece.Both) == b.On(piece.Both) && a.From == "" {
			id, edge = x.ID, a.Edge
		}
	}
	_, forked := j.g.Pieces[u.Piece+"@"+string(piece.Right)]
	if u.Copies != pattern.Pair || id == "" || forked {
		j.tell(noCentreSeam, u.Piece)
		return ""
	}
	p := j.g.Pieces[u.Piece].Clone()
	k := p.Index(edge)
	lo, hi := p.Edges[k].Curve.Bounds()
	if hi.X-lo.X > uprightBy {
		j.tell(leaningCentre, edge, u.Piece, j.say(hi.X-lo.X))
		return ""
	}
	p.Edges[k].Printed = 0
	j.mark(&p.Edges[k])
	// The last tenths of a millimetre: a fold is one straight line.
	x := (lo.X + hi.X) / 2
	j.mapEdge(&p, k, func(q geom.Pt, _ float64) geom.Pt { q.X = x; return q })
	n := len(p.Edges)
	before, after := (k+n-1)%n, (k+1)%n
	p.Edges[before].Curve = stretchTo(p.Edges[before].Curve, p.Edges[k].Curve.Start())
	p.Edges[after].Curve = stretchTo(p.Edges[after].Curve.Reverse(), p.Edges[k].Curve.End()).Reverse()
	j.g.Pieces[u.Piece] = p
	u.Copies, u.FoldEdge = pattern.OnFold, edge
	j.setUse(i, u)
	j.drop(id)
	return fmt.Sprintf("%s on the fold, without its centre seam", p.Title)
}

// use finds how a piece is cut.
func (j *job) use(name string) (pattern.Use, int, bool) {
	var names []string
	for i, u := range j.g.View.Uses {
		if u.Piece == name {
			return u, i, true
		}
		names = append(names, u.Piece)
	}
	j.tell(noPiece, name, nearestOf(name, names))
	return pattern.Use{}, 0, false
}

func (j *job) setUse(i int, u pattern.Use) {
	j.g.View.Uses = slices.Clone(j.g.View.Uses)
	j.g.View.Uses[i] = u
}

package change

import (
	"fmt"
	"slices"
	"strings"

	"gusset/internal/cloth"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// Allowances of an added pocket, mm: what the top turns over, and the edges that
// are turned in.
const (
	pocketTop  = 30
	pocketTurn = 12
)

// addPocket adds a patch pocket: a rectangle with upright sides, its placement
// on the piece, the join that sets it and the finish of its mouth. The place is
// told from the piece's drawing: how far the pocket's near side lies from the
// edge named, and how far its mouth lies below a level.
func addPocket(j *job) string {
	s := j.step
	p, e, ok := j.edgeAt(s.Edge)
	if !ok {
		return ""
	}
	level, ok := p.Line(piece.Level, s.At)
	if !ok {
		j.tell(noLevel, p.Name, s.At, strings.Join(levelNames(p), ", "))
		return ""
	}
	if why := j.nameTaken(s.Piece, s.ID); why != "" {
		j.tell(noPocket, s.Piece, why)
		return ""
	}
	mouth := height(level.Curve) - s.By.MM()
	span := acrossAt(p, mouth)
	edge := geom.Crossings(e.Curve, geom.Polyline(geom.Pt{X: -farOff, Y: mouth}, geom.Pt{X: farOff, Y: mouth}))
	if len(edge) == 0 {
		j.tell(noPocket, s.Piece, "its mouth would not lie beside "+e.Name)
		return ""
	}
	wide, deep := s.Wide.MM(), s.Deep.MM()
	left := edge[0].P.X + s.Where.MM()
	if edge[0].P.X > (span[0]+span[1])/2 {
		left = edge[0].P.X - s.Where.MM() - wide
	}
	corners := []geom.Pt{{X: left, Y: mouth}, {X: left, Y: mouth - deep}, {X: left + wide, Y: mouth - deep}, {X: left + wide, Y: mouth}}
	ring := p.Outline(0.1)
	for _, c := range corners {
		if !geom.Inside(ring, c) {
			j.tell(noPocket, s.Piece, "it would leave "+p.Name)
			return ""
		}
	}
	p.Lines = append(p.Lines, piece.Line{Kind: piece.Placement, Name: s.ID, Curve: geom.Polyline(corners...), Place: j.place()})
	for name := range j.g.Pieces { // a right front of its own has the place too
		if base, forked := j.g.Pieces[name], name != p.Name && j.g.Pieces[name].Name == p.Name; forked {
			base = base.Clone()
			base.Lines = append(base.Lines, piece.Line{Kind: piece.Placement, Name: s.ID, Curve: mirroredLine(corners), Place: j.place()})
			j.g.Pieces[name] = base
		}
	}
	j.g.Pieces[p.Name] = p
	j.g.Pieces[s.Piece] = pocketPiece(s.Piece, wide, deep, j)
	j.sewPocket(p.Name)
	return fmt.Sprintf("pocket %s by %s on %s", s.Wide, s.Deep, p.Name)
}

func mirroredLine(pts []geom.Pt) geom.Curve {
	return geom.Polyline(pts...).Transform(geom.Affine{A: -1, D: 1})
}

// nameTaken says why a piece or a join cannot have a name.
func (j *job) nameTaken(name, item string) string {
	v := j.g.View
	if _, taken := j.g.Pieces[name]; taken {
		return "there is a piece of that name"
	}
	for _, ids := range [][]string{idsOf(v.Joins, func(x pattern.Join) string { return x.ID }), idsOf(v.Finishes, func(x pattern.Finish) string { return x.ID })} {
		if slices.Contains(ids, item) || slices.Contains(ids, item+"-top") {
			return "the view has something called " + item
		}
	}
	return ""
}

func idsOf[T any](list []T, id func(T) string) []string {
	var out []string
	for _, x := range list {
		out = append(out, id(x))
	}
	return out
}

// pocketPiece draws the pocket, its lower left corner at the origin.
func pocketPiece(name string, wide, deep float64, j *job) piece.Piece {
	line := func(a, b geom.Pt) geom.Curve { return geom.Curve{geom.Line(a, b)} }
	a, b, c, d := geom.Pt{Y: deep}, geom.Pt{}, geom.Pt{X: wide}, geom.Pt{X: wide, Y: deep}
	edge := func(name string, printed float64, c geom.Curve) piece.Edge {
		return piece.Edge{Name: name, Curve: c, Printed: printed, Place: j.place(), Steps: []string{j.step.ID}}
	}
	return piece.Piece{
		Name: name, Title: "Added pocket", Place: j.place(),
		Edges: []piece.Edge{
			edge("top", pocketTop, line(d, a)), edge("side-in", pocketTurn, line(a, b)),
			edge("bottom", pocketTurn, line(b, c)), edge("side-out", pocketTurn, line(c, d)),
		},
		Lines: []piece.Line{{Kind: piece.Grain, Name: "grain", Curve: geom.Polyline(geom.Pt{X: wide / 2, Y: deep / 5}, geom.Pt{X: wide / 2, Y: deep * 0.8})}},
	}
}

// sewPocket adds the pocket to the view: on both hands, or on the one named.
func (j *job) sewPocket(on string) {
	s, v := j.step, &j.g.View
	u, _ := j.g.Use(on)
	use := pattern.Use{Piece: s.Piece, Copies: pattern.Pair, Number: 1, Cloths: []cloth.Role{cloth.Main}, Place: j.place()}
	place := piece.Ref{Piece: on, Inside: true, Edge: s.ID}
	if s.Hand != piece.Both || len(u.CopyList()) == 1 {
		use.Copies, place.Copy = pattern.Single, s.Hand
	}
	v.Uses = append(slices.Clone(v.Uses), use)
	j.g.Order = append(slices.Clone(j.g.Order), s.Piece)
	v.Joins = append(slices.Clone(v.Joins), pattern.Join{
		ID: s.ID, Title: "added pocket", Each: place.Copy == piece.Both, Method: s.Method, Place: j.place(),
		Sides: [][]piece.Ref{
			{{Piece: s.Piece, Edge: "side-in"}, {Piece: s.Piece, Edge: "bottom"}, {Piece: s.Piece, Edge: "side-out"}}, {place},
		},
	})
	v.Finishes = append(slices.Clone(v.Finishes), pattern.Finish{
		ID: s.ID + "-top", Title: "mouth of the added pocket", Method: "double-fold-top", Place: j.place(),
		Edges: []piece.Ref{{Piece: s.Piece, Edge: "top"}},
	})
}

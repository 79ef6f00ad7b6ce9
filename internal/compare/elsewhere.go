package compare

import (
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// A block of one's own lies on a paper of its own. It is laid on a pattern's piece as
// a pattern maker lays it: at a level, centre front on centre front.

// elsewhere compares a piece with one from another paper: laid on it at the level
// asked for, or the first that both have, or else lowest point on lowest point; and
// fold on fold where both have that edge, or else middle on middle.
func elsewhere(a, b piece.Piece, fold, level string) Piece {
	loA, hiA := geom.BoundsOf(a.Outline(fine))
	loB, hiB := geom.BoundsOf(b.Outline(fine))
	by := geom.Pt{X: (loA.X + hiA.X - loB.X - hiB.X) / 2, Y: loA.Y - loB.Y}
	for _, name := range append([]string{level}, lineNames(a, a)...) {
		la, okA := a.Line(piece.Level, name)
		lb, okB := b.Line(piece.Level, name)
		if name != "" && okA && okB {
			by.Y = middle(la) - middle(lb)
			break
		}
	}
	ea, okA := a.Edge(fold)
	eb, okB := b.Edge(fold)
	if okA && okB {
		by.X = ea.Curve.Start().Lerp(ea.Curve.End(), 0.5).X - eb.Curve.Start().Lerp(eb.Curve.End(), 0.5).X
	}
	p := both(a, b.Transform(geom.Shift(by)), "")
	p.Allowances = nil
	return p
}

// foldOf names the edge on which a piece is cut on the fold.
func foldOf(g pattern.Garment, name string) string {
	u, _ := g.Use(name)
	return u.FoldEdge
}

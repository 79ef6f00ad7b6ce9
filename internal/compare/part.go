package compare

import (
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// A piece that a division makes lies within the whole as it was: its edges are the
// whole's, or stretches of them, but for the one along the division.

// onWhole is how far an edge may lie from that of the whole, in mm.
const onWhole = 0.05

// partOf finds the piece of another garment that one was cut from.
func partOf(p piece.Piece, of pattern.Garment) (piece.Piece, bool) {
	for _, u := range of.View.Uses {
		if whole, ok := of.Pieces[u.Piece]; ok && isPart(p, whole) {
			return whole, true
		}
	}
	return piece.Piece{}, false
}

// isPart reports whether all edges of a piece but one lie on the outline of another,
// and that one is new.
func isPart(p, whole piece.Piece) bool {
	cuts := 0
	for _, e := range p.Edges {
		if liesOn(e, whole) {
			continue
		}
		if cuts++; cuts > 1 || whole.Index(e.Name) >= 0 {
			return false
		}
	}
	return cuts == 1
}

// liesOn reports whether an edge lies on a piece's outline.
func liesOn(e piece.Edge, p piece.Piece) bool {
	const n = 8
	l := e.Curve.Length()
	for k := range n + 1 {
		q := e.Curve.At(l * float64(k) / n)
		near := false
		for _, f := range p.Edges {
			if _, off := f.Curve.Nearest(q); off <= onWhole {
				near = true
				break
			}
		}
		if !near {
			return false
		}
	}
	return true
}

// cutAs says how a piece is cut from the cloth.
func cutAs(g pattern.Garment, name string) string {
	switch u, ok := g.Use(name); {
	case !ok:
		return ""
	case u.Copies == pattern.Pair:
		return "as a pair"
	case u.Copies == pattern.OnFold && !u.Folded:
		return "on the fold"
	}
	return "once"
}

// allowances are those that the paper, or a step, gives the edges of two pieces, where
// they differ.
func allowances(a, b piece.Piece) []Row {
	var out []Row
	for _, e := range b.Edges {
		if was, ok := a.Edge(e.Name); ok && was.Printed != e.Printed {
			out = append(out, Row{e.Name, was.Printed, e.Printed})
		}
	}
	return out
}

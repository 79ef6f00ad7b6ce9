package compare

import (
	"strings"
	"testing"

	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// cutAcross is a box cut across at a height: the lower part, which keeps the name, and
// the upper.
func cutAcross(p piece.Piece, at float64) (lower, upper piece.Piece) {
	lower, upper = p.Clone(), p.Clone()
	upper.Name = p.Name + "-2"
	below, above := p.Edges[1].Curve.Split(at)
	l := p.Edges[3].Curve.Length()
	down, up := p.Edges[3].Curve.Between(l-at, l), p.Edges[3].Curve.Between(0, l-at)
	lower.Edges[1].Curve, lower.Edges[3].Curve = below, down
	lower.Edges[2] = piece.Edge{Name: "division", Curve: geom.Polyline(below.End(), down.Start())}
	upper.Edges[1].Curve, upper.Edges[3].Curve = above, up
	upper.Edges[0] = piece.Edge{Name: "division", Curve: geom.Polyline(up.End(), above.Start())}
	return lower, upper
}

// The parts of a divided piece are its parts: nothing of them lies elsewhere. One that
// is only shorter is no part.
func TestDivided(t *testing.T) {
	whole := box("front", 0, 0, 200, 600)
	lower, upper := cutAcross(whole, 250)
	r := Compare(Version{"a", garment(whole)}, Version{"b", garment(lower, upper)}, "")
	for _, p := range r.Pieces {
		if p.Whole != "front" || p.Apart != 0 || p.Same(0.05) || len(p.A.Edges) == 0 {
			t.Errorf("%s: part of %q, %.1f mm apart", p.Name, p.Whole, p.Apart)
		}
	}
	shorter := Compare(Version{"a", garment(whole)}, Version{"b", garment(box("front", 0, 0, 200, 590))}, "").Pieces[0]
	if shorter.Whole != "" || shorter.Apart < 9.9 {
		t.Errorf("a shorter piece is a part of %q, %.1f mm apart", shorter.Whole, shorter.Apart)
	}
}

// What is sewn alike may be cut otherwise: with another allowance, or as a pair and not
// on the fold.
func TestCutOtherwise(t *testing.T) {
	a, b := box("front", 0, 0, 200, 600), box("front", 0, 0, 200, 600)
	b.Edges[1].Printed = 25
	on, pair := garment(a), garment(b)
	on.View.Uses[0].Copies = pattern.OnFold
	p := Compare(Version{"a", on}, Version{"b", pair}, "").Pieces[0]
	if got := strings.Join(p.Otherwise(), "; "); got != "cut as a pair, not on the fold; allowance at side 25.0 mm, not 0.0 mm" || p.Same(0.05) {
		t.Errorf("told %q", got)
	}
	if p := Compare(Version{"a", on}, Version{"b", on}, "").Pieces[0]; !p.Same(0.05) || len(p.Otherwise()) > 0 {
		t.Errorf("of the same: %q", p.Otherwise())
	}
}

// A facing that has gone down the paper with its hem is the same facing; a front that
// has is not drawn where it was.
func TestMovedOnThePaper(t *testing.T) {
	bare := func(p piece.Piece) piece.Piece { p.Lines = nil; return p }
	a, b := box("facing", 0, 0, 200, 30), box("facing", 0, -40, 200, 30)
	if p := Compare(Version{"a", garment(bare(a))}, Version{"b", garment(bare(b))}, "").Pieces[0]; !p.Same(0.05) {
		t.Errorf("a facing that has only been moved is %.1f mm apart", p.Apart)
	}
	near(t, "apart with a level", Compare(Version{"a", garment(a)}, Version{"b", garment(b)}, "").Pieces[0].Apart, 40)
}

package compare

import (
	"math"
	"testing"

	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// By hand: a block 210 by 620 on a paper of its own, laid on a front of 200 by 600.
// Fold on fold and hem on hem, its far corner lies 10 out and 20 up; at the hip,
// half-way up either, 10 out and 10 up; without a fold the 10 lie 5 on either side.
func TestBlockOfOnesOwn(t *testing.T) {
	bare := func(p piece.Piece) piece.Piece { p.Lines = nil; return p }
	fold := func(g pattern.Garment) pattern.Garment { g.View.Uses[0].FoldEdge = "centre"; return g }
	front, block := box("front", 0, 0, 200, 600), box("front", 5000, -300, 210, 620)
	block.Edges[1].Printed = 15
	for _, x := range []struct {
		name  string
		a, b  pattern.Garment
		level string
		lo    geom.Pt // of the block as laid
		apart float64
	}{
		{"fold and hem", fold(garment(bare(front))), garment(bare(block)), "", geom.Pt{}, math.Hypot(10, 20)},
		{"fold and hip", fold(garment(front)), garment(block), "", geom.Pt{Y: -10}, math.Hypot(10, 10)},
		{"asked for", fold(garment(front)), garment(block), "hip", geom.Pt{Y: -10}, math.Hypot(10, 10)},
		{"no fold", garment(front), garment(block), "", geom.Pt{X: -5, Y: -10}, math.Hypot(5, 10)},
	} {
		p := Compare(Version{Name: "a", Garment: x.a}, Version{Name: "b", Garment: x.b, Elsewhere: true}, x.level).Pieces[0]
		lo, _ := geom.BoundsOf(p.B.Outline(fine))
		near(t, x.name+": left", lo.X, x.lo.X)
		near(t, x.name+": foot", lo.Y, x.lo.Y)
		near(t, x.name+": apart", p.Apart, x.apart)
		near(t, x.name+": side", row(t, p.Edges, "side").By(), 20)
		if len(p.Allowances) > 0 {
			t.Errorf("%s: allowances %v", x.name, p.Allowances)
		}
	}
}

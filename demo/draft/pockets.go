package main

import (
	"gusset/internal/geom"
	"gusset/internal/piece"
)

// pocketWide is the finished width of both patch pockets; it grows by a few
// millimetres a size, as hands do less than hips.
func pocketWide(s size) float64 { return 140 + 4*float64(s.step) }

// Front pocket: where its mouth begins below the waist, how far it slants, and
// how far the pocket keeps from the outseam.
const (
	mouthDown   = 62
	mouthSlant  = 55
	pocketClear = 32
)

// frontPocketCorners returns the corners of the front patch pocket on the front:
// the mouth's outer and inner end, the bottom's inner and outer end. The mouth
// slants down to the outseam, so that a hand finds it.
func (f frontDraft) frontPocketCorners() [4]geom.Pt {
	right := f.side - pocketClear
	left := right - pocketWide(f.size)
	top := f.waistY - mouthDown
	bottom := top - 215 - 4*float64(f.step)
	return [4]geom.Pt{
		{X: right, Y: top - mouthSlant}, {X: left, Y: top}, {X: left, Y: bottom}, {X: right, Y: bottom},
	}
}

// pocketOutline is the placement line: the pocket's sewn edges, mouth left open.
func (f frontDraft) pocketOutline() geom.Curve {
	c := f.frontPocketCorners()
	return geom.Polyline(c[1], c[2], c[3], c[0])
}

func draftFrontPocket(f frontDraft) piece.Piece {
	c := f.frontPocketCorners()
	p := piece.Piece{
		Name: "front-pocket",
		Edges: []piece.Edge{
			edge("top", 30, geom.Curve{geom.Line(c[0], c[1])}),
			edge("side-in", pocketIn, geom.Curve{geom.Line(c[1], c[2])}),
			edge("bottom", pocketIn, geom.Curve{geom.Line(c[2], c[3])}),
			edge("side-out", pocketIn, geom.Curve{geom.Line(c[3], c[0])}),
		},
	}
	p = p.Transform(geom.Shift(geom.Pt{}.Sub(c[2])))
	p.Lines = []piece.Line{grainAt(pocketWide(f.size)/2, 25, 140)}
	return p
}

// backPocketCorners returns the corners of the back patch pocket on the back:
// top inner, top outer, side outer, point, side inner. It hangs square below
// the yoke seam.
func (d backDraft) backPocketCorners() [5]geom.Pt {
	s := d.front.size
	top, _ := d.piece.Edge("top")
	out := top.Curve.StartTangent() // centre to side
	down := out.Left()
	mid := top.Curve.At(top.Curve.Length() / 2).Add(down.Mul(36))
	half := pocketWide(s) / 2
	deep := 128 + 3*float64(s.step)
	return [5]geom.Pt{
		mid.Sub(out.Mul(half)),
		mid.Add(out.Mul(half)),
		mid.Add(out.Mul(half - 4)).Add(down.Mul(deep)),
		mid.Add(down.Mul(deep + 26)),
		mid.Sub(out.Mul(half - 4)).Add(down.Mul(deep)),
	}
}

func (d backDraft) pocketOutline() geom.Curve {
	c := d.backPocketCorners()
	return geom.Polyline(c[1], c[2], c[3], c[4], c[0])
}

func draftBackPocket(d backDraft) piece.Piece {
	c := d.backPocketCorners()
	p := piece.Piece{
		Name: "back-pocket",
		Edges: []piece.Edge{
			edge("top", 40, geom.Curve{geom.Line(c[0], c[1])}),
			edge("side-out", pocketIn, geom.Curve{geom.Line(c[1], c[2])}),
			edge("bottom-out", pocketIn, geom.Curve{geom.Line(c[2], c[3])}),
			edge("bottom-in", pocketIn, geom.Curve{geom.Line(c[3], c[4])}),
			edge("side-in", pocketIn, geom.Curve{geom.Line(c[4], c[0])}),
		},
	}
	p = p.Transform(geom.Shift(geom.Pt{}.Sub(c[3])))
	p.Lines = []piece.Line{grainAt(0, 30, 120)}
	return p
}

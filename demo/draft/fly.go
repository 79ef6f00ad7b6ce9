package main

import (
	"math"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// shieldWide is the finished width of the folded shield behind the zip.
const shieldWide = 40

// draftFacing draws the fly facing of the left front, face up as it lies beside
// the centre edge before it is turned in: the centre edge is at its right. The
// free edge runs straight and rounds in to the base of the fly.
func draftFacing(f frontDraft) piece.Piece {
	corner := geom.Pt{X: -facingWide, Y: 40}
	top := geom.Pt{Y: f.fly}
	outerTop := geom.Pt{X: -facingWide, Y: f.fly}
	foot := geom.Pt{X: -8}
	// A quarter of an ellipse (handles 4/3 tan 22.5 degrees of the half axes).
	k := 4.0 / 3 * math.Tan(math.Pi/8)
	round := geom.Cubic(corner, corner.Add(geom.Pt{Y: -corner.Y * k}), foot.Add(geom.Pt{X: (corner.X - foot.X) * k}), foot)
	outer := append(geom.Curve{geom.Line(outerTop, corner)}, split(round, 2)...)
	outer = append(outer, geom.Line(foot, geom.Pt{}))
	p := piece.Piece{
		Name: "fly-facing",
		Edges: []piece.Edge{
			edge("waist", seam, geom.Curve{geom.Line(top, outerTop)}),
			edge("outer", edgeLine, outer),
			edge("centre", seam, geom.Curve{geom.Line(geom.Pt{}, top)}),
		},
		Lines: []piece.Line{grainAt(-facingWide/2, 50, f.fly-20)},
	}
	return p
}

// draftShield draws half of the shield: it is cut on the fold and stays folded.
// Its open edges are sewn to the right front's centre.
func draftShield(f frontDraft) piece.Piece {
	a, b := geom.Pt{}, geom.Pt{X: shieldWide}
	c, d := geom.Pt{X: shieldWide, Y: f.fly}, geom.Pt{Y: f.fly}
	return piece.Piece{
		Name: "shield",
		Edges: []piece.Edge{
			edge("bottom", edgeLine, geom.Curve{geom.Line(a, b)}),
			edge("fold", 0, geom.Curve{geom.Line(b, c)}),
			edge("top", seam, geom.Curve{geom.Line(c, d)}),
			edge("inner", seam, geom.Curve{geom.Line(d, a)}),
		},
		Lines: []piece.Line{grainAt(shieldWide/2, 20, f.fly-20)},
	}
}

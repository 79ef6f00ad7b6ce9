package main

import (
	"gusset/internal/geom"
	"gusset/internal/piece"
)

// bandHigh is the finished height of the waistband.
const bandHigh = 40

// draftBand draws the waistband in one piece, twice its finished height, from
// the left centre front round to the end of the shield on the right. It stands
// on the paper, left end down: a band is cut with its length along the warp,
// which stretches least (common practice).
func draftBand(front, yoke float64) piece.Piece {
	round := 2*front + 2*yoke
	long := round + shieldWide
	a, b := geom.Pt{}, geom.Pt{X: long}
	c, d := geom.Pt{X: long, Y: 2 * bandHigh}, geom.Pt{Y: 2 * bandHigh}
	p := piece.Piece{
		Name: "band",
		Edges: []piece.Edge{
			edge("lower", seam, geom.Curve{geom.Line(a, b)}),
			edge("right-end", seam, geom.Curve{geom.Line(b, c)}),
			edge("upper", seam, geom.Curve{geom.Line(c, d)}),
			edge("left-end", seam, geom.Curve{geom.Line(d, a)}),
		},
		Lines: []piece.Line{
			{Kind: piece.Fold, Name: "fold", Curve: geom.Polyline(geom.Pt{Y: bandHigh}, geom.Pt{X: long, Y: bandHigh})},
			{Kind: piece.Grain, Name: "grain", Curve: geom.Polyline(geom.Pt{X: 60, Y: bandHigh / 2}, geom.Pt{X: 300, Y: bandHigh / 2})},
		},
	}
	notch(&p, "lower", "left-side", front)
	notch(&p, "lower", "back", front+yoke)
	notch(&p, "lower", "right-side", front+2*yoke)
	notch(&p, "lower", "right-centre", round)
	// The button stands behind the hole when the left centre front is closed
	// over the right.
	mark(&p, piece.Buttonhole, "waist", geom.Pt{X: 16, Y: bandHigh / 2})
	mark(&p, piece.Button, "waist", geom.Pt{X: round + 16, Y: bandHigh / 2})
	return p.Transform(geom.Affine{B: 1, C: -1})
}

func mark(p *piece.Piece, kind piece.MarkKind, name string, at geom.Pt) {
	p.Marks = append(p.Marks, piece.Mark{Kind: kind, Name: name, P: at})
}

// The strip that six belt loops are cut from: each 85 mm of a strip folded to a
// quarter of its width.
const (
	loopLength = 85
	loopCount  = 6
	loopWide   = 20 // between the fold lines of the raw edges; 10 mm finished
	loopTurn   = 10
)

func draftLoops() piece.Piece {
	long := float64(loopLength * loopCount)
	a, b := geom.Pt{}, geom.Pt{X: loopWide}
	c, d := geom.Pt{X: loopWide, Y: long}, geom.Pt{Y: long}
	return piece.Piece{
		Name: "loops",
		Edges: []piece.Edge{
			edge("lower-end", edgeLine, geom.Curve{geom.Line(a, b)}),
			edge("right", loopTurn, geom.Curve{geom.Line(b, c)}),
			edge("upper-end", edgeLine, geom.Curve{geom.Line(c, d)}),
			edge("left", loopTurn, geom.Curve{geom.Line(d, a)}),
		},
		Lines: []piece.Line{grainAt(loopWide/4, 30, 180)},
	}
}

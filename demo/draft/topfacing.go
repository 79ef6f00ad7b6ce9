package main

import (
	"gusset/internal/geom"
	"gusset/internal/piece"
)

// The facings of front and neck: how wide at hem and shoulder, and how deep at
// the centre back.
const (
	facingWidth    = 70
	facingShoulder = 45
	facingBack     = 65
)

// draftTopFacings draws the facings of front and back neck from the very edges
// they are sewn to, as they lie beside them before they are turned in: mirrored.
func draftTopFacings(b topBlock, f topFront, back piece.Piece) (front, neck piece.Piece) {
	hem, _ := f.piece.Edge("hem")
	foot := hem.Curve.At(facingWidth)
	shoulder := f.neck.Add(f.out.Mul(facingShoulder))
	bend := geom.Pt{X: foot.X, Y: 0.15 * f.neckLine}
	free := append(geom.Curve{geom.Line(foot, bend)},
		split(arcTo(bend, geom.Pt{Y: 1}, 0.62, shoulder, f.out.Left(), 0.5), 2)...)
	region := piece.Piece{
		Name: "front-facing",
		Edges: []piece.Edge{
			edge("hem", topHem, hem.Curve.Between(0, facingWidth)),
			edge("free", edgeLine, free),
			edge("shoulder", seam, geom.Curve{geom.Line(shoulder, f.neck)}),
			named(f.piece, "neck"),
			named(f.piece, "edge"),
		},
	}
	region.Lines = []piece.Line{
		grainAt(15, b.waistY-30, -20),
		across(region, piece.Lengthen, "body", b.waistY-bodyLine),
	}

	seamLine, _ := back.Edge("shoulder")
	outer := seamLine.Curve.At(facingShoulder)
	centre := geom.Pt{Y: b.depth - facingBack}
	inward := seamLine.Curve.StartTangent().Left()
	low := split(arcTo(outer, inward, 0.62, centre, geom.Pt{X: 1}, 0.62), 3)
	collar := piece.Piece{
		Name: "back-facing",
		Edges: []piece.Edge{
			edge("centre", 0, geom.Curve{geom.Line(centre, geom.Pt{Y: b.depth})}),
			named(back, "neck"),
			edge("shoulder", seam, seamLine.Curve.Between(0, facingShoulder)),
			edge("free", edgeLine, low),
		},
		Lines: []piece.Line{grainAt(-25, centre.Y+10, b.depth-12)},
	}
	return region.Mirror(), collar.Mirror()
}

// named is an edge of a piece as it is.
func named(p piece.Piece, name string) piece.Edge {
	e, _ := p.Edge(name)
	return e
}

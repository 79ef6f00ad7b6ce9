package main

import (
	"gusset/internal/geom"
	"gusset/internal/piece"
)

// topFront is the front with what the facing is drawn from.
type topFront struct {
	piece    piece.Piece
	neck     geom.Pt // neck point
	out      geom.Pt // along the shoulder seam, outwards
	neckLine float64 // height of the neck at the centre front
}

// draftTopFront draws the left front, face up: the edge at the left, the
// overlap beyond the centre front.
func draftTopFront(b topBlock) (topFront, error) {
	f := topFront{neck: geom.Pt{X: b.neckHalf, Y: b.frontUp}, out: slope(frontSlope), neckLine: b.frontUp - b.neckDrop}
	tip := f.neck.Add(f.out.Mul(b.shoulder))
	armhole, err := armholeFrom(b.frontQuarter, tip, f.out.Mul(-1), b.frontAcross)
	if err != nil {
		return f, err
	}
	centre, top := geom.Pt{Y: f.neckLine}, geom.Pt{X: -topOverlap, Y: f.neckLine}
	down := f.out.Mul(-1).Left().Rot(degrees(neckLean))
	neck := split(arcTo(f.neck, down, 0.62, centre, geom.Pt{X: -1}, 0.62), 3)
	side := b.sideFrom(b.frontQuarter)
	foot := geom.Pt{X: -topOverlap, Y: b.hemY}
	p := piece.Piece{
		Name: "front",
		Edges: []piece.Edge{
			edge("hem", topHem, geom.Curve{geom.Line(foot, side.Start())}),
			edge("side", seam, side),
			edge("armhole", seam, armhole),
			edge("shoulder", seam, geom.Curve{geom.Line(tip, f.neck)}),
			edge("neck", faced, append(neck, geom.Line(centre, top))),
			edge("edge", faced, geom.Curve{geom.Line(top, foot)}),
		},
	}
	p.Lines = append(b.levels(p), grainAt(90, b.waistY, 0),
		placement("buttons", geom.Polyline(geom.Pt{Y: f.neckLine - 2}, geom.Pt{Y: b.hemY + 2})),
		placement("breast", breastPocket(b).place()), placement("hip-pocket", hipPocket(b).place()))
	notch(&p, "hem", "facing", facingWidth)
	notch(&p, "side", "waist", waistOn(p, b))
	notch(&p, "armhole", "front-pitch", pitchUp(b))
	f.piece = p
	return f, nil
}

package main

import (
	"gusset/internal/geom"
	"gusset/internal/piece"
)

// draftTopBack draws the left half of the back, face up: the centre, which lies
// on the fold, at the right.
func draftTopBack(b topBlock) (piece.Piece, error) {
	// Drawn at positive x and mirrored, so that it is the front's neighbour.
	nape := geom.Pt{Y: b.depth}
	neck := geom.Pt{X: b.neckHalf, Y: b.depth + topBackRise}
	out := slope(backSlope)
	tip := neck.Add(out.Mul(b.shoulder + shoulderEase))
	armhole, err := armholeFrom(b.backQuarter, tip, out.Mul(-1), b.backAcross)
	if err != nil {
		return piece.Piece{}, err
	}
	rise := out.Left().Rot(-degrees(neckLean))
	foot := neck.Sub(rise.Mul(neckStraight))
	hollow := append(split(arcTo(nape, geom.Pt{X: 1}, 0.55, foot, rise, 0.55), 4), geom.Line(foot, neck))
	side := b.sideFrom(b.backQuarter)
	hem := geom.Pt{Y: b.hemY}
	p := piece.Piece{
		Name: "back",
		Edges: []piece.Edge{
			edge("hem", topHem, mirrored(geom.Curve{geom.Line(hem, side.Start())})),
			edge("centre", 0, geom.Curve{geom.Line(hem, nape)}),
			edge("neck", faced, mirrored(hollow.Reverse())),
			edge("shoulder", seam, mirrored(geom.Curve{geom.Line(tip, neck)})),
			edge("armhole", seam, mirrored(armhole)),
			edge("side", seam, mirrored(side)),
		},
	}
	p.Lines = append(b.levels(p), grainAt(-90, b.waistY, b.depth-60))
	notch(&p, "side", "waist", waistOn(p, b))
	arm, _ := p.Edge("armhole")
	notch(&p, "armhole", "back-pitch", arm.Curve.Length()-pitchUp(b))
	return p, nil
}

// Allowances that the overshirt's paper prints beside the usual ones, mm.
const (
	topHem = 30
	faced  = 10
)

// levels are the level lines and the lengthen line of a front or back.
func (b topBlock) levels(p piece.Piece) []piece.Line {
	return []piece.Line{
		across(p, piece.Level, "bust", -bustBelow),
		across(p, piece.Level, "waist", b.waistY),
		across(p, piece.Level, "hip", b.hipY),
		across(p, piece.Lengthen, "body", b.waistY-bodyLine),
	}
}

// waistOn is where the waist lies on a side edge.
func waistOn(p piece.Piece, b topBlock) float64 {
	e, _ := p.Edge("side")
	c, up := e.Curve, true
	if c.Start().Y > c.End().Y {
		c, up = c.Reverse(), false
	}
	at := c[:3].Length() // straight, and up to the waist
	if !up {
		return c.Length() - at
	}
	return at
}

// pitchUp is how far from the armhole's foot the notches of sleeve and armhole
// lie, on front and back.
func pitchUp(b topBlock) float64 { return 0.42 * b.depth }

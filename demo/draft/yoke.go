package main

import (
	"math"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// draftYoke draws the left back yoke, face up, as the strip of the back above
// the yoke seam with its waist dart folded out. Folding the dart turns the side
// up about the seam, so the lower edge, straight on the back, becomes a bow of
// the same length. How far it is turned decides the waist.
func draftYoke(d backDraft) (piece.Piece, error) {
	top, _ := d.piece.Edge("top")
	want := backWaist(d.front.block)
	turn, err := solve("dart in the yoke", -5, 40, func(turn float64) float64 {
		return yokeOutline(d, top.Curve, degrees(turn)).waist.Length() - want
	})
	if err != nil {
		return piece.Piece{}, err
	}
	o := yokeOutline(d, top.Curve, degrees(turn))
	p := piece.Piece{
		Name: "yoke",
		Edges: []piece.Edge{
			edge("waist", seam, o.waist),
			edge("side", seam, o.side.Reverse()),
			edge("lower", seam, o.lower.Reverse()),
			edge("centre", seam, geom.Curve{geom.Line(d.yokePoint, d.seatTop)}),
		},
	}
	mid := d.yokePoint.Lerp(o.lower.End(), 0.35)
	p.Lines = []piece.Line{grainAt(mid.X, mid.Y+4, mid.Y+yokeSide+8)}
	return p, nil
}

type yokeEdges struct {
	lower, side, waist geom.Curve // centre to side, up, centre to side
}

// yokeOutline draws the yoke with its side turned up by so many radians.
func yokeOutline(d backDraft, seamLine geom.Curve, turn float64) yokeEdges {
	along := seamLine.StartTangent()
	lower := bow(d.yokePoint, along, -turn, seamLine.Length())
	foot := d.sideAbove.Start()
	side := d.sideAbove.Transform(geom.Turn(-turn, foot).Then(geom.Shift(lower.End().Sub(foot))))
	a, z := d.seatUp.Left(), side.EndTangent().Left()
	h := d.seatTop.Dist(side.End()) / 3
	waist := geom.Cubic(d.seatTop, d.seatTop.Add(a.Mul(h)), side.End().Sub(z.Mul(h)), side.End())
	return yokeEdges{lower: lower, side: side, waist: split(waist, 2)}
}

// bow draws a curve of exactly the given length from a, leaving along dir and
// turning evenly by turn radians (positive: to the left).
func bow(a, dir geom.Pt, turn, length float64) geom.Curve {
	// The chord of a circular arc stands at half its turn to the start, and
	// each handle of the cubic through it is tan(turn/4)/(3 sin(turn/2)) * 2 of
	// the chord; a third of it when there is no turn.
	handle := 1.0 / 3
	if math.Abs(turn) > 1e-9 {
		handle = 2 * math.Tan(turn/4) / (3 * math.Sin(turn/2))
	}
	end := dir.Rot(turn / 2)
	unit := geom.Cubic(geom.Pt{}, dir.Mul(handle), end.Sub(dir.Rot(turn).Mul(handle)), end)
	k := length / unit.Length()
	return geom.Curve{unit.Transform(geom.Affine{A: k, D: k, E: a.X, F: a.Y})}
}

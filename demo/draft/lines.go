package main

import (
	"gusset/internal/geom"
	"gusset/internal/piece"
)

// Allowances printed on the paper, in mm.
const (
	seam     = 15
	longHem  = 40  // 20 mm turned twice
	turnUp   = 110 // 40 mm up, 40 mm back, 30 mm hem inside
	pocketIn = 12
	edgeLine = 0 // an overlocked or cut edge: the paper prints the edge itself
)

func hemAllowance(l leg) float64 {
	if l.cropped {
		return turnUp
	}
	return longHem
}

func edge(name string, allowance float64, c geom.Curve) piece.Edge {
	return piece.Edge{Name: name, Curve: c, Printed: allowance}
}

// legLines are the level lines, the crease and the lengthen line of a front or
// back. The waist level is given: on the
// back it lies above the yoke seam.
func legLines(p piece.Piece, b block, waist piece.Line) []piece.Line {
	return []piece.Line{
		waist,
		across(p, piece.Level, "hip", b.hipY),
		across(p, piece.Level, "thigh", b.thighY),
		across(p, piece.Level, "knee", b.kneeY),
		across(p, piece.Level, "hem", b.hemY),
		across(p, piece.Lengthen, "leg", b.legY),
		{Kind: piece.Fold, Name: "crease", Curve: geom.Polyline(geom.Pt{Y: b.hemY}, geom.Pt{Y: b.hipY})},
	}
}

// across draws a line at height y from one side of the piece to the other.
func across(p piece.Piece, kind piece.LineKind, name string, y float64) piece.Line {
	lo, hi := chord(p, y)
	return piece.Line{Kind: kind, Name: name, Curve: geom.Polyline(geom.Pt{X: lo, Y: y}, geom.Pt{X: hi, Y: y})}
}

// chord returns where the outline reaches furthest left and right at height y.
func chord(p piece.Piece, y float64) (lo, hi float64) {
	pts := p.Outline(0.002)
	first := true
	see := func(x float64) {
		if first || x < lo {
			lo = x
		}
		if first || x > hi {
			hi = x
		}
		first = false
	}
	for i, a := range pts {
		z := pts[(i+1)%len(pts)]
		if a.Y == y {
			see(a.X)
		}
		if (a.Y < y) != (z.Y < y) {
			see(a.Lerp(z, (y-a.Y)/(z.Y-a.Y)).X)
		}
	}
	return lo, hi
}

func grainAt(x, from, to float64) piece.Line {
	return piece.Line{Kind: piece.Grain, Name: "grain", Curve: geom.Polyline(geom.Pt{X: x, Y: from}, geom.Pt{X: x, Y: to})}
}

func placement(name string, c geom.Curve) piece.Line {
	return piece.Line{Kind: piece.Placement, Name: name, Curve: c}
}

// notch puts a notch on an edge, at mm along its stitching line.
func notch(p *piece.Piece, on, name string, at float64) {
	e, _ := p.Edge(on)
	p.Marks = append(p.Marks, piece.Mark{Kind: piece.Notch, Name: name, Edge: on, At: at, P: e.Curve.At(at)})
}

// The mouth of the side pocket in the outseam, from above to below the hip.
const (
	mouthAbove = 118
	mouthBelow = 32
)

// outseamNotches marks hip and knee, and the ends of the pocket mouth on the
// cropped view.
func outseamNotches(p *piece.Piece, c geom.Curve, l leg) {
	knee, hip := kneeAndHip(c)
	notch(p, "outseam", "knee", knee)
	notch(p, "outseam", "hip", hip)
	if l.cropped {
		up := 1.0
		if hip < knee {
			up = -1
		}
		notch(p, "outseam", "pocket-bottom", hip-up*mouthBelow)
		notch(p, "outseam", "pocket-top", hip+up*mouthAbove)
	}
}

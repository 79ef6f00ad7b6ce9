package main

import (
	"gusset/internal/geom"
	"gusset/internal/piece"
)

// patch is a patch pocket with its lower corners cut off, where it lies on the
// left front.
type patch struct {
	name       string
	left, top  float64
	wide, deep float64
	cut        float64 // of the lower corners
	turn       float64 // allowance of the top
}

// hipPocket lies between the facing and the side, breastPocket above the bust
// on the left front alone.
func hipPocket(b topBlock) patch {
	return patch{
		name: "hip-pocket", left: facingWidth - topOverlap + 16, top: b.waistY - 2*bodyLine - 6,
		wide: b.frontQuarter - 92, deep: 168 + 2*float64(b.step), cut: 22, turn: 40,
	}
}

func breastPocket(b topBlock) patch {
	return patch{
		name: "breast-pocket", left: facingWidth - topOverlap + 26 + float64(b.step), top: 34,
		wide: 104 + 2*float64(b.step), deep: 122 + 2*float64(b.step), cut: 18, turn: 30,
	}
}

// corners runs from the upper inner corner round to the upper outer one.
func (p patch) corners() [6]geom.Pt {
	right, bottom := p.left+p.wide, p.top-p.deep
	return [6]geom.Pt{
		{X: p.left, Y: p.top}, {X: p.left, Y: bottom + p.cut}, {X: p.left + p.cut, Y: bottom},
		{X: right - p.cut, Y: bottom}, {X: right, Y: bottom + p.cut}, {X: right, Y: p.top},
	}
}

// place is the placement line: the sewn edges, the mouth left open.
func (p patch) place() geom.Curve {
	c := p.corners()
	return geom.Polyline(c[:]...)
}

func (p patch) draft() piece.Piece {
	c := p.corners()
	line := func(i, j int) geom.Curve { return geom.Curve{geom.Line(c[i], c[j])} }
	out := piece.Piece{
		Name: p.name,
		Edges: []piece.Edge{
			edge("top", p.turn, line(5, 0)),
			edge("side-in", pocketIn, line(0, 1)),
			edge("corner-in", pocketIn, line(1, 2)),
			edge("bottom", pocketIn, line(2, 3)),
			edge("corner-out", pocketIn, line(3, 4)),
			edge("side-out", pocketIn, line(4, 5)),
		},
	}
	out = out.Transform(geom.Shift(geom.Pt{}.Sub(c[2])))
	mid := p.wide/2 - p.cut
	out.Lines = []piece.Line{grainAt(mid, 20, p.deep-25)}
	return out
}

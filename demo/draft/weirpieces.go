package main

import (
	"gusset/internal/geom"
	"gusset/internal/piece"
)

// The vent of the centre back.
const (
	ventWide  = 50
	ventDeep  = 230 // from the hem to where the seam ends
	ventSlant = 25  // its top slopes down so that the extension does not pull
	zipLong   = 190
)

// outline names the edges of a panel from the hem's end up the side and over
// the waist to the centre.
func (p panel) outline(b skirtBlock, darts []dartPlan) []piece.Edge {
	hip := p.side.Start()
	side := append(geom.Curve{geom.Line(geom.Pt{X: hip.X, Y: b.hemY}, hip)}, halves(p.side[0])...)
	edges := []piece.Edge{edge("side", seam, side)}
	stretches := map[int][]string{2: {"waist-side", "waist-centre"}, 3: {"waist-side", "waist-middle", "waist-centre"}}[len(p.waist)]
	for i, c := range p.waist {
		edges = append(edges, edge(stretches[i], weirTop, c))
		if i == len(p.waist)-1 {
			break
		}
		point := p.points[len(p.points)-1-i]
		name := darts[len(darts)-1-i].name
		edges = append(edges,
			edge(name+"-side", edgeLine, geom.Curve{geom.Line(c.End(), point)}),
			edge(name+"-centre", edgeLine, geom.Curve{geom.Line(point, p.waist[i+1].Start())}))
	}
	return edges
}

// lines are the levels, the lengthening line and the grain of a panel.
func (b skirtBlock) lines(p piece.Piece) []piece.Line {
	return []piece.Line{
		across(p, piece.Level, "waist", b.hipDepth-20),
		across(p, piece.Level, "hip", 0),
		across(p, piece.Level, "hem", b.hemY),
		across(p, piece.Lengthen, "skirt", -weirLine),
		grainAt(70, b.hemY+90, -160+weirLine),
	}
}

// frontPiece is half of the front, its centre on the fold.
func (b skirtBlock) frontPiece(f panel) piece.Piece {
	p := piece.Piece{Name: "front", Edges: []piece.Edge{
		edge("hem", weirHem, geom.Curve{geom.Line(geom.Pt{Y: b.hemY}, geom.Pt{X: b.frontHip, Y: b.hemY})}),
	}}
	p.Edges = append(p.Edges, f.outline(b, frontDarts)...)
	p.Edges = append(p.Edges, edge("centre", edgeLine, geom.Curve{geom.Line(f.top, geom.Pt{Y: b.hemY})}))
	p.Lines = b.lines(p)
	notch(&p, "side", "hip", -b.hemY)
	drills(&p, f)
	return p
}

// backPiece is the left back with the extension of its vent.
func (b skirtBlock) backPiece(f panel) piece.Piece {
	vent := geom.Pt{Y: b.hemY + ventDeep}
	out := geom.Pt{X: -ventWide, Y: vent.Y - ventSlant}
	foot := geom.Pt{X: -ventWide, Y: b.hemY}
	p := piece.Piece{Name: "back", Edges: []piece.Edge{
		edge("hem", weirHem, geom.Curve{geom.Line(foot, geom.Pt{X: b.backHip, Y: b.hemY})}),
	}}
	p.Edges = append(p.Edges, f.outline(b, backDarts)...)
	p.Edges = append(p.Edges,
		edge("centre", seam, geom.Curve{geom.Line(f.top, vent)}),
		edge("vent-top", seam, geom.Curve{geom.Line(vent, out)}),
		edge("vent", edgeLine, geom.Curve{geom.Line(out, foot)}))
	p.Lines = append(b.lines(p), piece.Line{Kind: piece.Fold, Name: "vent-fold", Curve: geom.Polyline(geom.Pt{Y: b.hemY}, vent)})
	notch(&p, "side", "hip", -b.hemY)
	notch(&p, "centre", "zip-foot", zipLong)
	drills(&p, f)
	return p.Mirror()
}

// drillBack is how far inside the dart its point is marked, so that the hole is
// taken in with the dart (common practice, 1/2 in).
const drillBack = 13

func drills(p *piece.Piece, f panel) {
	for i, point := range f.points {
		name := "dart"
		if len(f.points) > 1 {
			name = []string{"inner-dart", "outer-dart"}[i]
		}
		mark(p, piece.Drill, name, point.Add(geom.Pt{Y: drillBack}))
	}
}

// facing is the top of the panel with its darts closed: each stretch of the
// waist beyond a dart turns about the dart's point until the legs meet. Its
// lower edge is the waist moved down. It is sewn with its face down: the wearer's
// left copy, face up, is the mirror image of what it is laid on.
func (p panel) facing(name string) piece.Piece {
	n := len(p.waist)
	turned := make([]geom.Curve, n)
	closed := geom.Identity()
	for i := n - 1; i >= 0; i-- { // from the centre outwards
		turned[i] = p.waist[i].Transform(closed)
		if i > 0 {
			closed = geom.Turn(2*p.half, p.points[n-1-i]).Then(closed)
		}
	}
	var waist, lower geom.Curve
	for _, c := range turned {
		waist = append(waist, c...)
	}
	for i := 1; i < len(waist); i++ {
		waist[i].P[0] = waist[i-1].P[3]
	}
	for _, s := range waist {
		moved, _ := moveSegment(s, 0, 1, -facingDeep)
		lower = append(lower, moved)
	}
	lower = lower.Reverse()
	side := p.side.Between(p.side.Length()-facingDeep, p.side.Length()).Transform(closed)
	last := len(lower) - 1
	lower[last].P[2] = lower[last].P[2].Add(side.Start().Sub(lower.End()))
	lower[last].P[3] = side.Start()
	lower[0].P[0] = p.top.Sub(geom.Pt{Y: facingDeep})
	centre := edge("centre", seam, geom.Curve{geom.Line(waist.End(), lower.Start())})
	if name == "front-facing" {
		centre.Printed = edgeLine
	}
	return piece.Piece{
		Name: name,
		Edges: []piece.Edge{
			edge("lower", edgeLine, lower),
			edge("side", seam, side),
			edge("waist", weirTop, waist),
			centre,
		},
		Lines: []piece.Line{grainAt(40, p.top.Y-facingDeep+12, p.top.Y-10)},
	}
}

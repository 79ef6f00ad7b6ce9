package main

import (
	"math"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// centreTake is how far the centre front leans in from hip to waist, and
// flyShare how much of the waist height the fly opening takes.
const (
	centreTake = 10
	flyShare   = 0.62
	facingWide = 38 // finished width of the fly facing
)

// frontDraft is the front with what the other pieces are drawn from.
type frontDraft struct {
	block
	take    float64 // what the outseam takes in from hip to waist
	piece   piece.Piece
	outseam geom.Curve // hem to waist
	inseam  geom.Curve // fork point to hem
	waist   float64
	fly     float64
}

// draftFront draws the left front, face up: centre at the left, side at the
// right.
func draftFront(b block, l leg) (frontDraft, error) {
	take, err := solve("side shaping at the front waist", 5, 60, func(take float64) float64 {
		return b.frontWaistLine(take).Length() - frontWaist(b)
	})
	if err != nil {
		return frontDraft{}, err
	}
	f := frontDraft{block: b, take: take, outseam: b.outseam(take), fly: flyShare * b.waistY}
	waist := b.frontWaistLine(take)
	f.waist = waist.Length()
	top := waist.End()
	down := b.centreLine()
	base := top.Add(down.Mul(f.fly))
	f.inseam = b.frontInseam()
	f.piece = piece.Piece{
		Name: "front",
		Edges: []piece.Edge{
			edge("waist", seam, waist),
			edge("centre", seam, geom.Curve{geom.Line(top, base)}),
			edge("fork", seam, b.frontForkCurve(base, down)),
			edge("inseam", seam, f.inseam),
			edge("hem", hemAllowance(l), geom.Curve{geom.Line(f.inseam.End(), f.outseam.Start())}),
			edge("outseam", seam, f.outseam),
		},
	}
	if l.cropped {
		f.piece.Name = "front-cropped"
	}
	f.finish(l)
	return f, nil
}

// frontWaistLine runs from the side to the centre, square to both.
func (b block) frontWaistLine(take float64) geom.Curve {
	side := b.hipCurve(take)
	centre := b.centreTop()
	a, z := side.Tangent(1).Left(), geom.Pt{}.Sub(b.centreLine().Left())
	h := side.End().Dist(centre) / 3
	return geom.Curve{geom.Cubic(side.End(), side.End().Add(a.Mul(h)), centre.Sub(z.Mul(h)), centre)}
}

func (b block) centreTop() geom.Pt { return geom.Pt{X: b.centre + centreTake, Y: b.waistY} }

// centreLine is the direction of the centre front, going down.
func (b block) centreLine() geom.Pt {
	return geom.Pt{X: b.centre, Y: b.hipY}.Sub(b.centreTop()).Unit()
}

// frontInseamAngle is how far the inseam leans in at the fork point, from the
// vertical: a little more than its chord, so that it runs hollow.
func (b block) frontInseamAngle() float64 {
	return math.Atan2(-b.kneeHalf-b.tip, -b.kneeY) + degrees(5)
}

// frontInseam runs from the fork point down to the hem, with nodes at mid leg
// and knee. Below the knee it is the outseam's mirror image.
func (b block) frontInseam() geom.Curve {
	tip := geom.Pt{X: b.tip}
	knee, hem := geom.Pt{X: -b.kneeHalf, Y: b.kneeY}, geom.Pt{X: -b.hemHalf, Y: b.hemY}
	upper := inseamCurve(tip, b.frontInseamAngle(), knee, hem)
	toMid, toKnee := upper.Split(paramAtY(upper, b.midY))
	return append(append(geom.Curve{toMid}, halves(toKnee)...), geom.Line(knee, hem))
}

// inseamCurve draws an inseam from its fork point (at negative x) to the knee,
// where it runs on straight to the hem.
func inseamCurve(tip geom.Pt, angle float64, knee, hem geom.Pt) geom.Seg {
	reach := tip.Dist(knee)
	out := geom.Pt{X: math.Sin(angle), Y: -math.Cos(angle)}
	in := hem.Sub(knee).Unit()
	return geom.Cubic(tip, tip.Add(out.Mul(0.34*reach)), knee.Sub(in.Mul(0.40*reach)), knee)
}

// forkSquare is how much more than a right angle the front fork makes with the
// inseam; the back makes as much less, so that joined they run smooth.
var forkSquare = degrees(4)

// frontForkCurve runs from the base of the fly, where it leaves the centre line
// without a corner, to the fork point.
func (b block) frontForkCurve(base, down geom.Pt) geom.Curve {
	drop := b.frontInseamAngle() + forkSquare
	arrive := geom.Pt{X: -math.Cos(drop), Y: -math.Sin(drop)}
	return split(arcTo(base, down, 0.48, geom.Pt{X: b.tip}, arrive, 0.88), 3)
}

// finish adds lines and marks.
func (f *frontDraft) finish(l leg) {
	p := &f.piece
	p.Lines = append(legLines(*p, f.block, across(*p, piece.Level, "waist", f.waistLevel())), grainAt(25, f.kneeY+40, f.thighY-20))
	notch(p, "waist", "fly-edge", f.waist-facingWide)
	outseamNotches(p, f.outseam, l)
	notch(p, "inseam", "thigh", f.thighNotch())
	notch(p, "inseam", "knee", f.inseam[:3].Length())
	if !l.cropped {
		p.Lines = append(p.Lines, placement("pocket", f.pocketOutline()))
	}
}

// thighNotch is how far down the inseam the thigh level lies.
func (f frontDraft) thighNotch() float64 {
	upper := f.inseam[0]
	return upper.LengthTo(paramAtY(upper, f.thighY))
}

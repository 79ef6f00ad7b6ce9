package main

import (
	"math"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// The seat line leans seatSlope to one, the centre back stands backRaise above
// the front's, and the yoke seam cuts off so much of the side and of the centre
// (mm down from the waist).
const (
	seatSlope  = 0.23
	backRaise  = 22
	yokeSide   = 46
	yokeCentre = 70
)

// backDraft is the back below the yoke seam, with what the yoke is drawn from.
type backDraft struct {
	front      frontDraft
	piece      piece.Piece
	seatTop    geom.Pt // centre back at the waist
	seatUp     geom.Pt // direction of the seat line, going up
	yokePoint  geom.Pt // centre back at the yoke seam
	sideAbove  geom.Curve
	outseamLow geom.Curve // yoke seam down to hem
	drop       float64    // of the back fork point below the front's
}

// draftBack draws the left back, face up: side at the left, centre at the
// right. Its outseam is the front's, mirrored and moved out by the balance, so
// the two agree at every level.
func draftBack(f frontDraft, l leg) (backDraft, error) {
	b := f.block
	d := backDraft{front: f}
	whole := f.outseam.Transform(geom.Affine{A: -1, D: 1, E: -balance})
	n := len(whole) - 1
	d.outseamLow, d.sideAbove = whole[:n].Reverse(), whole[n:]

	hip := geom.Pt{X: whole[4].End().X + backHip(b.hipRound), Y: b.hipY}
	d.seatUp = geom.Pt{X: -seatSlope, Y: 1}.Unit()
	d.seatTop = hip.Add(d.seatUp.Mul((b.waistY + backRaise - b.hipY) / d.seatUp.Y))
	d.yokePoint = d.seatTop.Sub(d.seatUp.Mul(yokeCentre))

	tipX := hip.X + seatSlope*b.hipY + backFork(b.size)
	drop, err := solve("drop of the back fork", -30, 60, func(drop float64) float64 {
		return b.backInseam(tipX, drop).Length() - f.inseam.Length()
	})
	if err != nil {
		return backDraft{}, err
	}
	d.drop = drop
	inseam := splitInseam(b.backInseam(tipX, drop), f.inseam)
	tip := inseam.End()
	side := d.outseamLow.Start()
	d.piece = piece.Piece{
		Name: "back",
		Edges: []piece.Edge{
			edge("top", seam, geom.Curve{geom.Line(d.yokePoint, side)}),
			edge("outseam", seam, d.outseamLow),
			edge("hem", hemAllowance(l), geom.Curve{geom.Line(d.outseamLow.End(), inseam.Start())}),
			edge("inseam", seam, inseam),
			edge("seat", seam, d.seat(tip, hip, b.backInseamAngle(tipX))),
		},
	}
	if l.cropped {
		d.piece.Name = "back-cropped"
	}
	d.finish(l, whole)
	return d, nil
}

// backInseamAngle is how far the back inseam leans at the fork point, from the
// vertical.
func (b block) backInseamAngle(tipX float64) float64 {
	return math.Atan2(tipX-b.kneeHalf-balance, -b.kneeY) + degrees(6)
}

// backInseam runs from the hem up to the fork point. Up to the knee it is as
// long as the front's by its shape; how far the fork point drops makes the rest
// agree.
func (b block) backInseam(tipX, drop float64) geom.Curve {
	tip := geom.Pt{X: -tipX, Y: -drop}
	knee := geom.Pt{X: -b.kneeHalf - balance, Y: b.kneeY}
	hem := geom.Pt{X: -b.hemHalf - balance, Y: b.hemY}
	upper := inseamCurve(tip, b.backInseamAngle(tipX), knee, hem)
	return geom.Curve{upper, geom.Line(knee, hem)}.Transform(geom.Affine{A: -1, D: 1}).Reverse()
}

// splitInseam gives the back inseam a node where the front's at mid leg will
// meet it: as far from the fork point as there. On the back that is a little
// lower, because the back inseam slants more.
func splitInseam(back, front geom.Curve) geom.Curve {
	upper := back[1]
	t := upper.ParamAt(upper.Length() - front[:1].Length())
	toMid, toTip := upper.Split(t)
	return append(append(geom.Curve{back[0]}, halves(toMid)...), toTip)
}

// seat runs from the fork point along the seat curve and up the straight seat
// line to the yoke seam.
func (d backDraft) seat(tip, hip geom.Pt, angle float64) geom.Curve {
	rise := angle - forkSquare
	leave := geom.Pt{X: -math.Cos(rise), Y: math.Sin(rise)}
	start := tip.Add(leave.Mul(tipStraight))
	join := hip.Sub(d.seatUp.Mul(0.02 * d.front.waistY))
	curve := append(geom.Curve{geom.Line(tip, start)}, split(arcTo(start, leave, 0.58, join, d.seatUp, 0.62), 3)...)
	return append(curve, geom.Line(join, d.yokePoint))
}

func (d *backDraft) finish(l leg, whole geom.Curve) {
	p, b := &d.piece, d.front.block
	y := b.waistLevel()
	seatX := d.seatTop.X + seatSlope*(d.seatTop.Y-y)
	waist := piece.Line{Kind: piece.Level, Name: "waist", Curve: geom.Polyline(geom.Pt{X: whole.End().X, Y: y}, geom.Pt{X: seatX, Y: y})}
	p.Lines = append(legLines(*p, b, waist), grainAt(-25, b.kneeY+40, b.thighY-20))
	outseamNotches(p, d.outseamLow, l)
	in, _ := p.Edge("inseam")
	notch(p, "inseam", "knee", in.Curve[:1].Length())
	notch(p, "inseam", "thigh", in.Curve.Length()-d.front.thighNotch())
	if !l.cropped {
		p.Lines = append(p.Lines, placement("pocket", d.pocketOutline()))
	}
}

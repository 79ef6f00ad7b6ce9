package main

import (
	"math"

	"gusset/internal/geom"
)

// leg says how the leg runs below the knee.
type leg struct {
	cropped bool
}

// block holds the levels and the girths that front and back are drawn from.
// x = 0 is the crease line, y = 0 the fork level, for every size and for front
// and back alike, so that nested sizes spread about one point.
type block struct {
	size
	waistY, hipY, thighY, midY, kneeY, hemY float64
	legY                                    float64 // the line to lengthen or shorten at
	hipRound, waistRound                    float64 // garment girths
	kneeHalf, hemHalf                       float64 // front: crease to side
	side                                    float64 // front: x of the hip at the outseam
	centre                                  float64 // front: x of the centre at hip level
	tip                                     float64 // front: x of the fork point
}

// balance is how much further than the front the back reaches on each side of
// the crease at knee and hem; the back is 2 cm wider there (common practice).
const balance = 10

// aboveKnee is how far above the knee the leg is lengthened or shortened: low
// enough that the inseams of front and back lean alike there, so that both gain
// the same length, and high enough to leave the knee where it is.
const aboveKnee = 40

func newBlock(s size, l leg) block {
	b := block{size: s, hipRound: s.hip + hipEase, waistRound: s.waist + waistEase}
	// 15 mm of room below the body, and the waist seam 20 mm below the natural
	// waist so that the middle of a 40 mm band lies on it.
	b.waistY = s.rise + 15 - 20
	b.hipY = b.waistY / 3
	b.thighY = -30
	b.hemY = -(s.insideLeg - 20)
	b.kneeY = b.hemY/2 + 50
	b.midY = (b.thighY + b.kneeY) / 2
	b.legY = b.kneeY + aboveKnee
	b.kneeHalf = kneeRound(s)/4 - balance/2
	b.hemHalf = b.kneeHalf + 30.0/4
	if l.cropped {
		b.hemY = b.kneeY + 0.5*(b.hemY-b.kneeY)
		b.hemHalf = b.kneeHalf
	}
	hip := frontHip(b.hipRound)
	width := hip + frontFork(s)
	b.side = width / 2
	b.centre = b.side - hip
	b.tip = -width / 2
	return b
}

// waistLevel is the height of the waist level line: a little below the centre
// front, clear of the hollow of the waist edge.
func (b block) waistLevel() float64 { return b.waistY - 15 }

// kneeRound is the leg's girth at the knee.
func kneeRound(s size) float64 { return 0.35*s.hip + 134 }

// frontHip and backHip share the hip, the back taking 2 cm more.
func frontHip(round float64) float64 { return round/4 - 10 }
func backHip(round float64) float64  { return round/4 + 10 }

// frontFork is how far the front fork point stands out from the centre line.
func frontFork(s size) float64 { return s.hip/16 - 9 }

// tipStraight is the length at the back fork point that runs straight.
const tipStraight = 6

// backFork is the same for the back, from the seat line at fork level.
func backFork(s size) float64 { return 1.45 * frontFork(s) }

// frontWaist and backWaist share the waist; the front has more of it because
// it has no dart.
func frontWaist(b block) float64 { return b.waistRound/4 + 12 }
func backWaist(b block) float64  { return b.waistRound/4 - 12 }

// flare is the direction of the leg's side below the knee, going up, for a
// side at positive x.
func (b block) flare() geom.Pt {
	return geom.Pt{X: b.kneeHalf - b.hemHalf, Y: b.kneeY - b.hemY}.Unit()
}

// outseam draws the side of the front from hem to waist: straight to the knee,
// hollow above it, round over the hip, with the waist point in by take. Nodes
// stand at knee, mid leg, thigh, hip, between hip and yoke seam, and at the
// yoke seam, on every size.
func (b block) outseam(take float64) geom.Curve {
	hem, knee := geom.Pt{X: b.hemHalf, Y: b.hemY}, geom.Pt{X: b.kneeHalf, Y: b.kneeY}
	hip := geom.Pt{X: b.side, Y: b.hipY}
	up := geom.Pt{Y: 1}
	reach := b.hipY - b.kneeY
	low := geom.Cubic(knee, knee.Add(b.flare().Mul(0.36*reach)), hip.Sub(up.Mul(0.40*reach)), hip)
	toMid, rest := low.Split(paramAtY(low, b.midY))
	toThigh, toHip := rest.Split(paramAtY(rest, b.thighY))
	over := b.hipCurve(take)
	toYoke, toWaist := over.Split(over.ParamAt(over.Length() - yokeSide))
	c := geom.Curve{geom.Line(hem, knee), toMid, toThigh}
	c = append(append(c, halves(toHip)...), halves(toYoke)...)
	return append(c, toWaist)
}

// kneeAndHip returns where the knee and the hip lie along an outseam in mm,
// whether it is drawn upwards (front) or downwards (back).
func kneeAndHip(c geom.Curve) (knee, hip float64) {
	if c.End().Y > c.Start().Y {
		return c[:1].Length(), c[:5].Length()
	}
	n := len(c)
	return c[:n-1].Length(), c[:n-5].Length()
}

// sideRise is how far the waist rises from centre front to the side.
const sideRise = 10

// hipCurve runs from hip to waist. It is convex all the way: both handles stop
// short of where the end tangents meet, so there is no hollow above the hip.
func (b block) hipCurve(take float64) geom.Seg {
	hip := geom.Pt{X: b.side, Y: b.hipY}
	top := geom.Pt{X: b.side - take, Y: b.waistY + sideRise}
	lean := 1.35 * take / (top.Y - hip.Y)
	meet := geom.Pt{X: b.side, Y: top.Y - take/lean}
	return geom.Cubic(hip, hip.Lerp(meet, 0.65), top.Lerp(meet, 0.62), top)
}

// arcTo draws a curve from a, leaving along da, to z, arriving along dz. Each
// handle goes a fraction of the way to where the end tangents meet, so the
// curve never bends back.
func arcTo(a, da geom.Pt, early float64, z, dz geom.Pt, late float64) geom.Seg {
	t := z.Sub(a).Cross(dz) / da.Cross(dz)
	meet := a.Add(da.Mul(t))
	return geom.Cubic(a, a.Lerp(meet, early), z.Lerp(meet, late), z)
}

// degrees turns an angle in degrees into radians.
func degrees(a float64) float64 { return a * math.Pi / 180 }

// split cuts a segment in n equal parts of its parameter: the same curve, in
// spans short enough to move sideways accurately.
func split(s geom.Seg, n int) geom.Curve {
	var out geom.Curve
	for ; n > 1; n-- {
		first, rest := s.Split(1 / float64(n))
		out = append(out, first)
		s = rest
	}
	return append(out, s)
}

// halves cuts a segment in the middle of its length.
func halves(s geom.Seg) geom.Curve {
	a, b := s.Split(s.ParamAt(s.Length() / 2))
	return geom.Curve{a, b}
}

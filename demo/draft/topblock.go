package main

import (
	"math"

	"gusset/internal/geom"
)

// What the overshirt is drawn with, in mm and degrees. The shoulder seam lies
// a little to the front: the back's slopes less. The back shoulder is eased to
// the front's, for the shoulder blade.
const (
	topOverlap    = 20 // from the centre front to the edge: three quarters of a 20 mm button and more
	topBackRise   = 24 // the neck point of the back above the nape
	shoulderEase  = 6
	shoulderOver  = 18 // the seam runs on past the shoulder bone
	neckLean      = 22 // the back neck meets the seam so much wider than square, the front's narrower
	neckStraight  = 8  // of the back neck at the seam, so that its allowance meets the shoulder's
	backSlope     = 18
	frontSlope    = 22
	waistHollow   = 8 // of each side at the waist
	backMore      = 5 // the back quarter is wider than the front's by twice this
	hipBelowWaist = 205
	hemBelowHip   = 105
	bustBelow     = 25 // bust line below the armhole
	bodyLine      = 45 // the line to lengthen at, below the waist
)

// topBlock holds the levels and widths that front, back and sleeve are drawn
// from. y = 0 is the level of the armhole's foot, x = 0 the centre front and
// the centre back, for every size.
type topBlock struct {
	topSize
	depth        float64 // nape above the armhole's foot
	neckHalf     float64
	shoulder     float64 // length of the front shoulder seam
	waistY, hipY float64
	hemY         float64
	frontUp      float64 // neck point of the front above the armhole's foot
	neckDrop     float64 // front neck below the neck point
	backQuarter  float64
	frontQuarter float64
	backAcross   float64 // half of the width across the back, at the armhole's hollow
	frontAcross  float64
	hipWider     float64 // a quarter at the hip over the one at the bust
}

func newTopBlock(s topSize) topBlock {
	b := topBlock{topSize: s}
	b.depth = 0.08*s.bust + 168
	b.neckHalf = s.bust/26 + 44
	b.shoulder = s.bust/20 + 78 + shoulderOver
	b.waistY = b.depth - s.backWaist
	b.hipY = b.waistY - hipBelowWaist
	b.hemY = b.hipY - hemBelowHip
	b.frontUp = b.depth + topBackRise + 4 + 0.03*(s.bust-880)
	b.neckDrop = s.bust/26 + 62
	quarter := (s.bust + topBustEase) / 4
	b.backQuarter, b.frontQuarter = quarter+backMore, quarter-backMore
	b.backAcross, b.frontAcross = s.bust/12+119, s.bust/12+107
	b.hipWider = (s.hip+topHipEase)/4 - quarter
	return b
}

// sideFrom draws the side of a quarter that is w wide at the armhole's foot,
// upwards from the hem, at positive x: straight to the hip, a little hollow at
// the waist, square to the armhole's foot.
func (b topBlock) sideFrom(w float64) geom.Curve {
	hip := geom.Pt{X: w + b.hipWider, Y: b.hipY}
	waist := geom.Pt{X: w + b.hipWider*b.waistY/b.hipY - waistHollow, Y: b.waistY}
	up := geom.Pt{Y: 1}
	c := geom.Curve{geom.Line(geom.Pt{X: hip.X, Y: b.hemY}, hip)}
	for _, s := range geom.Smooth([]geom.Pt{hip, waist, {X: w}}, up, up) {
		c = append(c, halves(s)...)
	}
	return c
}

// armholeFrom draws half an armhole at positive x, from its foot at w up to the
// shoulder's end, which it meets square to the seam. It is hollow to across,
// and bends one way only.
func armholeFrom(w float64, tip, alongSeam geom.Pt, across float64) (geom.Curve, error) {
	arrive := geom.Pt{X: alongSeam.Y, Y: -alongSeam.X}
	draw := func(f float64) geom.Seg {
		return arcTo(geom.Pt{X: w}, geom.Pt{X: -1}, f, tip, arrive, 0.58)
	}
	f, err := solve("hollow of the armhole", 0.05, 0.98, func(f float64) float64 { return leastX(draw(f)) - across })
	if err != nil {
		return nil, err
	}
	return split(draw(f), 4), nil
}

// leastX is the smallest x on a segment, by looking closely.
func leastX(s geom.Seg) float64 {
	least := math.Inf(1)
	for i := range 2001 {
		least = math.Min(least, s.At(float64(i)/2000).X)
	}
	return least
}

// mirrored is a curve at the other side of x = 0, walked the other way.
func mirrored(c geom.Curve) geom.Curve {
	return c.Transform(geom.Affine{A: -1, D: 1}).Reverse()
}

// slope is the unit direction that falls by so many degrees towards positive x.
func slope(deg float64) geom.Pt {
	return geom.Pt{X: math.Cos(degrees(deg)), Y: -math.Sin(degrees(deg))}
}

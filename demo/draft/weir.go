package main

import (
	"fmt"
	"math"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// The Weir skirt: straight from the hip, a dart in each half of the front and
// two in each half of the back, a shaped facing at the waist, a zip and a vent
// in the centre back. Front and back are drafted the same way, centre on the
// left and side on the right; the back is then turned over.
//
// Every edge that is drawn across a dart or a seam is square to the dart's legs
// and to the seam on both sides of it, and each stretch between two of them is
// an arc: with the darts closed the waist runs on without a corner, whatever the
// darts take in.

// skirtSize is one row of the Weir's chart, with the drafting measures that the
// chart does not print. All in mm.
type skirtSize struct {
	label    string
	waist    float64
	hip      float64
	hipDepth float64 // waist to hip, at the side
	length   float64 // waist to hem, at the centre front
}

// chart rows in cm, as printed in pattern.yaml. Our own numbers.
var (
	weirLabels = []string{"36", "38", "40", "42", "44", "46", "48", "50"}
	weirWaist  = []float64{66, 69.5, 73, 77, 81.5, 87, 93, 99}
	weirHip    = []float64{91, 94.5, 98, 102, 106.5, 112, 117.5, 123}
	weirDepth  = []float64{196, 198, 200, 202, 204, 206, 208, 210}
	weirLength = []float64{600, 605, 610, 615, 620, 625, 630, 635}
)

func weirSizes() []skirtSize {
	out := make([]skirtSize, len(weirLabels))
	for i, l := range weirLabels {
		out[i] = skirtSize{l, weirWaist[i] * 10, weirHip[i] * 10, weirDepth[i], weirLength[i]}
	}
	return out
}

const (
	weirWaistEase = 20 // in mm round the body, in cloth that does not stretch
	weirHipEase   = 54
	weirHem       = 40
	weirTop       = 10 // the waist seam, narrow because it is faced
	facingDeep    = 60

	// balance of front and back: the front has more of the waist, since a back
	// takes in more (common practice).
	weirHipShare   = 3
	weirWaistShare = 9
	// sideShare is the part of what hip and waist differ by that the side seam
	// takes in; the darts take the rest.
	sideShare = 0.46

	// The lengthening line, 6 in below the hip on a skirt (The New Dressmaker,
	// 1921); here as far above the vent as its length allows.
	weirLine = 120
)

// skirtBlock is what front and back share.
type skirtBlock struct {
	skirtSize
	hemY, take, rise float64
	frontHip         float64
	backHip          float64
}

// dart is a dart of a panel: where its point lies, counted from the centre as a
// share of the waist and down from the waist, and the names of its legs.
type dartPlan struct {
	share, long float64
	name        string
}

var (
	frontDarts = []dartPlan{{0.54, 92, "dart"}}
	backDarts  = []dartPlan{{0.36, 138, "inner-dart"}, {0.68, 122, "outer-dart"}}
)

// panel is a drafted half, centre on the left.
type panel struct {
	points []geom.Pt    // the darts' points, from the centre outwards
	half   float64      // half the angle of each dart
	waist  []geom.Curve // its stretches, from the side to the centre
	side   geom.Curve   // hip to waist
	top    geom.Pt      // centre at the waist
}

// draftWeir drafts every size.
func draftWeir() ([]draft, error) {
	var out []draft
	for _, s := range weirSizes() {
		d, err := draftSkirt(s)
		if err != nil {
			return nil, fmt.Errorf("size %s: %w", s.label, err)
		}
		out = append(out, d)
	}
	return out, nil
}

func draftSkirt(s skirtSize) (draft, error) {
	hip, waist := (s.hip+weirHipEase)/4, (s.waist+weirWaistEase)/4
	b := skirtBlock{skirtSize: s, hemY: s.hipDepth - s.length, take: sideShare * (hip - waist), frontHip: hip + weirHipShare, backHip: hip - weirHipShare}
	// The side rises so far that the front's outermost stretch is an arc; the
	// back's side is the front's, and its centre sinks instead.
	front, err := b.fit("front darts", frontDarts, b.frontHip, waist+weirWaistShare, func(half float64) (panel, error) {
		rise, err := solve("rise of the side", 1, 60, func(rise float64) float64 {
			return b.with(rise).panel(frontDarts, b.frontHip, half, 0).bent()
		})
		if err != nil {
			return panel{}, err
		}
		b.rise = rise
		return b.panel(frontDarts, b.frontHip, half, 0), nil
	})
	if err != nil {
		return nil, err
	}
	back, err := b.fit("back darts", backDarts, b.backHip, waist-weirWaistShare, func(half float64) (panel, error) {
		drop, err := solve("drop of the centre back", -20, 50, func(drop float64) float64 {
			return b.panel(backDarts, b.backHip, half, drop).bent()
		})
		if err != nil {
			return panel{}, err
		}
		return b.panel(backDarts, b.backHip, half, drop), nil
	})
	if err != nil {
		return nil, err
	}
	out := draft{}
	for _, p := range []piece.Piece{b.frontPiece(front), b.backPiece(back), front.facing("front-facing").Mirror(), back.facing("back-facing")} {
		out[p.Name] = p
	}
	return out, nil
}

func (b skirtBlock) with(rise float64) skirtBlock {
	b.rise = rise
	return b
}

// fit finds the angle of the darts that leaves the wanted waist.
func (b *skirtBlock) fit(what string, darts []dartPlan, hip, waist float64, draw func(half float64) (panel, error)) (panel, error) {
	var told error
	half, err := solve(what, degrees(0.5), degrees(12), func(half float64) float64 {
		p, err := draw(half)
		if err != nil {
			told = err
			return math.NaN()
		}
		return p.round() - waist
	})
	if told != nil {
		return panel{}, told
	}
	if err != nil {
		return panel{}, err
	}
	return draw(half)
}

// round is the waist with the darts closed.
func (p panel) round() float64 {
	var sum float64
	for _, c := range p.waist {
		sum += c.Length()
	}
	return sum
}

// bent is how far the outermost stretch of the waist is from an arc.
func (p panel) bent() float64 {
	c := p.waist[0]
	return unevenness(c.Start(), c.StartTangent(), c.End(), c.EndTangent())
}

// unevenness compares the angles that a curve's ends make with its chord: they
// are equal on an arc.
func unevenness(a, da, z, dz geom.Pt) float64 {
	chord := z.Sub(a).Unit()
	return da.Cross(chord) - chord.Cross(dz)
}

// panel draws the part of a half above the hip: the waist from the centre, sunk
// by drop, over the darts to the side.
func (b skirtBlock) panel(darts []dartPlan, hip, half, drop float64) panel {
	p := panel{half: half, top: geom.Pt{Y: b.hipDepth - drop}}
	p.side = b.sideCurve(hip)
	wide := p.side.End().X
	from, along := p.top, geom.Pt{X: 1}
	for _, d := range darts {
		point := geom.Pt{X: d.share * wide, Y: b.hipDepth - d.long}
		left, right := geom.Pt{X: -math.Sin(half), Y: math.Cos(half)}, geom.Pt{X: math.Sin(half), Y: math.Cos(half)}
		arrive := left.Left().Mul(-1)
		long := bisect(0.5*d.long, 2*d.long, func(l float64) float64 {
			return unevenness(from, along, point.Add(left.Mul(l)), arrive)
		})
		to := point.Add(left.Mul(long))
		p.waist = append([]geom.Curve{arcBetween(from, along, to, arrive).Reverse()}, p.waist...)
		p.points = append(p.points, point)
		from, along = point.Add(right.Mul(long)), right.Left().Mul(-1)
	}
	p.waist = append([]geom.Curve{arcBetween(from, along, p.side.End(), p.side.EndTangent().Left().Mul(-1)).Reverse()}, p.waist...)
	return p
}

// sideCurve runs from hip to waist, round all the way and upright at the hip.
func (b skirtBlock) sideCurve(hip float64) geom.Curve {
	foot, top := geom.Pt{X: hip}, geom.Pt{X: hip - b.take, Y: b.hipDepth + b.rise}
	lean := 1.5 * b.take / top.Y
	meet := geom.Pt{X: hip, Y: top.Y - b.take/lean}
	return geom.Curve{geom.Cubic(foot, foot.Lerp(meet, 0.65), top.Lerp(meet, 0.62), top)}
}

// arcBetween draws one cubic between two points and directions, a circular arc
// where the directions allow it.
func arcBetween(a, da, z, dz geom.Pt) geom.Curve {
	turn := math.Atan2(da.Cross(dz), da.Dot(dz))
	handle := 1.0 / 3
	if math.Abs(turn) > 1e-9 {
		handle = 2 * math.Tan(turn/4) / (3 * math.Sin(turn/2))
	}
	h := handle * a.Dist(z)
	return geom.Curve{geom.Cubic(a, a.Add(da.Mul(h)), z.Sub(dz.Mul(h)), z)}
}

// bisect finds where f is zero when it has opposite signs at the ends; the
// nearer end otherwise.
func bisect(lo, hi float64, f func(float64) float64) float64 {
	if x, err := solve("", lo, hi, f); err == nil {
		return x
	}
	if math.Abs(f(lo)) < math.Abs(f(hi)) {
		return lo
	}
	return hi
}

package main

import (
	"math"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// What the sleeve is drawn with, in mm and degrees.
const (
	capEase      = 6  // of the whole head over the armhole: a low head, set in flat
	sleeveFacing = 60 // depth of the hem facing; as far the sleeve runs straight
)

// draftSleeve draws the left sleeve, face up: front at the left, back at the
// right, the crown at x = 0. The height of the head is given; the width is what
// makes each half as long as its half of the armhole and half of the ease.
func draftSleeve(b topBlock, front, back piece.Piece) (piece.Piece, error) {
	high, lean := headHigh(b), sleeveLean(b)
	half := func(e piece.Edge, f capHalf) (float64, error) {
		want := e.Curve.Length() + capEase*e.Curve.Length()/(armholeOf(front).Curve.Length()+armholeOf(back).Curve.Length())
		return solve("width of the sleeve", 80, 400, func(w float64) float64 { return f(w, high, lean).Length() - want })
	}
	wb, err := half(armholeOf(back), backCap)
	if err != nil {
		return piece.Piece{}, err
	}
	wf, err := half(armholeOf(front), frontCap)
	if err != nil {
		return piece.Piece{}, err
	}
	foot := high - (b.arm - shoulderOver + 8) // wrist level
	taper := (wb + wf - wristRound(b)) / 2
	under := underarm(taper, foot, lean)
	underBack := under.Transform(geom.Shift(geom.Pt{X: wb}))
	underFront := mirrored(under).Transform(geom.Shift(geom.Pt{X: -wf}))
	p := piece.Piece{
		Name: "sleeve",
		Edges: []piece.Edge{
			edge("wrist", faced, geom.Curve{geom.Line(underFront.End(), underBack.Start())}),
			edge("under-back", seam, underBack),
			edge("cap", seam, append(backCap(wb, high, lean), mirrored(frontCap(wf, high, lean))...)),
			edge("under-front", seam, underFront),
		},
	}
	elbow := foot * 0.5
	p.Lines = []piece.Line{
		grainAt(0, foot+120, -20),
		across(p, piece.Level, "upper-arm", -20),
		across(p, piece.Level, "elbow", elbow),
		across(p, piece.Lengthen, "arm", elbow-40),
	}
	length := under.Length()
	notch(&p, "under-back", "elbow", length/2)
	notch(&p, "under-front", "elbow", length/2)
	sleeve := named(p, "cap").Curve.Length()
	share := 1 + capEase/(sleeve-capEase)
	notch(&p, "cap", "back-pitch", pitchUp(b)*share)
	notch(&p, "cap", "front-pitch", sleeve-pitchUp(b)*share)
	notch(&p, "cap", "crown", armholeOf(back).Curve.Length()*share)
	return p, nil
}

func armholeOf(p piece.Piece) piece.Edge { return named(p, "armhole") }

// wristRound is the sleeve's girth at its hem.
func wristRound(b topBlock) float64 { return 0.42*b.upperArm + 196 }

// underarm draws the back underarm seam upwards to the origin: straight over the
// facing, then out by the taper, leaning at its upper end.
func underarm(taper, foot, lean float64) geom.Curve {
	low, turn := geom.Pt{X: -taper, Y: foot}, geom.Pt{X: -taper, Y: foot + sleeveFacing}
	up := geom.Pt{X: math.Sin(lean), Y: math.Cos(lean)}
	return append(geom.Curve{geom.Line(low, turn)}, split(arcTo(turn, geom.Pt{Y: 1}, 0.6, geom.Pt{}, up, 0.6), 3)...)
}

// backCap and frontCap draw half a sleeve head at positive x, from its foot at w
// up to the crown: hollow below, round above; the front is the hollower. They
// leave square to the underarm seam and are level at the crown.
func backCap(w, high, lean float64) geom.Curve  { return halfCap(w, high, lean, 0.60, 0.40) }
func frontCap(w, high, lean float64) geom.Curve { return halfCap(w, high, lean, 0.55, 0.38) }

type capHalf func(w, high, lean float64) geom.Curve

func halfCap(w, high, lean, along, up float64) geom.Curve {
	leave := geom.Pt{X: -math.Cos(lean), Y: math.Sin(lean)}
	c := geom.Smooth([]geom.Pt{{X: w}, {X: along * w, Y: up * high}, {Y: high}}, leave, geom.Pt{X: -1})
	var out geom.Curve
	for _, s := range c {
		out = append(out, split(s, 3)...)
	}
	return out
}

// draftSleeveFacing draws the hem facing from the sleeve, mirrored.
func draftSleeveFacing(sleeve piece.Piece) piece.Piece {
	wrist := named(sleeve, "wrist")
	a, z := wrist.Curve.Start(), wrist.Curve.End()
	up := geom.Pt{Y: sleeveFacing}
	p := piece.Piece{
		Name: "sleeve-facing",
		Edges: []piece.Edge{
			wrist,
			edge("end-back", seam, geom.Curve{geom.Line(z, z.Add(up))}),
			edge("free", edgeLine, geom.Curve{geom.Line(z.Add(up), a.Add(up))}),
			edge("end-front", seam, geom.Curve{geom.Line(a.Add(up), a)}),
		},
		Lines: []piece.Line{grainAt((a.X+z.X)/2, a.Y+10, a.Y+sleeveFacing-10)},
	}
	return p.Mirror()
}

// headHigh is the height of the sleeve head over its foot.
func headHigh(b topBlock) float64 { return 0.08*b.bust + 86 }

// sleeveLean is how far the underarm seam leans at its upper end, in radians:
// more in the larger sizes, which taper more.
func sleeveLean(b topBlock) float64 { return degrees(15 + 6*(b.bust-800)/340) }

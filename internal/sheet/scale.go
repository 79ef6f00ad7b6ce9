package sheet

import (
	"strconv"

	"gusset/internal/draw"
	"gusset/internal/geom"
)

const (
	ruleLength = 250.0
	squareMM   = 100.0
	squareInch = 4 * 25.4
)

// rule draws a measure of the given length from a in direction dir (a unit
// vector along an axis), with a tick to its left each 10 mm, numbered in cm.
func rule(l *draw.List, a, dir geom.Pt, length float64) {
	left := dir.Left()
	l.Line(penScale, a, a.Add(dir.Mul(length)))
	for d := 0.0; d <= length; d += 10 {
		tick, p := 2.5, a.Add(dir.Mul(d))
		if int(d)%50 == 0 {
			tick = 4
			n := draw.Text{At: p.Add(left.Mul(5)), Size: smallSize, Anchor: draw.Middle, Body: strconv.Itoa(int(d) / 10)}
			if dir.X == 0 { // the ticks point to the left of an upright rule
				n.Angle = 90
			}
			if dir.X == 0 || d > 0 { // one 0 serves both rules of a corner
				l.Text(n)
			}
		}
		l.Line(penScale, p, p.Add(left.Mul(tick)))
	}
}

// square draws a test square with its lower left corner at a and its measure
// written inside, below the middle.
func square(l *draw.List, a geom.Pt, side float64, name string) {
	box := draw.Box(a.X, a.Y, side, side)
	l.Rect(penScaleFine, box)
	words := draw.Block{Width: side - 8, Size: 3.4, Anchor: draw.Middle}
	words.Draw(l, geom.Pt{X: a.X + 4, Y: box.Center().Y + 8}, name)
}

const squareWords = "\nmeasure both sides on paper; if they are not true, print again without scaling"

// scaleBlock returns the test part of a large sheet: both rules from one
// corner, and both squares.
func scaleBlock() part {
	l := &draw.List{}
	l.Layer(layerScale, func(l *draw.List) {
		rule(l, geom.Pt{X: 12}, geom.Pt{X: 1}, ruleLength)
		rule(l, geom.Pt{X: 12}, geom.Pt{Y: 1}, ruleLength)
		square(l, geom.Pt{X: 24, Y: 14}, squareMM, "100 mm square"+squareWords)
		square(l, geom.Pt{X: 24 + squareMM + 10, Y: 14}, squareInch, "4 in square"+squareWords)
		l.Text(draw.Text{At: geom.Pt{X: 24, Y: 132}, Size: 3.4,
			Body: "Measure before cutting: both rules are 250 mm (9.84 in) long. Do not fit to page."})
	})
	p := partOf("the block of test squares and rules", l)
	p.fixed = true
	return p
}

// ruleStrips returns a level and an upright rule by themselves, for sheets that
// are glued: no page of A4 or Letter is 250 mm wide, and a rule over a joint
// tells whether the joint is true as well.
func ruleStrips() []part {
	strip := func(name string, dir geom.Pt) part {
		l := &draw.List{}
		l.Layer(layerScale, func(l *draw.List) {
			rule(l, geom.Pt{}, dir, ruleLength)
			words := draw.Text{At: geom.Pt{X: 60, Y: -4}, Size: smallSize, Body: "this rule is 250 mm long; measure it over the joints"}
			if dir.X == 0 {
				words.At, words.Angle = geom.Pt{X: 4, Y: 60}, 90
			}
			l.Text(words)
		})
		p := partOf(name, l)
		p.fixed = true
		return p
	}
	return []part{strip("the level rule", geom.Pt{X: 1}), strip("the upright rule", geom.Pt{Y: 1})}
}

package sheet

import (
	"fmt"

	"gusset/internal/draw"
	"gusset/internal/geom"
	"gusset/internal/lay"
	"gusset/internal/unit"
)

const alignWords = "A matched stripe is a drawing figure, and woven cloth is never so regular: before cutting, move each piece until the same point of the " +
	"actual bar lies under both places of each match, ringed on the chart, then pin it and see that its grain is still true."

// repeatWords say how a cloth with stripes or bars is laid.
func repeatWords(u unit.Unit, l lay.Lay) []string {
	r := l.Cloth.Repeat
	if !r.Exists() {
		return nil
	}
	along, across := l.Cloth.Periods()
	even, how := "even", ""
	if !r.Even {
		even = "uneven: the tops of all pieces point one way"
	}
	switch {
	case across == 0:
		how = "every " + unit.Format(along, u) + " along"
	case along == 0:
		how = "every " + unit.Format(across, u) + " across"
	default:
		how = "every " + unit.Format(along, u) + " along and every " + unit.Format(across, u) + " across"
	}
	words := fmt.Sprintf("The cloth repeats %s, %s.", how, even)
	if along > 0 {
		words += " Square its end along the middle of a main bar."
	}
	if across > 0 && r.Known {
		words += fmt.Sprintf(" The near selvedge is the one from whose outer edge the middle of a main bar lies %s away.", unit.Format(r.Bar.MM()*(1-l.Cloth.ShrinkWeft), u))
	}
	words += " " + dashWords(l, along, across)
	out := []string{words, alignWords}
	for _, m := range l.Unmatched {
		way := "across"
		if m.Along {
			way = "along"
		}
		out = append(out, fmt.Sprintf("Not matched: %s misses the repeat %s by %s.", m.Match, way, unit.Format(m.Apart, u)))
	}
	return out
}

// dashWords say what the dashed lines of the chart are.
func dashWords(l lay.Lay, along, across float64) string {
	folded := false
	for _, s := range l.Sections {
		folded = folded || s.Fold == lay.Along
	}
	words := "Dashed lines on the chart are the middles of main bars."
	if across > 0 && !l.Cloth.Repeat.Known {
		words = "Dashed lines along the chart run through matched places, wherever the bars lie: all of them lie on the same point of the repeat."
		if along > 0 {
			words += " Those across it are the middles of main bars."
		}
	}
	if folded {
		words += " Where the cloth is folded, pin the two layers together bar on bar before any piece is laid."
	}
	return words
}

// barLines draws where the repeat comes again.
func barLines(out *draw.List, of span, to geom.Affine) {
	pen := draw.DashPen(draw.Gray(120), 0.15, 1.2, 1.2)
	for _, i := range of.sections {
		s := of.lay.Sections[i]
		xs, ys := of.lay.Bars(s)
		for _, x := range xs {
			out.Line(pen, to.Apply(geom.Pt{X: x}), to.Apply(geom.Pt{X: x, Y: s.Width}))
		}
		for _, y := range ys {
			out.Line(pen, to.Apply(geom.Pt{X: s.From, Y: y}), to.Apply(geom.Pt{X: s.To, Y: y}))
		}
	}
}

// matchRing is the radius of the ring round a matched place, mm on the paper.
const matchRing = 0.9

// matchedPlaces rings the places of matches.
func matchedPlaces(out *draw.List, of span, to geom.Affine) {
	for _, p := range of.placed() {
		for _, q := range of.rings(p.Placed, to) {
			out.Circle(draw.Pen(draw.Black, 0.25), q, matchRing)
		}
	}
}

// rings are the matched places of a piece on the paper. Those of the half of a
// piece that lies beneath its fold are not before the cutter.
func (s span) rings(p lay.Placed, to geom.Affine) []geom.Pt {
	var out []geom.Pt
	for _, q := range s.lay.Matched(p) {
		if q.Y >= 0 {
			out = append(out, to.Apply(q))
		}
	}
	return out
}

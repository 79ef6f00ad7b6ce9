package sheet

import (
	"fmt"
	"math"
	"slices"

	"gusset/internal/draw"
	"gusset/internal/geom"
	"gusset/internal/lay"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

const (
	chartMargin = 9.0 // mm round the chart for its words
	chartWords  = 2.6
	leastScale  = 5.0 // a chart of a small lay is drawn no larger than 1:5
)

// layPicture draws a span of cloth to scale into the box, with a scale bar.
func layPicture(out *draw.List, s span, box draw.Rect, u unit.Unit) {
	to, scale, ok := s.onChart(box)
	if !ok {
		return
	}
	for _, i := range s.sections {
		sectionPicture(out, s.lay.Sections[i], to)
	}
	for _, p := range s.placed() {
		out.Path(clothPen(p.Placed), draw.Polygon(ringOf(p.Placed, to)...))
	}
	barLines(out, s, to)
	for _, p := range s.placed() {
		ring := ringOf(p.Placed, to)
		a, b, drawn := grainOn(p.Placed, to)
		if drawn {
			grainArrow(out, a, b)
		}
		layLabel(out, p.number, p.Placed, ring, a, b, s.rings(p.Placed, to))
	}
	matchedPlaces(out, s, to)
	s.flaws(out, to)
	for _, i := range s.sections {
		sectionSides(out, s.lay.Sections[i], to)
	}
	at := to.Apply(geom.Pt{X: s.from})
	words := "squared line"
	if s.from > lay.Squaring+0.01 {
		words = "squared line of this section"
	}
	wide := s.lay.Sections[s.sections[0]].Width / scale
	out.Text(draw.Text{At: geom.Pt{X: at.X - 1.5, Y: at.Y + wide/2}, Size: chartWords, Angle: 90, Anchor: draw.Middle, Body: words})
	scaleBar(out, geom.Pt{X: at.X, Y: at.Y - chartMargin + 2}, scale, u)
}

// flaws hatches what no piece may lie on, as far as it lies in the span.
func (s span) flaws(out *draw.List, to geom.Affine) {
	for _, i := range s.sections {
		sec := s.lay.Sections[i]
		a, b := to.Apply(geom.Pt{X: sec.From}), to.Apply(geom.Pt{X: sec.To, Y: sec.Width})
		out.Clip(draw.Rect{Min: a, Max: b}, func(in *draw.List) {
			for _, ring := range s.lay.Flawed(i) {
				for k := range ring {
					ring[k] = to.Apply(ring[k])
				}
				in.Path(draw.Style{Stroke: draw.Black, Width: 0.35}, draw.Polygon(ring...))
				hatch(in, ring)
			}
		})
	}
}

// hatch fills a ring with slanting lines, 1.2 mm apart.
func hatch(out *draw.List, ring []geom.Pt) {
	const apart = 1.2
	lo, hi := geom.BoundsOf(ring)
	for c := math.Floor((lo.X + lo.Y) / apart); c*apart <= hi.X+hi.Y; c++ {
		// x + y = c apart: where that line crosses the ring, two and two.
		var xs []float64
		for i, p := range ring {
			q := ring[(i+1)%len(ring)]
			u, v := p.X+p.Y-c*apart, q.X+q.Y-c*apart
			if (u < 0) != (v < 0) {
				xs = append(xs, p.Lerp(q, u/(u-v)).X)
			}
		}
		slices.Sort(xs)
		for i := 1; i < len(xs); i += 2 {
			out.Line(draw.Pen(draw.Gray(90), 0.15), geom.Pt{X: xs[i-1], Y: c*apart - xs[i-1]}, geom.Pt{X: xs[i], Y: c*apart - xs[i]})
		}
	}
}

// laySketch draws a lay small: outlines and numbers only.
func laySketch(out *draw.List, l lay.Lay, box draw.Rect) {
	s := wholeOf(l)
	to, scale, ok := s.onChart(box.Inset(sketchMargin - chartMargin))
	if !ok {
		return
	}
	for _, i := range s.sections {
		sectionPicture(out, l.Sections[i], to)
	}
	for _, p := range s.placed() {
		ring := ringOf(p.Placed, to)
		pen := clothPen(p.Placed)
		pen.Width = 0.15
		out.Path(pen, draw.Polygon(ring...))
		numberLabel(out, p.number, ring, pen.Fill)
	}
	at := to.Apply(geom.Pt{X: s.from})
	words := fmt.Sprintf("%s, 1:%.0f", l.Role, scale)
	out.Text(draw.Text{At: geom.Pt{X: at.X, Y: at.Y - chartWords - 1}, Size: chartWords, Body: words})
}

// sectionPicture draws a stretch of cloth, heavy along its fold.
func sectionPicture(out *draw.List, s lay.Section, to geom.Affine) {
	a, b := to.Apply(geom.Pt{X: s.From}), to.Apply(geom.Pt{X: s.To, Y: s.Width})
	out.Rect(draw.Pen(draw.Gray(90), 0.2), draw.Rect{Min: a, Max: b})
	switch s.Fold {
	case lay.Along:
		out.Line(draw.Pen(draw.Black, 0.7), a, geom.Pt{X: b.X, Y: a.Y})
	case lay.Across:
		out.Line(draw.Pen(draw.Black, 0.7), geom.Pt{X: b.X, Y: a.Y}, b)
	case lay.Swung:
		out.Line(draw.DashPen(draw.Black, 0.5, 4, 2), geom.Pt{X: b.X, Y: a.Y}, b)
	}
	if s.Single() {
		edge := to.Apply(geom.Pt{Y: s.Depth}).Y
		out.Line(draw.DashPen(draw.Gray(90), 0.2, 2, 1), geom.Pt{X: a.X, Y: edge}, geom.Pt{X: b.X, Y: edge})
	}
}

// sectionSides names the two long sides of a stretch, in as many words as it
// is long.
func sectionSides(out *draw.List, s lay.Section, to geom.Affine) {
	a, b := to.Apply(geom.Pt{X: s.From}), to.Apply(geom.Pt{X: s.To, Y: s.Width})
	near, far := "selvedge", "selvedge"
	switch {
	case s.Single():
		near, far = "fold", "selvedge"
	case s.FromFold():
		near, far = "fold", "selvedges"
	}
	name := func(y float64, ways ...string) {
		for _, body := range ways {
			if draw.TextWidth(body, chartWords, false) <= b.X-a.X {
				out.Text(draw.Text{At: geom.Pt{X: (a.X + b.X) / 2, Y: y}, Size: chartWords, Anchor: draw.Middle, Body: body})
				return
			}
		}
	}
	name(a.Y-1-chartWords, near+": measure across from here", near)
	name(b.Y+1.2, far)
}

// ringOf is the cut line of a placed piece on the paper.
func ringOf(p lay.Placed, to geom.Affine) []geom.Pt {
	var ring []geom.Pt
	for _, q := range p.Outline() {
		ring = append(ring, to.Apply(q))
	}
	return ring
}

// clothPen draws and fills a piece, darker where it is cut through two layers.
func clothPen(p lay.Placed) draw.Style {
	s := draw.Style{Stroke: draw.Black, Width: 0.25, Fill: draw.Gray(238)}
	if p.Layers > 1 {
		s.Fill = draw.Gray(218)
	}
	return s
}

// grainOn is a piece's grain line on the paper, from its foot to its top.
func grainOn(p lay.Placed, to geom.Affine) (foot, top geom.Pt, ok bool) {
	g, ok := p.Cut.Sewn.Line(piece.Grain, "")
	if !ok || len(g.Curve) == 0 {
		return foot, top, false
	}
	a, b := g.Curve.Start(), g.Curve.End()
	if a.Y > b.Y {
		a, b = b, a
	}
	return to.Apply(p.Put(a)), to.Apply(p.Put(b)), true
}

// grainArrow draws a grain line with a point at its top end.
func grainArrow(out *draw.List, foot, top geom.Pt) {
	pen := draw.Pen(draw.Gray(90), 0.2)
	out.Line(pen, foot, top)
	in := foot.Sub(top).Unit()
	back, aside := in.Mul(2), in.Left().Mul(0.8)
	out.Path(pen, draw.Polyline(top.Add(back).Add(aside), top, top.Add(back).Sub(aside)))
}

// scaleBar draws half a metre of cloth in steps of 10 cm, or 20 in in steps of
// 4 in.
func scaleBar(out *draw.List, at geom.Pt, scale float64, u unit.Unit) {
	const steps = 5
	step, words := 100.0, "50 cm"
	if u == unit.Inch || u == unit.Foot || u == unit.Yard {
		step, words = squareInch, "20 in"
	}
	for i := range steps {
		s := draw.Pen(draw.Black, 0.15)
		if i%2 == 0 {
			s.Fill = draw.Black
		}
		out.Rect(s, draw.Box(at.X+float64(i)*step/scale, at.Y, step/scale, 1.4))
	}
	out.Text(draw.Text{At: geom.Pt{X: at.X + steps*step/scale + 2, Y: at.Y}, Size: chartWords, Body: fmt.Sprintf("%s of cloth; scale 1:%.0f", words, scale)})
}

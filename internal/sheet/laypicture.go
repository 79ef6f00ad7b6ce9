package sheet

import (
	"fmt"
	"math"

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

// layScale is the scale, 1 to so many, at which a lay fits a box: a whole
// number, so that the chart can be measured with a rule.
func layScale(l lay.Lay, box draw.Rect) float64 {
	room := box.Inset(chartMargin)
	return max(leastScale, math.Ceil(max((l.Length-lay.Squaring)/room.W(), widest(l)/room.H())))
}

// chartHeight is what the picture of a lay takes of a page's room.
func chartHeight(l lay.Lay, width, room float64) float64 {
	return min(room, widest(l)/layScale(l, draw.Box(0, 0, width, room))+2*chartMargin)
}

func widest(l lay.Lay) float64 {
	wide := 0.0
	for _, s := range l.Sections {
		wide = max(wide, s.Width)
	}
	return wide
}

// onChart is the map from the cloth to the paper: from the squared line at the
// left, the side that is measured from at the foot.
func onChart(l lay.Lay, box draw.Rect) (to geom.Affine, scale float64, ok bool) {
	if l.Length <= lay.Squaring || widest(l) <= 0 {
		return to, 0, false
	}
	scale = layScale(l, box)
	room := box.Inset(chartMargin)
	return geom.Affine{A: 1 / scale, D: 1 / scale, E: room.Min.X - lay.Squaring/scale, F: room.Max.Y - widest(l)/scale}, scale, true
}

// layPicture draws the cloth to scale into the box, with a scale bar.
func layPicture(out *draw.List, l lay.Lay, box draw.Rect, u unit.Unit) {
	to, scale, ok := onChart(l, box)
	if !ok {
		return
	}
	for _, s := range l.Sections {
		sectionPicture(out, s, to)
	}
	for i, p := range l.Placed {
		ring := ringOf(p, to)
		out.Path(clothPen(p), draw.Polygon(ring...))
		a, b, drawn := grainOn(p, to)
		if drawn {
			grainArrow(out, a, b)
		}
		layLabel(out, i+1, p, ring, a, b)
	}
	for _, s := range l.Sections {
		sectionSides(out, s, to)
	}
	at := to.Apply(geom.Pt{X: lay.Squaring})
	out.Text(draw.Text{At: geom.Pt{X: at.X - 1.5, Y: at.Y + l.Sections[0].Width/scale/2}, Size: chartWords, Angle: 90, Anchor: draw.Middle, Body: "squared line"})
	scaleBar(out, geom.Pt{X: at.X, Y: at.Y - chartMargin + 2}, scale, u)
}

// laySketch draws a lay small: outlines and numbers only.
func laySketch(out *draw.List, l lay.Lay, box draw.Rect) {
	to, scale, ok := onChart(l, box.Inset(sketchMargin-chartMargin))
	if !ok {
		return
	}
	for _, s := range l.Sections {
		sectionPicture(out, s, to)
	}
	for i, p := range l.Placed {
		ring := ringOf(p, to)
		s := clothPen(p)
		s.Width = 0.15
		out.Path(s, draw.Polygon(ring...))
		numberLabel(out, i+1, ring, s.Fill)
	}
	at := to.Apply(geom.Pt{X: lay.Squaring})
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

package figure

import (
	"math"
	"slices"
	"strconv"

	"gusset/internal/body"
	"gusset/internal/draw"
	"gusset/internal/geom"
)

// Pens, in mm on the paper.
var (
	penBody   = draw.Pen(draw.Gray(110), 0.3)
	penTape   = draw.Pen(draw.RGB(178, 34, 34), 0.5)
	penBehind = draw.DashPen(draw.RGB(178, 34, 34), 0.35, 1, 1)
	penTag    = draw.Pen(draw.Gray(150), 0.15)
	penStool  = draw.Pen(draw.Gray(150), 0.2)
)

const (
	tagRadius = 2.6 // mm on the paper
	tagText   = 3.0
	titleText = 3.0
	ringDepth = 0.16 // of a ring's half width: seen from a little above
)

// reach is the box that a view with its tags takes at life size.
func reach(v View) draw.Rect {
	switch v {
	case Side:
		return draw.Box(-230, -90, 560, 1810)
	case Sitting:
		return draw.Box(-660, -90, 990, 1810)
	}
	return draw.Box(-500, -90, 1000, 1810)
}

// views lists the views that the measures need, in order.
func views(ms []body.Measure) []View {
	var out []View
	for _, v := range []View{Front, Back, Side, Sitting} {
		if slices.ContainsFunc(courses, func(c course) bool { return c.view == v && slices.Contains(ms, c.measure) }) {
			out = append(out, v)
		}
	}
	return out
}

func breadth(vs []View) float64 {
	var width float64
	for _, v := range vs {
		width += reach(v).W()
	}
	return width
}

// Height returns the height that Draw fills in a box of the given width, at most
// so much; 0 when there is nothing to draw. All in mm.
func Height(width, most float64, ms []body.Measure) float64 {
	w := breadth(views(ms))
	if w == 0 {
		return 0
	}
	return min(most, width/w*reach(Front).H())
}

// Draw draws the views that the measures need side by side in the box, with the
// course of the tape for each measure and its number.
func Draw(l *draw.List, box draw.Rect, ms []body.Measure) {
	vs := views(ms)
	width := breadth(vs)
	if width == 0 || box.Empty() {
		return
	}
	scale := min(box.W()/width, box.H()/reach(Front).H())
	x := box.Min.X + (box.W()-scale*width)/2
	for _, v := range vs {
		r := reach(v)
		to := geom.Affine{A: scale, D: scale, E: x - scale*r.Min.X, F: box.Min.Y - scale*r.Min.Y}
		one(l, v, to, ms)
		x += scale * r.W()
	}
}

// one draws one view: figure, title, tapes.
func one(l *draw.List, v View, to geom.Affine, ms []body.Measure) {
	for _, c := range outline(v) {
		l.Curve(penBody, c.Transform(to))
	}
	if v == Sitting {
		for _, leg := range [][2]geom.Pt{{pt(-260, seat), pt(170, seat)}, {pt(-230, seat), pt(-230, 0)}, {pt(140, seat), pt(140, 0)}} {
			l.Line(penStool, to.Apply(leg[0]), to.Apply(leg[1]))
		}
	}
	l.Text(draw.Text{At: to.Apply(pt((reach(v).Min.X+reach(v).Max.X)/2, -80)), Size: titleText, Anchor: draw.Middle, Color: draw.Gray(90), Body: Titles[v]})
	for _, c := range courses {
		if c.view == v && slices.Contains(ms, c.measure) {
			c.draw(l, to)
		}
	}
}

func outline(v View) []geom.Curve {
	lift := map[View]float64{Sitting: -322}[v]
	if v == Front || v == Back {
		return append(standing(), oval(pt(0, (crown+chin)/2), 76, (crown-chin)/2))
	}
	return append(profile(v), oval(pt(-8, (crown+chin)/2+lift), 94, (crown-chin)/2))
}

// oval is an ellipse of four cubic arcs.
func oval(c geom.Pt, rx, ry float64) geom.Curve {
	const k = 0.5522847498307936 // see draw.Circle
	var out geom.Curve
	for i := range 4 {
		a, b := quarter(i), quarter(i+1)
		at := func(p geom.Pt) geom.Pt { return c.Add(pt(p.X*rx, p.Y*ry)) }
		out = append(out, geom.Cubic(at(a), at(a.Add(b.Mul(k))), at(b.Add(a.Mul(k))), at(b)))
	}
	return out
}

func quarter(i int) geom.Pt {
	return [4]geom.Pt{{X: 1}, {Y: 1}, {X: -1}, {Y: -1}}[i%4]
}

// draw draws one tape with its number.
func (c course) draw(l *draw.List, to geom.Affine) {
	near := c.right
	if c.ringed() {
		front, behind := c.ring()
		l.Curve(penBehind, behind.Transform(to))
		l.Curve(penTape, front.Transform(to))
		if c.tag.X < c.left.X {
			near = c.left
		}
	} else {
		run := geom.Smooth(c.line, geom.Pt{}, geom.Pt{}).Transform(to)
		l.Curve(penTape, run)
		arrow(l, run.Start(), run.StartTangent())
		arrow(l, run.End(), run.EndTangent().Mul(-1))
		near = c.nearest()
	}
	tag := to.Apply(c.tag)
	if end := to.Apply(near); end.Dist(tag) > tagRadius {
		l.Line(penTag, tag.Add(end.Sub(tag).Unit().Mul(tagRadius)), end)
	}
	fill := draw.Fill(draw.White)
	fill.Stroke, fill.Width = draw.Gray(60), 0.2
	l.Circle(fill, tag, tagRadius)
	l.Text(draw.Text{At: tag.Sub(pt(0, draw.CapHeight*tagText/2)), Size: tagText, Anchor: draw.Middle, Body: strconv.Itoa(body.NumberOf(c.measure))})
}

// ring returns the near and the far half of the tape round the body.
func (c course) ring() (front, behind geom.Curve) {
	mid, half := c.left.Lerp(c.right, 0.5), c.right.Sub(c.left).Mul(0.5)
	turn := func(p geom.Pt) geom.Pt {
		return mid.Add(half.Mul(p.X)).Add(half.Left().Mul(ringDepth * p.Y))
	}
	for i, s := range oval(geom.Pt{}, 1, 1) {
		for k := range s.P {
			s.P[k] = turn(s.P[k])
		}
		if i < 2 {
			behind = append(behind, s)
		} else {
			front = append(front, s)
		}
	}
	return front, behind
}

// nearest is the point of a line that its number's leader goes to: the nearest
// of 19 spread along it.
func (c course) nearest() geom.Pt {
	run := geom.Smooth(c.line, geom.Pt{}, geom.Pt{})
	best, far := c.line[0], math.Inf(1)
	for i := 1; i < 20; i++ {
		p := run.At(run.Length() * float64(i) / 20)
		if d := p.Dist(c.tag); d < far {
			best, far = p, d
		}
	}
	return best
}

// arrow draws an arrow head at p that points against the direction given.
func arrow(l *draw.List, p, along geom.Pt) {
	const long, wide = 2.0, 0.6
	a := along.Unit()
	fill := draw.Fill(draw.RGB(178, 34, 34))
	l.Path(fill, draw.Polygon(p, p.Add(a.Mul(long)).Add(a.Left().Mul(wide)), p.Add(a.Mul(long)).Sub(a.Left().Mul(wide))))
}

package trace

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"

	"gusset/internal/draw"
	"gusset/internal/geom"
	"gusset/internal/trace/outline"
)

// Preview is a picture of the table seen straight from above, at one scale
// everywhere, with a grid in cm and whatever was traced drawn over it: edges and
// lines with their numbers, notches, filled where the edge is cut or stands out
// and open where it may be a slit or a tick.
func (t Traced) Preview() ([]byte, error) { return t.previewOf(t.drawn) }

// previewOf draws over the straightened photo.
func (t Traced) previewOf(over func(*draw.List, geom.Affine)) ([]byte, error) {
	size := t.Table.size()
	dpi := t.PreviewDPI()
	m := t.Table.fromCards()
	l := &draw.List{Title: "traced piece"}
	grid(l, size)
	over(l, m)
	page := draw.Page{Width: size.X, Height: size.Y, List: l}
	ink, err := draw.Raster(page, dpi)
	if err != nil {
		return nil, fmt.Errorf("preview: %w", err)
	}
	t.Table.under(ink, dpi)
	var b bytes.Buffer
	err = png.Encode(&b, ink)
	return b.Bytes(), err
}

// under multiplies a drawing on white with the straightened, lightened photo.
func (t Table) under(ink *image.RGBA, dpi float64) {
	back := inverse(t.fromCards())
	b := ink.Bounds()
	k := 25.4 / dpi
	for y := range b.Dy() {
		for x := range b.Dx() {
			p := back.Apply(geom.Pt{X: (float64(x) + 0.5) * k, Y: (float64(b.Dy()-y) - 0.5) * k})
			v := uint32(40) // beside every photo
			if i := outline.BestShot(t.Shots, p); i >= 0 {
				v = 70 + uint32(t.Shots[i].Photo.Lit(t.Shots[i].View.Pixel(p))*185/255)
			}
			c := ink.RGBAAt(x, y)
			ink.SetRGBA(x, y, color.RGBA{uint8(uint32(c.R) * v / 255), uint8(uint32(c.G) * v / 255), uint8(uint32(c.B) * v / 255), 255})
		}
	}
}

var (
	penGrid   = draw.Pen(draw.RGB(70, 110, 130).Fade(0.35), 0.5)
	penNumber = draw.RGB(0, 70, 110)
	penLine   = draw.DashPen(draw.RGB(0, 90, 160), 1.4, 8, 4)
	penNotch  = draw.Pen(draw.RGB(190, 20, 60), 1.2)
	edgeInk   = []draw.Color{draw.RGB(190, 20, 60), draw.RGB(150, 90, 0), draw.RGB(110, 0, 150)}
)

// grid draws a line every 10 cm and numbers it in cm.
func grid(l *draw.List, size geom.Pt) {
	for v := 100.0; v < max(size.X, size.Y); v += 100 {
		n := fmt.Sprint(int(v / 10))
		if v < size.X {
			l.Line(penGrid, geom.Pt{X: v}, geom.Pt{X: v, Y: size.Y})
			l.Text(draw.Text{At: geom.Pt{X: v + 2, Y: 3}, Size: 11, Body: n, Color: penNumber})
		}
		if v < size.Y {
			l.Line(penGrid, geom.Pt{Y: v}, geom.Pt{X: size.X, Y: v})
			l.Text(draw.Text{At: geom.Pt{X: 3, Y: v + 2}, Size: 11, Body: n, Color: penNumber})
		}
	}
}

// drawn draws what was traced.
func (t Traced) drawn(l *draw.List, m geom.Affine) {
	if len(t.Shape.Edges) == 0 {
		if len(t.Edge.Points) > 0 { // refused: show what was seen
			pts := make([]geom.Pt, len(t.Edge.Points))
			for i, p := range t.Edge.Points {
				pts[i] = m.Apply(p)
			}
			l.Path(draw.DashPen(edgeInk[0], 1.2, 4, 3), draw.Polygon(pts...))
		}
		return
	}
	grain, _ := t.grain(0)
	order := t.ordered(t.upright(grain, margin))
	back := inverse(t.upright(grain, margin)).Then(m)
	for i, e := range order {
		e = e.Transform(back)
		ink := edgeInk[i%len(edgeInk)]
		l.Curve(draw.Pen(ink, 1), e)
		l.Circle(draw.Fill(ink), e.Start(), 2.5)
		in := e.TangentAt(e.Length() / 2).Left()
		l.Text(draw.Text{At: e.At(e.Length() / 2).Add(in.Mul(14)).Sub(geom.Pt{Y: 5}), Size: 15, Bold: true, Anchor: draw.Middle, Body: fmt.Sprint(i + 1), Color: ink})
	}
	for i, n := range t.Shape.Notches {
		t.drawNotch(l, m, i, n)
	}
	for i, r := range t.Lines {
		a, b := m.Apply(r.A), m.Apply(r.B)
		l.Line(penLine, a, b)
		l.Text(draw.Text{At: a.Lerp(b, 0.2).Add(geom.Pt{X: 4, Y: 4}), Size: 13, Body: fmt.Sprintf("line %d", i+1), Color: penLine.Stroke})
	}
}

// drawNotch draws a triangle outside the edge that points at the notch.
func (t Traced) drawNotch(l *draw.List, m geom.Affine, i int, n outline.Notch) {
	p := m.Apply(n.At)
	out := geom.Pt{}
	best := math.Inf(1)
	for _, e := range t.Shape.Edges {
		e = e.Transform(m)
		if at, d := e.Nearest(p); d < best {
			best, out = d, e.TangentAt(at).Left().Mul(-1)
		}
	}
	far := p.Add(out.Mul(11))
	tri := draw.Polygon(p.Add(out.Mul(1.5)), far.Add(out.Left().Mul(4)), far.Sub(out.Left().Mul(4)))
	style := penNotch
	if n.Cut || n.Out {
		style = draw.Fill(penNotch.Stroke)
	}
	l.Path(style, tri)
	l.Text(draw.Text{At: p.Add(out.Mul(20)).Sub(geom.Pt{Y: 4}), Size: 11, Anchor: draw.Middle, Body: fmt.Sprintf("n%d", i+1), Color: penNotch.Stroke})
}

package exchange

import (
	"bytes"
	"cmp"
	"fmt"
	"image/png"
	"math"
	"slices"
	"strings"

	"gusset/internal/draw"
	"gusset/internal/geom"
	"gusset/internal/piece"
)

// previewPixels is the longer side of a preview.
const previewPixels = 2000.0

var (
	lookSize   = draw.Pen(draw.RGB(150, 150, 150), 0.6) // of the sizes beside
	lookEdges  = []draw.Style{draw.Pen(draw.RGB(190, 20, 60), 1.6), draw.Pen(draw.RGB(150, 90, 0), 1.6), draw.Pen(draw.RGB(110, 0, 150), 1.6)}
	lookInside = draw.DashPen(draw.RGB(0, 90, 160), 1, 8, 4)
	lookRule   = draw.Pen(draw.RGB(0, 0, 0), 1.2)
)

// Preview is a picture (PNG) of what has come in: each piece with its middle size
// drawn boldly, a colour and a name for each edge, notches, grain and lines, the
// other sizes thin beside it, and a rule of 10 cm.
func Preview(pieces []Graded, sizes []string) ([]byte, error) {
	if len(pieces) == 0 {
		return nil, fmt.Errorf("preview: there is no piece to be drawn")
	}
	at, w, h := shelved(pieces)
	dpi := min(90, 25.4*previewPixels/max(w, h))
	d := previewer{list: &draw.List{Title: "pieces taken in"}, text: 17 * 25.4 / dpi, mm: 25.4 / dpi}
	for i, g := range pieces {
		d.piece(g, at[i])
	}
	foot := geom.Pt{X: shelfGap, Y: 4 * d.mm}
	d.list.Line(d.pen(lookRule), foot, foot.Add(geom.Pt{X: 100}))
	d.list.Text(draw.Text{At: foot.Add(geom.Pt{X: 100 + 6*d.mm}), Size: d.text, Color: lookRule.Stroke,
		Body: fmt.Sprintf("10 cm; size %s", strings.Join(sizes, ", "))})
	img, err := draw.Raster(draw.Page{Width: w, Height: h, List: d.list}, dpi)
	if err != nil {
		return nil, fmt.Errorf("preview: %w", err)
	}
	var b bytes.Buffer
	err = png.Encode(&b, img)
	return b.Bytes(), err
}

// shelved is by how much each piece is moved so that none lies on another, in rows
// about as wide as all are high, and the size of the sheet; a strip at its foot,
// and some room for words, stays free.
func shelved(pieces []Graded) (at []geom.Pt, w, h float64) {
	parts := make([]Part, 0, len(pieces))
	area := 0.0
	for i, g := range pieces {
		p := Part{Name: fmt.Sprint(i)}
		for _, in := range g.In {
			p.Cut = append(p.Cut, edgesOf(in)...)
			p.Lines = append(p.Lines, in.Lines...)
		}
		lo, hi := p.bounds()
		area += (hi.X - lo.X + shelfGap) * (hi.Y - lo.Y + shelfGap)
		parts = append(parts, p)
	}
	moved, w, h := shelves(parts, 1.3*max(math.Sqrt(area), widestOf(parts)))
	strip := max(w, h) / 40
	for i, p := range moved {
		at = append(at, p.Cut[0].Curve.Start().Sub(parts[i].Cut[0].Curve.Start()).Add(geom.Pt{Y: strip}))
	}
	return at, w + 2*strip, h + 2*strip
}

func widestOf(parts []Part) float64 {
	widest := slices.MaxFunc(parts, func(a, b Part) int { return cmp.Compare(widthOf(a), widthOf(b)) })
	return widthOf(widest)
}

func widthOf(p Part) float64 {
	lo, hi := p.bounds()
	return hi.X - lo.X
}

// previewer draws pieces at any scale, with pens and words of one size on the
// picture.
type previewer struct {
	list *draw.List
	text float64 // size of words, mm of the page
	mm   float64 // of the page that a pixel covers
}

// pen is a pen whose measures are pixels of the picture.
func (d previewer) pen(s draw.Style) draw.Style {
	s.Width *= d.mm
	s.Dash = slices.Clone(s.Dash)
	for i := range s.Dash {
		s.Dash[i] *= d.mm
	}
	return s
}

func (d previewer) piece(g Graded, by geom.Pt) {
	m := geom.Shift(by)
	middle := len(g.In) / 2
	for k, in := range g.In {
		if k == middle {
			continue
		}
		for _, e := range in.Edges {
			d.list.Curve(d.pen(lookSize), e.Curve.Transform(m))
		}
	}
	in := g.In[middle]
	for _, l := range in.Lines {
		d.list.Curve(d.pen(lookInside), l.Curve.Transform(m))
		if l.Kind != piece.Grain {
			continue
		}
		d.list.Text(draw.Text{At: m.Apply(l.Curve.At(l.Curve.Length() / 3)).Add(geom.Pt{X: 4 * d.mm}), Size: d.text, Body: "grain", Color: lookInside.Stroke})
	}
	for i, e := range in.Edges {
		c, pen := e.Curve.Transform(m), lookEdges[i%len(lookEdges)]
		d.list.Curve(d.pen(pen), c)
		d.list.Circle(draw.Fill(pen.Stroke), c.Start(), 3*d.mm)
		name := e.Name
		if !g.Own[i] {
			name += "?"
		}
		mid := c.Length() / 2
		d.list.Text(draw.Text{At: c.At(mid).Add(c.TangentAt(mid).Left().Mul(14 * d.mm)).Sub(geom.Pt{Y: 5 * d.mm}), Size: d.text, Anchor: draw.Middle, Body: name, Color: pen.Stroke})
	}
	for _, k := range in.Marks {
		style := draw.Fill(draw.RGB(0, 0, 0))
		if k.Kind != piece.Notch {
			style = d.pen(lookRule)
		}
		d.list.Circle(style, m.Apply(k.P), 4*d.mm)
	}
	lo, hi := geom.BoundsOf(in.Outline(1))
	title := lo.Lerp(hi, 0.5).Add(geom.Pt{Y: 8 * d.mm})
	if hi.X-lo.X < 130*d.mm { // no room for it inside: above the largest size
		title.Y = topOf(g) + 5*d.mm
	}
	d.list.Text(draw.Text{At: m.Apply(title), Size: 1.3 * d.text, Bold: true, Anchor: draw.Middle, Body: g.Name, Color: lookRule.Stroke})
}

func topOf(g Graded) float64 {
	top := math.Inf(-1)
	for _, in := range g.In {
		_, hi := geom.BoundsOf(in.Outline(1))
		top = max(top, hi.Y)
	}
	return top
}

package exchange

import (
	"fmt"
	"io"

	"gusset/internal/draw"
	"gusset/internal/geom"
	"gusset/internal/piece"
)

// The layers of a piece in a PDF; each lies in the layer of its piece, and that
// in the layer of its size.
const (
	pdfCut    = "cut line"
	pdfSewn   = "stitching line"
	pdfGrain  = "grain line"
	pdfInside = "inside lines"
	pdfNotch  = "notches"
	pdfDrill  = "drill holes"
	pdfMirror = "fold of the cloth"
	pdfSigns  = "signs and words"
	pdfScale  = "test square and rules"
)

// WritePDF writes a style at true scale, a layer for each size that can be
// switched on and off. On a paper it is cut into sheets to be glued; without one
// (the zero Paper) it is one large page, in several where it is too long.
func WritePDF(w io.Writer, s Style, paper draw.Paper) error {
	width := 900.0 // mm; a common roll of plotting paper takes 914 (36 in)
	if paper.Width > 0 {
		pw, _ := paper.Window()
		width = 5 * pw
	}
	parts, wide, high := shelves(s.Parts, width)
	l := &draw.List{Title: s.Title}
	const ruleRoom = 30
	up := geom.Shift(geom.Pt{Y: ruleRoom})
	for k, size := range s.Sizes {
		l.Layer("size "+size, func(l *draw.List) {
			for _, p := range parts {
				if p.Size == size {
					l.Layer(p.Name, func(l *draw.List) { drawPart(l, p.transform(up), k) })
				}
			}
		})
	}
	wide, high = max(wide, 290), max(high+ruleRoom, 290)
	l.Layer(pdfScale, func(l *draw.List) { scaleRules(l) })
	area := draw.Box(0, 0, wide, high)
	doc := draw.Doc{Title: s.Title, Date: s.Date}
	if paper.Width == 0 {
		if high > draw.MaxSide || wide > draw.MaxSide {
			return fmt.Errorf("pdf: the pieces take %.0f × %.0f mm, more than one page can be (%.0f mm): say --paper a4", wide, high, draw.MaxSide)
		}
		doc.Pages = []draw.Page{{Width: wide, Height: high, List: l}}
		return draw.PDF(w, doc)
	}
	tiles, err := l.Tile(area, paper)
	if err != nil {
		return err
	}
	for _, t := range tiles.Sheets {
		draw.FootLine(t.Page.List, t.Foot, s.Title+", print at 100 %, measure the rules before cutting", "sheet "+t.Name)
		doc.Pages = append(doc.Pages, t.Page)
	}
	return draw.PDF(w, doc)
}

var (
	penCut    = draw.Pen(draw.Black, 0.4)
	penSewn   = draw.DashPen(draw.Black, 0.25, 4, 2)
	penInside = draw.DashPen(draw.Gray(90), 0.25, 2, 1)
	penMirror = draw.DashPen(draw.Black, 0.4, 8, 2, 1.5, 2)
	penThin   = draw.Pen(draw.Black, 0.25)
)

// notchLength is how long a notch is drawn, from the boundary inwards, in mm.
const notchLength = 3

// drawPart draws a part in the k-th size.
func drawPart(l *draw.List, p Part, k int) {
	l.Layer(pdfCut, func(l *draw.List) { l.Path(penCut, draw.Closed(whole(p.Cut))) })
	if len(p.Sewn) > 0 {
		l.Layer(pdfSewn, func(l *draw.List) { l.Path(penSewn, draw.Closed(whole(p.Sewn))) })
	}
	for _, line := range p.Lines {
		layer, pen := pdfInside, penInside
		if line.Kind == piece.Grain {
			layer, pen = pdfGrain, penThin
		}
		l.Layer(layer, func(l *draw.List) { l.Curve(pen, line.Curve) })
	}
	for _, m := range p.Marks {
		if m.Kind != piece.Notch {
			l.Layer(pdfDrill, func(l *draw.List) { l.Circle(penThin, m.P, 1.5) })
			continue
		}
		at, inwards := onBoundary(p, m)
		l.Layer(pdfNotch, func(l *draw.List) {
			l.Line(penThin, at, at.Add(geom.Pt{X: notchLength}.Rot(inwards)))
		})
	}
	if len(p.Mirror) > 0 {
		l.Layer(pdfMirror, func(l *draw.List) { l.Curve(penMirror, p.Mirror) })
	}
	l.Layer(pdfSigns, func(l *draw.List) { signs(l, p, k) })
}

// signs are the words, one line below the other from size to size, and the heads
// of the grain's arrow.
func signs(l *draw.List, p Part, k int) {
	if g, ok := p.grain(); ok {
		for _, e := range []struct{ tip, from geom.Pt }{{g.Start(), g.End()}, {g.End(), g.Start()}} {
			back := e.from.Sub(e.tip).Unit().Mul(5)
			l.Line(penThin, e.tip, e.tip.Add(back.Rot(0.4)))
			l.Line(penThin, e.tip, e.tip.Add(back.Rot(-0.4)))
		}
	}
	lo, hi := boxOf(p.outline())
	l.Text(draw.Text{At: lo.Lerp(hi, 0.5).Sub(geom.Pt{Y: float64(5 * k)}), Size: 4, Anchor: draw.Middle, Body: p.Title + ", size " + p.Size})
	if len(p.Sewn) == 0 {
		return
	}
	for _, e := range p.Sewn {
		if e.Name == "" || e.Curve.Length() < 25 {
			continue
		}
		at := e.Curve.Length() / 2
		in := e.Curve.TangentAt(at).Left()
		l.Text(draw.Text{At: e.Curve.At(at).Add(in.Mul(3)), Size: 2.6, Anchor: draw.Middle, Body: e.Name})
	}
}

// scaleRules are a square of 100 mm and rules of 250 mm on both axes: what is
// printed is measured before it is cut, ± 0.5 mm over 250 (common practice).
func scaleRules(l *draw.List) {
	at := geom.Pt{X: 10, Y: 10}
	l.Line(penThin, at, at.Add(geom.Pt{X: 250}))
	l.Line(penThin, at, at.Add(geom.Pt{Y: 250}))
	for k := range 6 {
		d := float64(50 * k)
		l.Line(penThin, at.Add(geom.Pt{X: d, Y: -2}), at.Add(geom.Pt{X: d, Y: 2}))
		l.Line(penThin, at.Add(geom.Pt{X: -2, Y: d}), at.Add(geom.Pt{X: 2, Y: d}))
	}
	l.Text(draw.Text{At: at.Add(geom.Pt{X: 3, Y: 3}), Size: 3, Body: "these rules are 250 mm, marked every 50 mm: print at 100 %, never fitted to the page"})
}

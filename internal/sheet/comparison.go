package sheet

import (
	"fmt"
	"math"
	"strings"

	"gusset/internal/compare"
	"gusset/internal/draw"
	"gusset/internal/geom"
	"gusset/internal/piece"
)

// Two versions laid over each other: the first a filled shape without a line,
// the second a line without a fill; so whatever of the shape shows outside the
// line has gone, and whatever is white inside it has come. Short strokes lead from
// the one to the other where they lie apart.
var (
	wasFill  = draw.Fill(draw.RGB(222, 226, 214))
	isLine   = draw.Pen(draw.RGB(150, 45, 20), 0.4)
	goesPen  = draw.Pen(draw.RGB(40, 70, 110), 0.2)
	farPen   = draw.Pen(draw.RGB(40, 70, 110), 0.45)
	isLevel  = draw.DashPen(draw.RGB(150, 45, 20), 0.15, 2, 2)
	titleHue = draw.Black
)

const (
	strokeStep  = 25.0 // mm on the piece between the strokes that lead across
	strokeLeast = 0.5  // mm apart from which one is drawn
	pieceGap    = 9.0  // mm on paper between pieces
	labelHigh   = 9.0  // mm on paper for a piece's words
	farRing     = 1.8  // mm on paper: radius of the ring at the place furthest apart
)

// Comparison draws the pieces of two versions over each other on one page of the
// paper, turned to lie wide, all at one scale. Pieces that do not differ are left
// out.
func Comparison(h Heading, r compare.Report, paper draw.Paper) draw.Page {
	paper = paper.Turned()
	l := &draw.List{Title: "Comparison: " + h.Docket}
	page := draw.Page{Width: paper.Width, Height: paper.Height, List: l}
	m := paper.Margin
	top := paper.Height - m - 5
	l.Text(draw.Text{At: geom.Pt{X: m, Y: top}, Size: 5, Bold: true, Body: "Comparison: " + h.Docket})
	l.Rect(wasFill, draw.Rect{Min: geom.Pt{X: m, Y: top - 8}, Max: geom.Pt{X: m + 8, Y: top - 4}})
	l.Text(draw.Text{At: geom.Pt{X: m + 10, Y: top - 7.2}, Size: 3.2, Body: "shape: " + r.A})
	x := m + 16 + draw.TextWidth("shape: "+r.A, 3.2, false)
	l.Line(isLine, geom.Pt{X: x, Y: top - 6}, geom.Pt{X: x + 8, Y: top - 6})
	l.Text(draw.Text{At: geom.Pt{X: x + 10, Y: top - 7.2}, Size: 3.2, Body: "line: " + r.B})
	box := draw.Rect{Min: geom.Pt{X: m, Y: m + 8}, Max: geom.Pt{X: paper.Width - m, Y: top - 12}}
	var shown []compare.Piece
	for _, p := range r.Pieces {
		if !p.Same(strokeLeast / 5) {
			shown = append(shown, p)
		}
	}
	if len(shown) == 0 {
		l.Text(draw.Text{At: geom.Pt{X: m, Y: top - 20}, Size: 4, Body: "no piece differs"})
	}
	scale := overlayScale(shown, box)
	overlayRows(l, shown, box, scale)
	foot := draw.Rect{Min: geom.Pt{X: m, Y: m}, Max: geom.Pt{X: paper.Width - m, Y: m + 6}}
	draw.FootLine(l, foot, h.foot("comparison"), fmt.Sprintf("about 1:%.0f, not to cut from", 1/scale))
	return page
}

// extent is the box round both versions of a piece.
func extent(p compare.Piece) (lo, hi geom.Pt) {
	var pts []geom.Pt
	for _, q := range []piece.Piece{p.A, p.B} {
		pts = append(pts, q.Outline(1)...)
	}
	return geom.BoundsOf(pts)
}

// overlayScale is the largest scale at which the rows of pieces fill the box.
func overlayScale(list []compare.Piece, box draw.Rect) float64 {
	lo, hi := 0.0, 1.0
	for range 40 {
		mid := (lo + hi) / 2
		if overlayHeight(list, box.Max.X-box.Min.X, mid) <= box.Max.Y-box.Min.Y {
			lo = mid
		} else {
			hi = mid
		}
	}
	return math.Max(lo, 0.01)
}

func overlayHeight(list []compare.Piece, width, scale float64) float64 {
	var x, row, sum float64
	for _, p := range list {
		lo, hi := extent(p)
		w, h := math.Max((hi.X-lo.X)*scale, labelWide(p))+pieceGap, (hi.Y-lo.Y)*scale+labelHigh
		if w > width {
			return math.Inf(1)
		}
		if x+w > width {
			sum, x, row = sum+row+pieceGap, 0, 0
		}
		x, row = x+w, math.Max(row, h)
	}
	return sum + row
}

func labelWide(p compare.Piece) float64 {
	return math.Max(draw.TextWidth(p.Title, 3.2, true), draw.TextWidth(overlayNote(p), 2.6, false))
}

func overlayNote(p compare.Piece) string {
	switch p.Only() {
	case "A":
		return "gone"
	case "B":
		return "new"
	}
	words := p.Otherwise()
	switch {
	case p.Whole != "":
		words = append([]string{"a part of " + p.Whole + " as it was"}, words...)
	case p.Apart >= strokeLeast/5:
		words = append([]string{fmt.Sprintf("up to %.1f mm apart, at %s", p.Apart, p.Edge)}, words...)
	}
	return strings.Join(words, "; ")
}

func overlayRows(l *draw.List, list []compare.Piece, box draw.Rect, scale float64) {
	x, top, row := box.Min.X, box.Max.Y, 0.0
	for _, p := range list {
		lo, hi := extent(p)
		w, h := math.Max((hi.X-lo.X)*scale, labelWide(p))+pieceGap, (hi.Y-lo.Y)*scale+labelHigh
		if x+w > box.Max.X && x > box.Min.X {
			x, top, row = box.Min.X, top-row-pieceGap, 0
		}
		l.Text(draw.Text{At: geom.Pt{X: x, Y: top - 3}, Size: 3.2, Bold: true, Body: p.Title, Color: titleHue})
		l.Text(draw.Text{At: geom.Pt{X: x, Y: top - 6.5}, Size: 2.6, Body: overlayNote(p)})
		at := geom.Affine{A: scale, D: scale, E: x - lo.X*scale, F: top - labelHigh - hi.Y*scale}
		l.Transform(at, func(l *draw.List) { overlay(l, p, scale) })
		x, row = x+w, math.Max(row, h)
	}
}

// overlay draws one piece of both versions, in the pieces' own coordinates, to be
// shown at a scale.
func overlay(l *draw.List, p compare.Piece, scale float64) {
	if len(p.A.Edges) > 0 {
		l.Path(wasFill, sewnPath(p.A))
	}
	for _, n := range p.B.Lines {
		if n.Kind == piece.Level {
			l.Curve(isLevel, n.Curve)
		}
	}
	for _, e := range p.B.Edges {
		l.Curve(isLine, e.Curve)
	}
	if p.Only() != "" || p.Whole != "" {
		return
	}
	for _, e := range p.B.Edges {
		for d := strokeStep / 2; d < e.Curve.Length(); d += strokeStep {
			q := e.Curve.At(d)
			if from, off := nearestOutline(p.A, q); off > strokeLeast {
				l.Line(goesPen, from, q)
			}
		}
	}
	if p.Apart > strokeLeast {
		l.Circle(farPen, p.At, farRing/scale)
	}
}

func nearestOutline(p piece.Piece, q geom.Pt) (geom.Pt, float64) {
	best, at := math.Inf(1), geom.Pt{}
	for _, e := range p.Edges {
		if s, off := e.Curve.Nearest(q); off < best {
			best, at = off, e.Curve.At(s)
		}
	}
	return at, best
}

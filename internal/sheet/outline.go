package sheet

import (
	"gusset/internal/draw"
	"gusset/internal/finish"
	"gusset/internal/geom"
	"gusset/internal/piece"
)

// drawPiece draws one cut piece at true scale in its own coordinates.
func drawPiece(l *draw.List, h Heading, s shown) {
	c := s.cut
	l.Layer(layerCut, func(l *draw.List) { cutLine(l, c) })
	l.Layer(layerSewn, func(l *draw.List) { l.Path(penSewn, sewnPath(c.Sewn)) })
	l.Layer(layerInside, func(l *draw.List) {
		for _, t := range c.Turns {
			l.Curve(penTurn, t)
		}
		for _, line := range linesIn(c) {
			insideLine(l, line)
		}
	})
	l.Layer(layerMarks, func(l *draw.List) {
		for _, n := range c.Notches {
			l.Line(penNotch, n[0], n[1])
		}
		for _, m := range c.Sewn.Marks {
			insideMark(l, m)
		}
	})
	l.Layer(layerLabels, func(l *draw.List) { label(l, h, s) })
}

// cutLine draws where the shears go. The side on the fold is not cut.
func cutLine(l *draw.List, c finish.Cut) {
	whole := draw.Polygon(c.Exact...)
	if !c.OnFold {
		l.Path(penCut, whole)
		return
	}
	l.Path(penUncut, whole)
	a, b := mm(c.Fold[0]), mm(c.Fold[1])
	for _, run := range offLine(c.Exact, a, b) {
		l.Path(penCut, draw.Polyline(run...))
	}
	l.Line(penFold, a, b)
}

// mm returns a point given in whole micrometres.
func mm(p finish.Micron) geom.Pt {
	return geom.Pt{X: float64(p.X) / 1000, Y: float64(p.Y) / 1000}
}

// offLine returns the runs of a closed chain that do not lie on the line from
// a to b.
func offLine(ring []geom.Pt, a, b geom.Pt) [][]geom.Pt {
	const slack = 0.05 // mm; the fold is stated in whole micrometres
	dir := b.Sub(a).Unit()
	on := func(p geom.Pt) bool { d := p.Sub(a).Cross(dir); return d < slack && d > -slack }
	n := len(ring)
	start := 0 // begin just after a side that lies on the line
	for i := range n {
		if on(ring[i]) && on(ring[(i+1)%n]) {
			start = i + 1
			break
		}
	}
	var out [][]geom.Pt
	var run []geom.Pt
	for i := range n {
		p, q := ring[(start+i)%n], ring[(start+i+1)%n]
		if on(p) && on(q) {
			run = nil
			continue
		}
		if run == nil {
			out = append(out, nil)
			run = []geom.Pt{p}
		}
		run = append(run, q)
		out[len(out)-1] = run
	}
	return out
}

// sewnPath returns the closed stitching line.
func sewnPath(p piece.Piece) draw.Path {
	var curves []geom.Curve
	for _, e := range p.Edges {
		curves = append(curves, e.Curve)
	}
	return draw.Closed(curves...)
}

var linePens = map[piece.LineKind]draw.Style{
	piece.Grain:     penGrain,
	piece.Fold:      penTurn,
	piece.Level:     penLevel,
	piece.Placement: penPlacement,
	piece.Lengthen:  penLengthen,
	piece.Stitch:    penStitch,
}

// linesIn returns the lines inside a piece, without the levels that pass it by:
// a back that ends below the waist still knows where the waist is.
func linesIn(c finish.Cut) []piece.Line {
	var out []piece.Line
	for _, line := range c.Sewn.Lines {
		if len(line.Curve) > 0 && (line.Kind != piece.Level || geom.Inside(c.Exact, line.Curve.At(line.Curve.Length()/2))) {
			out = append(out, line)
		}
	}
	return out
}

// insideLine draws one line inside a piece, the grain line with arrow heads.
func insideLine(l *draw.List, line piece.Line) {
	l.Curve(linePens[line.Kind], line.Curve)
	if line.Kind == piece.Grain {
		arrow(l, line.Curve.Start(), line.Curve.StartTangent())
		arrow(l, line.Curve.End(), line.Curve.EndTangent().Mul(-1))
	}
}

// arrow draws the head of an arrow at tip; in points from the tip into the
// line.
func arrow(l *draw.List, tip, in geom.Pt) {
	back := tip.Add(in.Unit().Mul(5))
	aside := in.Unit().Left().Mul(1.4)
	l.Path(draw.Fill(draw.Black), draw.Polygon(tip, back.Add(aside), back.Sub(aside)))
}

// insideMark draws a mark that is not on the edge: a drill hole as a crossed
// ring, a button as two rings, a buttonhole as a bar.
func insideMark(l *draw.List, m piece.Mark) {
	across := func(r float64) {
		l.Line(penMark, m.P.Sub(geom.Pt{X: r}), m.P.Add(geom.Pt{X: r}))
		l.Line(penMark, m.P.Sub(geom.Pt{Y: r}), m.P.Add(geom.Pt{Y: r}))
	}
	switch m.Kind {
	case piece.Drill:
		l.Circle(penMark, m.P, 1.5)
		across(2.5)
	case piece.Button:
		l.Circle(penMark, m.P, 4)
		l.Circle(penMark, m.P, 1)
	case piece.Buttonhole:
		across(2)
		l.Rect(penMark, draw.Box(m.P.X-8, m.P.Y-1, 16, 2))
	}
}

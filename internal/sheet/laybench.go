package sheet

import (
	"gusset/internal/draw"
	"gusset/internal/geom"
	"gusset/internal/lay"
)

// BenchScale is the scale of a lay that is drawn to be moved by hand: 1 mm of
// the drawing is so many on the cloth.
const BenchScale = 10.0

// benchBeyond is how much of the cloth is shown past the lay at the most, mm, so
// that a piece can be put there.
const benchBeyond = 600.0

// LayBench draws a lay to be moved by hand: the cloth, and every piece in a layer
// of its own, "laid:" and its name, so that it can be shifted by itself. X grows
// along the cloth and Y, upwards, across it.
func LayBench(l lay.Lay) draw.Page {
	whole := wholeOf(l)
	whole.to = max(l.Length, min(l.Cloth.UsableLength(), l.Length+benchBeyond))
	for _, s := range l.Sections {
		whole.wide = max(whole.wide, s.Width)
	}
	if whole.wide == 0 {
		whole.wide = l.Cloth.UsableWidth()
	}
	const m = chartMargin / 2
	to := geom.Affine{A: 1 / BenchScale, D: 1 / BenchScale, E: m - whole.from/BenchScale, F: m}
	p := draw.Page{Width: (whole.to-whole.from)/BenchScale + 2*m, Height: whole.wide/BenchScale + 2*m, List: &draw.List{Title: l.Cloth.Title}}
	rest := draw.Rect{Min: to.Apply(geom.Pt{X: whole.from}), Max: to.Apply(geom.Pt{X: whole.to, Y: whole.wide})}
	p.List.Rect(draw.DashPen(draw.Gray(120), 0.2, 2, 1.5), rest)
	for _, i := range whole.sections {
		sectionPicture(p.List, l.Sections[i], to)
		sectionSides(p.List, l.Sections[i], to)
	}
	whole.flaws(p.List, to)
	barLines(p.List, whole, to)
	for _, n := range whole.placed() {
		p.List.Layer("laid:"+n.Cut.ID, func(out *draw.List) { benchPiece(out, n, to) })
	}
	return p
}

// benchPiece draws one piece with its grain line, number and name; a pinned one
// has a pin's head.
func benchPiece(out *draw.List, n numbered, to geom.Affine) {
	ring := ringOf(n.Placed, to)
	out.Path(clothPen(n.Placed), draw.Polygon(ring...))
	a, b, drawn := grainOn(n.Placed, to)
	if drawn {
		grainArrow(out, a, b)
	}
	layLabel(out, n.number, n.Placed, ring, a, b, nil)
	if n.Pinned {
		at := a.Lerp(b, 0.85)
		if !drawn {
			lo, hi := geom.BoundsOf(ring)
			at = lo.Lerp(hi, 0.5)
		}
		out.Circle(draw.Style{Stroke: draw.Black, Width: 0.3, Fill: draw.RGB(179, 71, 0)}, at, 1.3)
	}
}

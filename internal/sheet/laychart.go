package sheet

import (
	"fmt"
	"math"
	"strconv"

	"gusset/internal/draw"
	"gusset/internal/geom"
	"gusset/internal/lay"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

const layWords = "Square the cut end before laying. Pin each piece with both ends of its grain line at the stated distances, or pin the half piece " +
	"with its fold line on the fold; measure both ends, for then the grain is true. Distances across are from the outer edge of the selvedge, or from the fold. Shears and rotary cutters cut fingers too: cut away " +
	"from yourself, keep the free hand off the line, close the blade when you lay it down, and keep pins out of mouths."

// Lays returns the lay charts: for each cloth a picture to scale and a table
// of the distances by which a tape finds every piece's place.
func Lays(h Heading, lays []lay.Lay, paper draw.Paper) (draw.Doc, error) {
	f := draw.NewFlow(paper.Turned(), "Lay: "+h.Docket, h.foot("lay"))
	for i, l := range lays {
		if i > 0 {
			f.Break()
		}
		f.Text(layTitle(h.Unit, l))
		for _, s := range l.Sections {
			f.Text(sectionWords(h.Unit, s))
		}
		f.Space(2)
		high := f.Room() - 2
		f.Picture(high, func(out *draw.List, box draw.Rect) { layPicture(out, l, box) })
		f.Break()
		f.Text(layWords)
		f.Space(2)
		if err := f.Table(tapeTable(h.Unit, l, f.Width())); err != nil {
			return draw.Doc{}, err
		}
		for _, id := range l.Unplaced {
			f.Text("Not placed: " + id)
		}
	}
	if len(lays) == 0 {
		f.Text("No cloth is laid.")
	}
	return h.doc("lay", f.Pages()), nil
}

func layTitle(u unit.Unit, l lay.Lay) string {
	return fmt.Sprintf("%s, for %s: %s of %s used, %s wide between the selvedges, laid %s; pieces cover %.0f %% of it.",
		l.Cloth.Title, l.Role, unit.Format(l.Length, u), unit.Format(l.Cloth.UsableLength(), u),
		unit.Format(l.Cloth.UsableWidth(), u), l.Plan, 100*l.Density)
}

// sectionWords says how a stretch of cloth is laid.
func sectionWords(u unit.Unit, s lay.Section) string {
	how := "single layer, face up"
	if s.Folded {
		how = "folded selvedge to selvedge, right sides together, the fold drawn below as a heavy line"
	}
	return fmt.Sprintf("From %s to %s from the cut end: %s.", unit.Format(s.From, u), unit.Format(s.To, u), how)
}

const (
	chartMargin = 9.0 // mm round the chart for its words
	chartWords  = 2.6
)

// layPicture draws the cloth to scale into the box, with a scale bar.
func layPicture(out *draw.List, l lay.Lay, box draw.Rect) {
	wide := 0.0
	for _, s := range l.Sections {
		wide = max(wide, s.Width)
	}
	if l.Length <= 0 || wide <= 0 {
		return
	}
	room := box.Inset(chartMargin)
	// A whole number, so that the chart can be measured with a rule.
	scale := math.Ceil(max(l.Length/room.W(), wide/room.H()))
	to := geom.Affine{A: 1 / scale, D: 1 / scale, E: room.Min.X, F: room.Max.Y - wide/scale}
	for _, s := range l.Sections {
		sectionPicture(out, s, to)
	}
	for i, p := range l.Placed {
		placedPicture(out, i+1, p, to)
	}
	at := to.Apply(geom.Pt{})
	out.Text(draw.Text{At: geom.Pt{X: at.X - 1.5, Y: at.Y + l.Sections[0].Width/scale/2}, Size: chartWords, Angle: 90, Anchor: draw.Middle, Body: "cut end, squared"})
	scaleBar(out, geom.Pt{X: at.X, Y: at.Y - chartMargin + 2}, scale)
}

// sectionPicture draws a stretch of cloth and names its two long sides.
func sectionPicture(out *draw.List, s lay.Section, to geom.Affine) {
	a, b := to.Apply(geom.Pt{X: s.From}), to.Apply(geom.Pt{X: s.To, Y: s.Width})
	out.Rect(draw.Pen(draw.Gray(90), 0.2), draw.Rect{Min: a, Max: b})
	below, above := "selvedge", "selvedge"
	if s.Folded {
		below, above = "fold", "selvedges"
		out.Line(draw.Pen(draw.Black, 0.7), a, geom.Pt{X: b.X, Y: a.Y})
	}
	mid := (a.X + b.X) / 2
	out.Text(draw.Text{At: geom.Pt{X: mid, Y: a.Y - 1 - chartWords}, Size: chartWords, Anchor: draw.Middle, Body: below})
	out.Text(draw.Text{At: geom.Pt{X: mid, Y: b.Y + 1.2}, Size: chartWords, Anchor: draw.Middle, Body: above})
}

// placedPicture draws one piece with its number, name and grain.
func placedPicture(out *draw.List, number int, p lay.Placed, to geom.Affine) {
	var ring []geom.Pt
	for _, q := range p.Outline() {
		ring = append(ring, to.Apply(q))
	}
	fill := draw.Gray(238)
	if p.Layers > 1 {
		fill = draw.Gray(218)
	}
	out.Path(draw.Style{Stroke: draw.Black, Width: 0.25, Fill: fill}, draw.Polygon(ring...))
	inside := within(ring)
	if g, ok := p.Cut.Sewn.Line(piece.Grain, ""); ok && len(g.Curve) > 0 {
		a, b := to.Apply(p.Put(g.Curve.Start())), to.Apply(p.Put(g.Curve.End()))
		out.Line(draw.Pen(draw.Gray(90), 0.2), a, b)
		top := b
		if g.Curve.Start().Y > g.Curve.End().Y {
			a, top = b, a
		}
		chevron(out, top, a.Sub(top))
		inside.lines = append(inside.lines, barrier{a, b, 0})
	}
	n := strconv.Itoa(number)
	plate, ok := placeName(inside, [][]string{{n + " " + p.Cut.Title}, {n}}, 4, 1.5)
	if !ok { // a narrow strip: its number, as large as the strip is wide
		lo, hi := geom.BoundsOf(ring)
		w, high := hi.X-lo.X, hi.Y-lo.Y
		plate = nameplate{lines: []string{n}, size: min(3, max(1, 0.8*min(w, high))), center: lo.Lerp(hi, 0.5)}
	}
	plate.print(out)
}

// chevron marks the top end of a grain line; in points into the line.
func chevron(out *draw.List, tip, in geom.Pt) {
	back, aside := in.Unit().Mul(2), in.Unit().Left().Mul(0.8)
	out.Path(draw.Pen(draw.Gray(90), 0.2), draw.Polyline(tip.Add(back).Add(aside), tip, tip.Add(back).Sub(aside)))
}

// scaleBar draws half a metre of cloth in steps of 10 cm.
func scaleBar(out *draw.List, at geom.Pt, scale float64) {
	const steps = 5
	for i := range steps {
		s := draw.Pen(draw.Black, 0.15)
		if i%2 == 0 {
			s.Fill = draw.Black
		}
		out.Rect(s, draw.Box(at.X+float64(100*i)/scale, at.Y, 100/scale, 1.4))
	}
	out.Text(draw.Text{At: geom.Pt{X: at.X + 500/scale + 2, Y: at.Y}, Size: chartWords, Body: fmt.Sprintf("50 cm of cloth; scale 1:%.0f", scale)})
}

// tapeTable says where both ends of each piece's grain line lie.
func tapeTable(u unit.Unit, l lay.Lay, width float64) draw.Table {
	t := draw.Table{Size: 3.2, Columns: []draw.Column{
		{Head: "no", Width: 0.05 * width, Anchor: draw.End}, {Head: "piece", Width: 0.25 * width}, {Head: "how it lies", Width: 0.3 * width},
		{Head: "top from cut end", Width: 0.1 * width, Anchor: draw.End}, {Head: "top from edge", Width: 0.1 * width, Anchor: draw.End},
		{Head: "foot from cut end", Width: 0.1 * width, Anchor: draw.End}, {Head: "foot from edge", Width: 0.1 * width, Anchor: draw.End},
	}}
	for i, p := range l.Placed {
		cells := []string{strconv.Itoa(i + 1), pieceOf(p), howItLies(l, p)}
		if tape, ok := l.Tape(p); ok {
			for _, e := range []lay.TapeEnd{tape.Top, tape.Foot} {
				cells = append(cells, unit.Format(e.End, u), unit.Format(e.Edge, u))
			}
		} else {
			cells = append(cells, "see chart")
		}
		t.Rows = append(t.Rows, draw.Row{Cells: cells})
	}
	return t
}

// pieceOf names a placed piece and its hand.
func pieceOf(p lay.Placed) string {
	switch {
	case p.Layers > 1 && p.Cut.Pair != "":
		return p.Cut.Title + ", pair"
	case p.Cut.Copy == piece.Left || p.Cut.Copy == piece.Right:
		return p.Cut.Title + ", " + string(p.Cut.Copy)
	}
	return p.Cut.Title
}

// howItLies says layers, the side of the paper that is up, and from which edge
// the tape measures.
func howItLies(l lay.Lay, p lay.Placed) string {
	// The paper of a pair shows the left hand, and a right hand is its back.
	side := "paper face up"
	if rightOfPair := p.Cut.Copy == piece.Right && p.Cut.Pair != ""; p.Flip != rightOfPair {
		side = "paper face down"
	}
	layers, from := "one layer", "from the selvedge"
	if p.Layers > 1 {
		layers = "two layers"
	}
	if p.Section >= 0 && p.Section < len(l.Sections) && l.Sections[p.Section].Folded {
		from = "from the fold"
	}
	if p.Cut.OnFold {
		from = "fold line on the fold"
	}
	return list(layers, side, from)
}

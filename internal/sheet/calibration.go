package sheet

import (
	"fmt"

	"gusset/internal/cards"
	"gusset/internal/draw"
	"gusset/internal/geom"
)

// Cards returns calibration cards to cut out, the first count of them, two on
// a page, with a page before them that says how they are laid out. Count is at
// most cards.Count.
func Cards(count int, paper draw.Paper) (draw.Doc, error) {
	if count < 1 || count > cards.Count {
		return draw.Doc{}, fmt.Errorf("%d cards: there are 1 to %d", count, cards.Count)
	}
	title := "Calibration cards"
	f := draw.NewFlow(paper, title, "print at 100 %, no fit to page")
	f.More = (count + 1) / 2
	for _, part := range cardGuide {
		f.Heading(part.head, 20)
		for _, line := range part.lines {
			f.Text(line)
			f.Space(0.8)
		}
		if part.picture != nil {
			f.Space(1)
			f.Picture(part.height, part.picture)
		}
	}
	pages := f.Pages()
	for id := 0; id < count; id += 2 {
		p, err := cardPage(cards.ID(id), min(count-id, 2), paper)
		if err != nil {
			return draw.Doc{}, err
		}
		pages = append(pages, p)
	}
	return draw.Doc{Title: title, Pages: pages}, nil
}

// cardPage is a page with one or two cards and a column of words beside them.
func cardPage(first cards.ID, n int, paper draw.Paper) (draw.Page, error) {
	l := &draw.List{Title: "Calibration cards"}
	gap := (paper.Height - 2*paper.Margin - 2*cards.Cut) / 3
	for k := range n {
		at := geom.Pt{X: paper.Margin + cards.Cut/2, Y: paper.Height - paper.Margin - gap - cards.Cut/2 - float64(k)*(cards.Cut+gap)}
		if err := drawCard(l, first+cards.ID(k), at); err != nil {
			return draw.Page{}, err
		}
		drawCardWords(l, first+cards.ID(k), geom.Pt{X: at.X + cards.Cut/2 + 6, Y: at.Y + cards.Cut/2}, paper.Width-2*paper.Margin-cards.Cut-6)
	}
	return draw.Page{Width: paper.Width, Height: paper.Height, List: l}, nil
}

// drawCard draws a card with its middle at a place, turned as it is printed.
func drawCard(l *draw.List, id cards.ID, at geom.Pt) error {
	symbol, err := id.Symbol()
	if err != nil {
		return err
	}
	m := geom.Shift(at)
	if id.Turned() {
		m = geom.Turn(rightAngle, geom.Pt{}).Then(m)
	}
	l.Transform(m, func(l *draw.List) {
		l.Rect(draw.DashPen(draw.Gray(120), 0.2, 2, 2), draw.Box(-cards.Cut/2, -cards.Cut/2, cards.Cut, cards.Cut))
		l.Path(draw.Fill(draw.Black), symbolPath(symbol))
		l.Path(draw.Fill(draw.Black), cornerPath())
		drawCardLetter(l, id)
		drawTapeCross(l)
	})
	return nil
}

const rightAngle = 1.5707963267948966

// symbolPath is the dark modules, joined along each row.
func symbolPath(s [cards.Modules][cards.Modules]bool) draw.Path {
	var p draw.Path
	const half = cards.Modules * cards.Module / 2
	for y, row := range s {
		for x := 0; x < len(row); x++ {
			from := x
			for x < len(row) && row[x] {
				x++
			}
			if x > from {
				p.Append(boxPath(draw.Box(-half+float64(from)*cards.Module, half-float64(y+1)*cards.Module, float64(x-from)*cards.Module, cards.Module)))
			}
		}
	}
	return p
}

// cornerPath is the four corner marks: each two black squares that touch, the
// upper right and the lower left one.
func cornerPath() draw.Path {
	var p draw.Path
	for _, c := range cards.Corners() {
		p.Append(boxPath(draw.Box(c.X, c.Y, cards.Square, cards.Square)))
		p.Append(boxPath(draw.Box(c.X-cards.Square, c.Y-cards.Square, cards.Square, cards.Square)))
	}
	return p
}

func boxPath(r draw.Rect) draw.Path {
	return draw.Polygon(r.Min, geom.Pt{X: r.Max.X, Y: r.Min.Y}, r.Max, geom.Pt{X: r.Min.X, Y: r.Max.Y})
}

// drawCardLetter prints the letter with an arrow that says which way is up.
func drawCardLetter(l *draw.List, id cards.ID) {
	l.Text(draw.Text{At: geom.Pt{X: -8, Y: cards.Reach - 3.6}, Size: 10, Bold: true, Anchor: draw.Middle, Body: id.String()})
	tip, foot := geom.Pt{X: 4, Y: cards.Reach + 4}, geom.Pt{X: 4, Y: cards.Reach - 4}
	l.Line(penMark, foot, tip)
	l.Path(draw.Fill(draw.Black), draw.Polygon(tip, tip.Add(geom.Pt{X: -1.4, Y: -3}), tip.Add(geom.Pt{X: 1.4, Y: -3})))
	l.Text(draw.Text{At: geom.Pt{X: 7, Y: cards.Reach - 1}, Size: 2.6, Body: "grain way"})
}

// drawTapeCross prints the cross that the tape is held to.
func drawTapeCross(l *draw.List) {
	c := cards.Tape()
	for _, d := range []geom.Pt{{X: 5}, {Y: 4.5}} {
		l.Line(measure(0.2), c.Sub(d), c.Add(d))
	}
	l.Circle(draw.Pen(draw.Black, 0.2), c, 1.5)
	l.Text(draw.Text{At: geom.Pt{X: c.X + 7, Y: c.Y - 1}, Size: 2.6, Body: "tape to this cross"})
	l.Text(draw.Text{At: geom.Pt{X: c.X - 7, Y: c.Y - 1}, Size: 2.4, Anchor: draw.End, Body: "points 85 mm apart"})
}

// drawCardWords prints what to do with a card, beside it.
func drawCardWords(l *draw.List, id cards.ID, top geom.Pt, width float64) {
	head := draw.Block{Width: width, Size: 5, Bold: true}
	top.Y -= head.Draw(l, top, "Card "+id.String()) + 2
	words := []string{
		"Cut along the dashes. The white border is for tape: keep it off the black.",
		"Tape it down along all four sides, or glue it to stiff board. A card that curls by 1 mm spoils a photo.",
		"Lay it with the arrow the way the grain of the piece runs, as all the others.",
	}
	if id.Turned() {
		words = append(words, "This card is printed sideways on purpose: it shows whether the printer stretches the paper one way.")
	}
	for _, text := range words {
		top.Y -= draw.Block{Width: width, Size: 3.4}.Draw(l, top, text) + 2
	}
}

package sheet

import (
	"fmt"
	"math"
	"strconv"

	"gusset/internal/draw"
	"gusset/internal/geom"
	"gusset/internal/lay"
	"gusset/internal/unit"
)

const (
	wordsAbove = 30.0  // what the words take above a table, mm
	wordsLeast = 60.0  // the least width for words beside a chart, mm
	wordsWide  = 110.0 // and the widest that is easily read

	// leastPicture is how far a picture is drawn lower, as a share of the height it
	// could have, so that its table finds room on the same page.
	leastPicture = 0.55
)

// Lays returns the lay charts: for each cloth a picture to scale and a table
// of the distances by which a tape finds every piece's place. A lay of several
// sections has one page or more for each, after one that shows the whole. A
// cloth that nothing is cut from has none.
func Lays(h Heading, lays []lay.Lay, paper draw.Paper) (draw.Doc, error) {
	f := draw.NewFlow(paper.Turned(), "Lay: "+h.Docket, h.foot("lay"))
	charts := 0
	for _, l := range lays {
		if len(l.Placed) == 0 && len(l.Unplaced) == 0 {
			continue
		}
		if charts++; charts > 1 {
			f.Break()
		}
		if err := charted(f, h.Unit, l); err != nil {
			return draw.Doc{}, err
		}
	}
	if charts == 0 {
		f.Text("No cloth is laid.")
	}
	return h.doc("lay", f.Pages()), nil
}

// charted prints one cloth.
func charted(f *draw.Flow, u unit.Unit, l lay.Lay) error {
	name := fmt.Sprintf("%s, for %s", sentence(l.Cloth.Title), l.Role)
	f.Lead(name)
	f.Text(layTitle(u, l))
	for i, s := range l.Sections {
		words := sectionWords(u, s)
		if len(l.Sections) > 1 {
			words = fmt.Sprintf("Section %d. %s", i+1, words)
		}
		f.Text(words)
	}
	if words := clothWords(l); words != "" {
		f.Text(words)
	}
	for _, words := range repeatWords(u, l) {
		f.Text(words)
	}
	f.Space(1)
	if len(l.Sections) < 2 {
		return chart(f, u, wholeOf(l), tapeText(u, l))
	}
	f.Picture(wholeOf(l).height(f.Width(), f.Room()-wordsAbove), func(out *draw.List, box draw.Rect) { layPicture(out, wholeOf(l), box, u) })
	f.Text(tapeText(u, l))
	for i, s := range l.Sections {
		f.Lead(fmt.Sprintf("%s: section %d of %d", name, i+1, len(l.Sections)))
		f.Break()
		f.Text(fmt.Sprintf("Section %d of %d. %s", i+1, len(l.Sections), sectionWords(u, s)))
		f.Space(1)
		if err := chart(f, u, sectionOf(l, i), sectionTape(u, l, i)); err != nil {
			return err
		}
	}
	return nil
}

// chart prints the picture and the table of a span, with words between them
// where there is no room for them beside the picture.
func chart(f *draw.Flow, u unit.Unit, s span, words string) error {
	beside := false
	t := tapeTable(u, s, f.Width())
	f.Picture(pictureHeight(f, s, t, words), func(out *draw.List, box draw.Rect) {
		layPicture(out, s, box, u)
		beside = besideChart(out, s, box, words)
	})
	above := 0.0
	if !beside {
		above = wordsAbove
	}
	if _, left := t.Draw(&draw.List{}, geom.Pt{}, f.Room()-above); len(left) > 0 {
		f.Break() // the table in one piece, with its words
	}
	if !beside {
		f.Text(words)
		f.Space(2)
	}
	if err := f.Table(t); err != nil {
		return err
	}
	if s.sections[len(s.sections)-1] == len(s.lay.Sections)-1 {
		for _, id := range s.lay.Unplaced {
			f.Text("Not placed: " + id)
		}
	}
	return nil
}

// pictureHeight is what the picture of a span takes of a page: all that is left
// of it, or less where its table then comes on the same page, with the words.
func pictureHeight(f *draw.Flow, s span, t draw.Table, words string) float64 {
	most := s.height(f.Width(), f.Room()-1)
	table, _ := t.Draw(&draw.List{}, geom.Pt{}, math.Inf(1))
	less := f.Room() - 1 - table
	if !besideChart(&draw.List{}, s, draw.Box(0, 0, f.Width(), less), words) {
		less -= wordsAbove
	}
	if less < most && less >= leastPicture*most {
		return less
	}
	return most
}

// besideChart prints words at the right of a chart; false when it leaves too
// little room for them.
func besideChart(out *draw.List, s span, box draw.Rect, text string) bool {
	to, _, ok := s.onChart(box)
	if !ok {
		return false
	}
	at := to.Apply(geom.Pt{X: s.to, Y: s.wide}).Add(geom.Pt{X: chartMargin})
	b := draw.Block{Width: min(wordsWide, box.Max.X-at.X), Size: 3.4}
	if b.Width < wordsLeast || b.Height(text) > at.Y-box.Min.Y {
		return false
	}
	b.Draw(out, at, text)
	return true
}

// tapeTable says where both ends of each piece's grain line lie.
func tapeTable(u unit.Unit, s span, width float64) draw.Table {
	t := draw.Table{Size: 3.2, Columns: []draw.Column{
		{Head: "no", Width: 0.05 * width, Anchor: draw.End}, {Head: "piece", Width: 0.23 * width}, {Head: "how it lies", Width: 0.28 * width},
		{Head: "top end: along", Width: 0.11 * width, Anchor: draw.End}, {Head: "across", Width: 0.11 * width, Anchor: draw.End},
		{Head: "foot end: along", Width: 0.11 * width, Anchor: draw.End}, {Head: "across", Width: 0.11 * width, Anchor: draw.End},
	}}
	for _, p := range s.placed() {
		cells := []string{strconv.Itoa(p.number), pieceOf(p.Placed), howItLies(s.lay, p.Placed)}
		if tape, ok := s.lay.Tape(p.Placed); ok {
			for _, e := range []lay.TapeEnd{tape.Top, tape.Foot} {
				cells = append(cells, tapeAlong(u, e.End-s.from), unit.Format(e.Edge, u))
			}
		} else {
			cells = append(cells, "see chart")
		}
		t.Rows = append(t.Rows, draw.Row{Cells: cells})
	}
	return t
}

package sheet

import (
	"fmt"
	"strconv"

	"gusset/internal/cloth"
	"gusset/internal/draw"
	"gusset/internal/geom"
	"gusset/internal/lay"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

const tapeWords = "Rule a line square across the cloth %s inside its cut end: distances along are measured from this squared line. Distances across " +
	"are measured from the side drawn at the foot of the chart: from the outer edge of that selvedge, or from the fold. Pin each piece with both " +
	"ends of its grain line at the stated distances (the half of a piece: with its fold line on the fold); when both ends are equally far from the " +
	"side, the grain is true. Lay all pieces before the first cut."

const (
	wordsAbove = 30.0  // what the words take above a table, mm
	wordsLeast = 60.0  // the least width for words beside a chart, mm
	wordsWide  = 110.0 // and the widest that is easily read
)

const bladeWords = "Caution: shears and rotary cutters cut fingers too. Cut away from yourself, keep the free hand off the line, close the blade when " +
	"you lay it down, and keep pins out of mouths. Where the law or the workroom has rules of its own, they come first."

// Lays returns the lay charts: for each cloth a picture to scale and a table
// of the distances by which a tape finds every piece's place. A cloth that
// nothing is cut from has none.
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
		if err := chart(f, h.Unit, l); err != nil {
			return draw.Doc{}, err
		}
	}
	if charts == 0 {
		f.Text("No cloth is laid.")
	}
	return h.doc("lay", f.Pages()), nil
}

// chart prints one cloth: words, picture, table.
func chart(f *draw.Flow, u unit.Unit, l lay.Lay) error {
	f.Text(layTitle(u, l))
	for _, s := range l.Sections {
		f.Text(sectionWords(u, s))
	}
	if words := clothWords(l.Cloth); words != "" {
		f.Text(words)
	}
	f.Space(1)
	tape, beside := tapeText(u), false
	f.Picture(chartHeight(l, f.Width(), f.Room()-1), func(out *draw.List, box draw.Rect) {
		layPicture(out, l, box, u)
		beside = besideChart(out, l, box, tape)
	})
	t := tapeTable(u, l, f.Width())
	above := 0.0
	if !beside {
		above = wordsAbove
	}
	if _, left := t.Draw(&draw.List{}, geom.Pt{}, f.Room()-above); len(left) > 0 {
		f.Break() // the table in one piece, with its words
	}
	if !beside {
		f.Text(tape)
		f.Space(2)
	}
	if err := f.Table(t); err != nil {
		return err
	}
	for _, id := range l.Unplaced {
		f.Text("Not placed: " + id)
	}
	return nil
}

// tapeText says how to lay with a tape, and the caution for blades.
func tapeText(u unit.Unit) string {
	return fmt.Sprintf(tapeWords, unit.Format(lay.Squaring, u)) + "\n" + bladeWords
}

// besideChart prints words at the right of a chart; false when it leaves too
// little room for them.
func besideChart(out *draw.List, l lay.Lay, box draw.Rect, text string) bool {
	to, _, ok := onChart(l, box)
	if !ok {
		return false
	}
	at := to.Apply(geom.Pt{X: l.Length, Y: widest(l)}).Add(geom.Pt{X: chartMargin})
	b := draw.Block{Width: min(wordsWide, box.Max.X-at.X), Size: 3.4}
	if b.Width < wordsLeast || b.Height(text) > at.Y-box.Min.Y {
		return false
	}
	b.Draw(out, at, text)
	return true
}

func layTitle(u unit.Unit, l lay.Lay) string {
	there := unit.Format(l.Cloth.UsableLength(), u)
	return fmt.Sprintf("%s, for %s, laid %s: takes %s of %s, %s wide between the selvedges; pieces cover %.0f %% of what it takes.",
		sentence(l.Cloth.Title), l.Role, l.Plan, unit.Format(l.Length, u), there, unit.Format(l.Cloth.UsableWidth(), u), 100*l.Density)
}

// clothWords says what must be known of the cloth before it is laid.
func clothWords(c cloth.Cloth) string {
	words := ""
	if c.Direction == cloth.OneWay {
		words = "One-way cloth: the tops of all pieces point the same way. "
	}
	if !c.Washed {
		words += "Not washed yet: lengths and widths here are what washing leaves. Wash, dry, press and measure it before laying."
	}
	return words
}

// lyingWords say how the cloth of a section lies.
var lyingWords = map[lay.Fold]string{
	lay.Flat:   "single layer, face up",
	lay.Along:  "folded selvedge to selvedge, right sides together, the fold drawn at the foot as a heavy line",
	lay.Across: "folded crosswise, right sides together, the fold drawn at the right as a heavy line",
	lay.Swung: "two layers, right sides together: fold crosswise at the right, cut along the fold, and turn the upper layer end for end, " +
		"so that the tops point one way in both",
}

// sectionWords says how a stretch of cloth is laid.
func sectionWords(u unit.Unit, s lay.Section) string {
	how := lyingWords[s.Fold]
	if s.Single() {
		how = fmt.Sprintf("the near selvedge folded over by %s, right sides together, the fold drawn at the foot as a heavy line; "+
			"beyond the layer folded over, whose edge is drawn dashed, the cloth is single, face up", unit.Format(s.Depth, u))
	}
	return fmt.Sprintf("From %s to %s beyond the squared line: %s.", fromSquared(u, s.From), fromSquared(u, s.To), how)
}

// fromSquared writes a distance along the cloth as it is measured once the end
// has been squared: the lay reckons from the end as it was cut.
func fromSquared(u unit.Unit, x float64) string {
	if x -= lay.Squaring; x > 0.01 {
		return unit.Format(x, u)
	}
	return "0"
}

// tapeTable says where both ends of each piece's grain line lie.
func tapeTable(u unit.Unit, l lay.Lay, width float64) draw.Table {
	t := draw.Table{Size: 3.2, Columns: []draw.Column{
		{Head: "no", Width: 0.05 * width, Anchor: draw.End}, {Head: "piece", Width: 0.23 * width}, {Head: "how it lies", Width: 0.28 * width},
		{Head: "top end: along", Width: 0.11 * width, Anchor: draw.End}, {Head: "across", Width: 0.11 * width, Anchor: draw.End},
		{Head: "foot end: along", Width: 0.11 * width, Anchor: draw.End}, {Head: "across", Width: 0.11 * width, Anchor: draw.End},
	}}
	for i, p := range l.Placed {
		cells := []string{strconv.Itoa(i + 1), pieceOf(p), howItLies(l, p)}
		if tape, ok := l.Tape(p); ok {
			for _, e := range []lay.TapeEnd{tape.Top, tape.Foot} {
				cells = append(cells, fromSquared(u, e.End), unit.Format(e.Edge, u))
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
	if p.Section >= 0 && p.Section < len(l.Sections) && l.Sections[p.Section].FromFold() {
		from = "from the fold"
	}
	if p.Cut.OnFold {
		from = "fold line on the fold"
	}
	return list(layers, side, from)
}

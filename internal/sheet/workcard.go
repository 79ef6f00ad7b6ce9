package sheet

import (
	"fmt"
	"strings"

	"gusset/internal/construct"
	"gusset/internal/draw"
	"gusset/internal/finish"
	"gusset/internal/geom"
	"gusset/internal/order"
	"gusset/internal/unit"
)

const workWords = "Tick each step when it is done. Seams are sewn on the stitching line; the allowance given with an item's first step is the " +
	"distance from there to the cut edge. Needles, irons and blades hurt: switch the machine off before changing a needle or a foot, " +
	"keep fingers clear of the needle, stand the iron on its heel and let it cool, close shears when you lay them down. " +
	"Where the law or the workroom has rules of its own, they come first."

// Work is what the work card shows: the steps, the plan they were made from and
// the pieces as they are cut.
type Work struct {
	Steps []order.Step
	Plan  construct.Plan
	Cuts  []finish.Cut
	Child bool // the garment is for a child
	// Colours names the colour of each thread: main, topstitch, overlock.
	Colours map[string]string
}

// WorkCard returns the order of work with a picture, the settings and a box to
// tick for each step. What is done at one place stands under one heading, with
// what has to be changed there first and the caution that goes for all of it; a
// page is ended where the place changes as far as that goes, and the heading is
// repeated where it does not.
func WorkCard(h Heading, w Work, paper draw.Paper) (draw.Doc, error) {
	f := draw.NewFlow(paper, "Work card: "+h.Docket, h.foot("work card"))
	page := f.Room()
	f.Text(list(h.View, "size "+h.Size, fmt.Sprintf("%d steps", len(w.Steps)), fmt.Sprintf("%d places of work in turn", len(order.Batches(w.Steps)))))
	f.Space(2)
	f.Text(workWords)
	if w.Child {
		f.Space(2)
		f.Text(childWords)
	}
	f.Space(2)
	f.Picture(legendHeight, legend)
	card := card{flow: f, page: page, book: newSketchbook(w.Plan, w.Cuts), unit: h.Unit, told: allowances{w.Plan, map[string]bool{}}, colours: w.Colours}
	for _, b := range order.Batches(w.Steps) {
		if err := card.batch(b); err != nil {
			return draw.Doc{}, err
		}
	}
	return h.doc("work card", f.Pages()), nil
}

// card is a work card being written.
type card struct {
	flow *draw.Flow
	page float64 // height of a whole page
	book sketchbook
	unit unit.Unit
	told allowances

	colours map[string]string
}

// batch prints the steps at one place. It begins a new page when it would be
// torn here and not there.
func (c card) batch(b order.Batch) error {
	width := c.flow.Width()
	head := batchHead(b)
	rows := cardRows(c.unit, b.Steps, c.told, c.colours, b.Steps[0].Op.Caution)
	high := head.height(width)
	whole := high
	for _, r := range rows {
		whole += r.height(width)
	}
	if room := c.flow.Room(); room < whole && whole <= c.page || room < high+rows[0].height(width) {
		c.flow.Break()
	}
	c.flow.Picture(high, head.draw)
	for _, r := range rows {
		if high+r.height(width) > c.page {
			return fmt.Errorf("the work card: step %d is higher than a page", r.steps[0].Number)
		}
		if c.flow.Room() < r.height(width) {
			c.flow.Break()
			again := head
			again.title += " (continued)"
			c.flow.Picture(high, again.draw)
		}
		c.flow.Picture(r.height(width), func(l *draw.List, box draw.Rect) { r.draw(l, c.book, box) })
	}
	return nil
}

// batchHeading stands above the steps at one place.
type batchHeading struct{ title, setup, caution string }

func batchHead(b order.Batch) batchHeading {
	first := b.Steps[0]
	head := batchHeading{title: sentence(b.Heading()), setup: sentence(first.Setup)}
	if first.Op.Caution != "" {
		head.caution = "Caution: " + first.Op.Caution
	}
	return head
}

func (h batchHeading) words() string { return strings.TrimSpace(h.setup + "\n" + h.caution) }

func (h batchHeading) blocks(width float64) (title, words draw.Block) {
	return draw.Block{Width: width - 3, Size: 4, Bold: true}, draw.Block{Width: width - 3, Size: 3}
}

func (h batchHeading) height(width float64) float64 {
	t, w := h.blocks(width)
	return t.Height(h.title) + w.Height(h.words()) + 4
}

func (h batchHeading) draw(l *draw.List, box draw.Rect) {
	t, w := h.blocks(box.W())
	bar := draw.Rect{Min: box.Min, Max: geom.Pt{X: box.Max.X, Y: box.Max.Y - 1}}
	l.Rect(draw.Fill(draw.Gray(232)), bar)
	at := geom.Pt{X: box.Min.X + 1.5, Y: bar.Max.Y - 1}
	at.Y -= t.Draw(l, at, h.title)
	w.Draw(l, at, h.words())
}

const legendHeight = 7.0

// legend says how the pictures are to be read.
func legend(l *draw.List, box draw.Rect) {
	y := box.Min.Y + 3
	x := box.Min.X
	word := func(text string) {
		l.Text(draw.Text{At: geom.Pt{X: x + 9, Y: y - 1}, Size: 2.8, Body: text})
		x += 12 + draw.TextWidth(text, 2.8, false)
	}
	for _, side := range []struct {
		fill draw.Color
		text string
	}{{rightSide, "right side up"}, {wrongSide, "wrong side up"}} {
		style := penEdge
		style.Fill = side.fill
		l.Rect(style, draw.Box(x, y-2, 7, 4))
		word(side.text)
	}
	for _, line := range []struct {
		pen  draw.Style
		text string
	}{{penNeedle, "stitch"}, {penPress, "press"}, {penByHand, "by hand"}, {penEdge, "cut edge"}, {penSewing, "stitching line"}} {
		l.Line(line.pen, geom.Pt{X: x, Y: y}, geom.Pt{X: x + 7, Y: y})
		word(line.text)
	}
}

// list joins the words that are there.
func list(words ...string) string {
	var out []string
	for _, w := range words {
		if w != "" {
			out = append(out, w)
		}
	}
	return strings.Join(out, ", ")
}

// sentence begins a text with a capital.
func sentence(s string) string {
	if s == "" {
		return s
	}
	r := []rune(s)
	return strings.ToUpper(string(r[0])) + string(r[1:])
}

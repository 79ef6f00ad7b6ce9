package sheet

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"gusset/internal/construct"
	"gusset/internal/draw"
	"gusset/internal/geom"
	"gusset/internal/order"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// cardRow is one row of the work card: a step, or the same step on both hands.
type cardRow struct {
	steps []order.Step
	do    string // what to do, a line for each action
	aside string // stitch, thread, needle
	setup string // what to change before it, for steps in the middle of a batch
}

const (
	rowText   = 3.3  // size of the words, mm
	asideText = 2.8  // and of the settings
	pictured  = 46.0 // width of the picture
	picturedH = 27.0 // and its height
	tickRoom  = 15.0 // for box and number
	asideRoom = 34.0 // for the settings
	rowGap    = 1.5
)

// cardRows makes the rows of a batch. The same work on the other hand, when it
// comes next, shares the row and its picture, with a box of its own.
func cardRows(u unit.Unit, batch []order.Step, a allowances, colours map[string]string, told string) []cardRow {
	var out []cardRow
	for i := 0; i < len(batch); i++ {
		s := batch[i]
		r := cardRow{steps: batch[i : i+1], aside: construct.Line(settings(u, s.Op, colours), "\n")}
		if i > 0 {
			r.setup = s.Setup
		}
		if i+1 < len(batch) && mirrored(s, batch[i+1]) {
			r.steps = batch[i : i+2]
			i++
		}
		r.do = strings.Join(doing(u, s.Op, a, told).Lines(u), "\n")
		if len(r.steps) == 2 {
			r.do += "\nThen the same on the " + string(r.steps[1].Op.Copy) + "."
			a.first(u, r.steps[1].Op) // told with the first
		}
		out = append(out, r)
	}
	return out
}

// mirrored reports whether two steps are the same on either hand, with nothing
// to change between.
func mirrored(a, b order.Step) bool {
	other := map[piece.Copy]piece.Copy{piece.Left: piece.Right, piece.Right: piece.Left}
	stem := func(s order.Step) string { name, _, _ := strings.Cut(s.Op.ID, "@"); return name }
	return b.Setup == "" && stem(a) == stem(b) && a.Op.Copy != piece.Both && other[a.Op.Copy] == b.Op.Copy
}

// Doing is what is said of a step, as it is put together: a sentence for each
// action, the allowances where they are first met, and a caution that does not
// stand above already.
type Doing struct {
	Do         []string
	Allowances []Allowance
	Caution    string
}

// doing says what to do; told is the caution that stands above.
func doing(u unit.Unit, op construct.Operation, a allowances, told string) Doing {
	lines := op.Actions
	if len(lines) == 0 {
		lines = []string{op.Do}
	}
	d := Doing{Allowances: a.first(u, op)}
	for _, line := range lines {
		d.Do = append(d.Do, sentence(line)+".")
	}
	if hand := string(op.Copy); hand != "" && !strings.Contains(op.Do, hand) {
		d.Do[0] = sentence(hand) + ": " + strings.TrimSuffix(lines[0], ".") + "."
	}
	if op.Caution != told {
		d.Caution = op.Caution
	}
	return d
}

// Lines are the lines of a card.
func (d Doing) Lines(u unit.Unit) []string {
	out := slices.Clone(d.Do)
	if words := allowanceWords(u, d.Allowances); words != "" {
		out = append(out, sentence(words)+".")
	}
	if d.Caution != "" {
		out = append(out, "Caution: "+d.Caution+".")
	}
	return out
}

// settings says line by line how the machine is set, nothing where nothing is
// stitched.
func settings(u unit.Unit, op construct.Operation, colours map[string]string) []construct.Told {
	if op.Stitch == "" {
		return nil
	}
	thread := op.Spool()
	words := map[string]string{
		"stitch": op.Stitch, "stitch length": unit.Format(op.StitchLength, unit.Millimetre), "rows": strconv.Itoa(op.Rows),
		"length": unit.Format(op.Length, u), "thread": thread, "colour": colours[thread], "needle": op.Needle, "foot": op.Foot,
		"plies": strconv.Itoa(op.Plies), "thickness": fmt.Sprintf("%.1f mm", op.Thickness),
	}
	var out []construct.Told
	for _, line := range []struct {
		said bool
		text string
	}{
		{op.StitchLength > 0, "stitch {stitch}, {stitch length}"},
		{op.StitchLength <= 0, "stitch {stitch}"},
		{op.Length > 0 && op.Rows > 1, "{rows} × {length} long"},
		{op.Length > 0 && op.Rows < 2, "{length} long"},
		{op.Thread != "" && colours[thread] != "", "{thread} thread, {colour}"},
		{op.Thread != "" && colours[thread] == "", "{thread} thread"},
		{op.Needle != "", "needle {needle}"},
		{op.Foot != "", "{foot} foot"},
		{op.Plies > 1 && op.Thickness > 0, "{plies} plies, {thickness}"},
	} {
		if line.said {
			out = append(out, construct.Told{Text: line.text, Words: words})
		}
	}
	return out
}

func (r cardRow) blocks(width float64) (setup, do, aside draw.Block) {
	setup = draw.Block{Width: width, Size: rowText, Bold: true}
	do = draw.Block{Width: width - tickRoom - pictured - asideRoom - 4, Size: rowText}
	aside = draw.Block{Width: asideRoom, Size: asideText, Color: draw.Gray(40)}
	return setup, do, aside
}

// height is what the row takes of a page of the given width.
func (r cardRow) height(width float64) float64 {
	setup, do, aside := r.blocks(width)
	high := max(picturedH, do.Height(r.do), aside.Height(r.aside), float64(len(r.steps))*6)
	if r.setup != "" {
		high += setup.Height(sentence(r.setup)) + 1
	}
	return high + 2*rowGap
}

// draw prints the row into its box.
func (r cardRow) draw(l *draw.List, book sketchbook, box draw.Rect) {
	setup, do, aside := r.blocks(box.W())
	top := box.Max.Y - rowGap
	if r.setup != "" {
		top -= setup.Draw(l, geom.Pt{X: box.Min.X, Y: top}, sentence(r.setup)) + 1
	}
	for i, s := range r.steps {
		y := top - 6*float64(i)
		l.Rect(draw.Pen(draw.Black, 0.25), draw.Box(box.Min.X+0.5, y-4, 3.6, 3.6))
		draw.Block{Width: tickRoom - 6, Size: rowText, Bold: true}.Draw(l, geom.Pt{X: box.Min.X + 5.5, Y: y}, strconv.Itoa(s.Number))
	}
	x := box.Min.X + tickRoom
	book.draw(l, r.steps[0].Op, draw.Box(x, top-picturedH, pictured, picturedH))
	x += pictured + 2
	do.Draw(l, geom.Pt{X: x, Y: top}, r.do)
	aside.Draw(l, geom.Pt{X: box.Max.X - asideRoom, Y: top}, r.aside)
	l.Line(draw.Pen(draw.Gray(190), 0.12), box.Min, geom.Pt{X: box.Max.X, Y: box.Min.Y})
}

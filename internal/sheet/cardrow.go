package sheet

import (
	"fmt"
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
		r := cardRow{steps: batch[i : i+1], aside: settings(u, s.Op, colours)}
		if i > 0 {
			r.setup = s.Setup
		}
		if i+1 < len(batch) && mirrored(s, batch[i+1]) {
			r.steps = batch[i : i+2]
			i++
		}
		r.do = doing(u, s.Op, a, told)
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

// doing says what to do: each action on a line of its own, then the allowances
// where they are first met, and a caution that does not stand above already.
func doing(u unit.Unit, op construct.Operation, a allowances, told string) string {
	lines := op.Actions
	if len(lines) == 0 {
		lines = []string{op.Do}
	}
	var out []string
	for _, line := range lines {
		out = append(out, sentence(line)+".")
	}
	if hand := string(op.Copy); hand != "" && !strings.Contains(op.Do, hand) {
		out[0] = sentence(hand) + ": " + strings.TrimSuffix(lines[0], ".") + "."
	}
	if words := a.first(u, op); words != "" {
		out = append(out, sentence(words)+".")
	}
	if op.Caution != "" && op.Caution != told {
		out = append(out, "Caution: "+op.Caution+".")
	}
	return strings.Join(out, "\n")
}

// settings says how the machine is set, nothing where nothing is stitched.
func settings(u unit.Unit, op construct.Operation, colours map[string]string) string {
	if op.Stitch == "" {
		return ""
	}
	lines := []string{"stitch " + op.Stitch}
	if op.StitchLength > 0 {
		lines[0] += ", " + unit.Format(op.StitchLength, unit.Millimetre)
	}
	if op.Length > 0 {
		lines = append(lines, rows(op.Rows)+unit.Format(op.Length, u)+" long")
	}
	if op.Thread != "" {
		lines = append(lines, list(op.Spool()+" thread", colours[op.Spool()]))
	}
	if op.Needle != "" {
		lines = append(lines, "needle "+op.Needle)
	}
	if op.Foot != "" {
		lines = append(lines, op.Foot+" foot")
	}
	if op.Plies > 1 && op.Thickness > 0 {
		lines = append(lines, fmt.Sprintf("%d plies, %.1f mm", op.Plies, op.Thickness))
	}
	return strings.Join(lines, "\n")
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

package sheet

import (
	"strconv"
	"strings"

	"gusset/internal/draw"
	"gusset/internal/order"
	"gusset/internal/unit"
)

const workWords = "Tick each step when it is done. Needles, irons and blades hurt: switch the machine off before changing a needle or a foot, " +
	"keep fingers clear of the needle, stand the iron on its heel and let it cool, close shears when you lay them down. " +
	"Where the law or the workroom has rules of its own, they come first."

// WorkCard returns the order of work, a step a row with a box to tick; what has
// to be changed at the machine first stands above as a heading.
func WorkCard(h Heading, steps []order.Step, paper draw.Paper) (draw.Doc, error) {
	f := draw.NewFlow(paper, "Work card: "+h.Docket, h.foot("work card"))
	f.Text(h.View + ", size " + h.Size)
	f.Space(2)
	f.Text(workWords)
	f.Space(3)
	w := f.Width()
	t := draw.Table{Columns: []draw.Column{
		{Head: "step", Width: 0.56 * w}, {Head: "stitch", Width: 0.16 * w}, {Head: "thread", Width: 0.13 * w}, {Head: "needle, foot", Width: 0.15 * w},
	}, Size: 3.2}
	for _, s := range steps {
		if s.Setup != "" {
			t.Rows = append(t.Rows, draw.Row{Heading: true, Cells: []string{sentence(s.Setup)}})
		}
		t.Rows = append(t.Rows, stepRow(h.Unit, s))
	}
	if err := f.Table(t); err != nil {
		return draw.Doc{}, err
	}
	return h.doc("work card", f.Pages()), nil
}

// stepRow prints one step.
func stepRow(u unit.Unit, s order.Step) draw.Row {
	op := s.Op
	do := strconv.Itoa(s.Number) + ". " + sentence(op.Do)
	if op.Copy != "" {
		do += ", " + string(op.Copy)
	}
	if op.Caution != "" {
		do += "\nCaution: " + op.Caution
	}
	stitch := op.Stitch
	if op.StitchLength > 0 {
		stitch += ", " + unit.Format(op.StitchLength, unit.Millimetre)
	}
	if op.Length > 0 {
		stitch += "\n" + rows(op.Rows) + unit.Format(op.Length, u)
	}
	return draw.Row{Tick: true, Cells: []string{do, stitch, op.Thread, list(op.Needle, op.Foot)}}
}

// rows says how many rows are sewn, nothing for one.
func rows(n int) string {
	if n < 2 {
		return ""
	}
	return strconv.Itoa(n) + " × "
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

package sheet

import (
	"fmt"
	"strconv"
	"strings"

	"gusset/internal/construct"
	"gusset/internal/draw"
	"gusset/internal/order"
	"gusset/internal/unit"
)

const workWords = "Tick each step when it is done. Seams are sewn on the stitching line; the allowance given with an item's first step is the " +
	"distance from there to the cut edge. Needles, irons and blades hurt: switch the machine off before changing a needle or a foot, " +
	"keep fingers clear of the needle, stand the iron on its heel and let it cool, close shears when you lay them down. " +
	"Where the law or the workroom has rules of its own, they come first."

// WorkCard returns the order of work, a step a row with a box to tick. What has
// to be changed at the machine first stands above as a heading, with the
// caution that goes for all the steps below it; another caution stands with
// its own step. The plan tells the allowances.
func WorkCard(h Heading, steps []order.Step, plan construct.Plan, paper draw.Paper) (draw.Doc, error) {
	f := draw.NewFlow(paper, "Work card: "+h.Docket, h.foot("work card"))
	f.Text(list(h.View, "size "+h.Size, fmt.Sprintf("%d steps", len(steps)), fmt.Sprintf("%d set-ups", setups(steps))))
	f.Space(2)
	f.Text(workWords)
	f.Space(3)
	w := f.Width()
	t := draw.Table{Columns: []draw.Column{
		{Head: "step", Width: 0.59 * w}, {Head: "stitch", Width: 0.16 * w}, {Head: "thread", Width: 0.11 * w}, {Head: "needle, foot", Width: 0.14 * w},
	}, Size: 3.2, Rows: workRows(h.Unit, steps, allowances{plan, map[string]bool{}})}
	if err := f.Table(t); err != nil {
		return draw.Doc{}, err
	}
	return h.doc("work card", f.Pages()), nil
}

// setups counts the stretches of work between two changes of set-up.
func setups(steps []order.Step) int {
	n := 0
	for i, s := range steps {
		if i == 0 || s.Setup != "" {
			n++
		}
	}
	return n
}

func workRows(u unit.Unit, steps []order.Step, a allowances) []draw.Row {
	var rows []draw.Row
	told := "" // the caution that stands in the heading above
	for i, s := range steps {
		if s.Setup != "" || i == 0 {
			told = s.Op.Caution
			head := sentence(s.Setup)
			if told != "" {
				head = strings.TrimSpace(head + "\nCaution: " + told)
			}
			if head != "" {
				rows = append(rows, draw.Row{Heading: true, Cells: []string{head}})
			}
		}
		rows = append(rows, stepRow(u, s, told, a))
	}
	return rows
}

// stepRow prints one step. A caution that the heading has told is left out.
func stepRow(u unit.Unit, s order.Step, told string, a allowances) draw.Row {
	op := s.Op
	do := strconv.Itoa(s.Number) + ". " + sentence(op.Do)
	if hand := string(op.Copy); hand != "" && !strings.Contains(op.Do, hand) {
		do += ", " + hand
	}
	if words := a.first(u, op); words != "" {
		do += "\n" + sentence(words)
	}
	if op.Caution != "" && op.Caution != told {
		do += "\nCaution: " + op.Caution
	}
	return draw.Row{Tick: true, Cells: []string{do, stitchWords(u, op), op.Thread, list(op.Needle, op.Foot)}}
}

// stitchWords says the stitch, its length and how far it runs; nothing where
// nothing is stitched.
func stitchWords(u unit.Unit, op construct.Operation) string {
	if op.Stitch == "" {
		return ""
	}
	words := op.Stitch
	if op.StitchLength > 0 {
		words += ", " + unit.Format(op.StitchLength, unit.Millimetre)
	}
	if op.Length > 0 {
		words += "\n" + rows(op.Rows) + unit.Format(op.Length, u)
	}
	return words
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

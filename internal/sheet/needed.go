package sheet

import (
	"fmt"
	"strconv"
	"strings"

	"gusset/internal/draw"
	"gusset/internal/needs"
	"gusset/internal/unit"
)

// Needs returns the list of thread, cloth, fastenings and tools that the make
// takes, with boxes to tick when they are there.
func Needs(h Heading, n needs.List, paper draw.Paper) (draw.Doc, error) {
	f := draw.NewFlow(paper, "What is needed: "+h.Docket, h.foot("needs"))
	f.Text(h.View + ", size " + h.Size)
	w := f.Width()
	f.Heading("Cloth, fastenings, needles", 20)
	items := draw.Table{Columns: []draw.Column{
		{Head: "what", Width: 0.45 * w}, {Head: "how much", Width: 0.2 * w}, {Head: "note", Width: 0.35 * w},
	}}
	for _, i := range n.Items() {
		items.Rows = append(items.Rows, draw.Row{Tick: true, Cells: []string{list(i.Kind, i.Title), amount(h.Unit, i), i.Note}})
	}
	if err := f.Table(items); err != nil {
		return draw.Doc{}, err
	}
	f.Heading("Thread, with what is wasted and the tails", 20)
	threads := draw.Table{Columns: []draw.Column{
		{Head: "thread", Width: 0.27 * w}, {Head: "length", Width: 0.13 * w, Anchor: draw.End}, {Head: "of it tails", Width: 0.13 * w, Anchor: draw.End},
		{Head: "stitch, seam sewn, thread for each length of seam", Width: 0.47 * w},
	}}
	for _, t := range n.Threads() {
		var uses []string
		for _, u := range t.Uses {
			uses = append(uses, fmt.Sprintf("%s: %s × %.2f (%s)", u.Stitch, unit.Format(u.Seam, unit.Metre), u.Ratio, u.Source))
		}
		threads.Rows = append(threads.Rows, draw.Row{Tick: true, Cells: []string{
			t.Name, unit.Format(t.Length, unit.Metre), unit.Format(t.Tails, unit.Metre), strings.Join(uses, "\n")}})
	}
	if err := f.Table(threads); err != nil {
		return draw.Doc{}, err
	}
	return h.doc("needs", f.Pages()), nil
}

// amount is how much there has to be of an item: a length, a number, or both.
func amount(u unit.Unit, i needs.Item) string {
	switch {
	case i.Length > 0 && i.Count > 1:
		return strconv.Itoa(i.Count) + " × " + unit.Format(i.Length, u)
	case i.Length > 0:
		return unit.Format(i.Length, u)
	}
	return strconv.Itoa(i.Count)
}

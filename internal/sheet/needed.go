package sheet

import (
	"fmt"
	"strconv"
	"strings"

	"gusset/internal/draw"
	"gusset/internal/needs"
	"gusset/internal/unit"
)

// Needs returns the list of cloth, fastenings, needles and thread that the make
// takes, with boxes to tick when they are there.
func Needs(h Heading, n needs.List, paper draw.Paper) (draw.Doc, error) {
	f := draw.NewFlow(paper, "What is needed: "+h.Docket, h.foot("needs"))
	f.Text(h.View + ", size " + h.Size)
	for _, part := range []struct {
		heading string
		table   draw.Table
	}{
		{"Cloth, fastenings, needles", itemTable(h.Unit, n.Items(), f.Width())},
		{"Thread to buy", spoolTable(n.Spools(), f.Width())},
		{"Thread by place, waste and tails counted in", threadTable(n.Threads(), f.Width())},
	} {
		f.Heading(part.heading, 20)
		if len(part.table.Rows) == 0 {
			f.Text("None.")
			continue
		}
		if err := f.Table(part.table); err != nil {
			return draw.Doc{}, err
		}
	}
	if words := sources(n.Threads()); words != "" {
		f.Space(2)
		f.Text(words)
	}
	return h.doc("needs", f.Pages()), nil
}

func itemTable(u unit.Unit, items []needs.Item, width float64) draw.Table {
	t := draw.Table{Columns: []draw.Column{
		{Head: "what", Width: 0.42 * width}, {Head: "how much", Width: 0.18 * width}, {Head: "note", Width: 0.4 * width},
	}}
	for _, i := range items {
		t.Rows = append(t.Rows, draw.Row{Tick: true, Cells: []string{itemName(i), amount(u, i), i.Note}})
	}
	return t
}

// itemName is what an item is called, its kind first where the title does not
// say it.
func itemName(i needs.Item) string {
	if strings.Contains(strings.ToLower(i.Title), i.Kind) {
		return i.Title
	}
	return list(i.Kind, i.Title)
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

// spoolTable has a row for each thread to buy.
func spoolTable(spools []needs.Spool, width float64) draw.Table {
	t := draw.Table{Columns: []draw.Column{
		{Head: "thread", Width: 0.42 * width}, {Head: "at least", Width: 0.18 * width}, {Head: "for", Width: 0.4 * width},
	}}
	for _, s := range spools {
		t.Rows = append(t.Rows, draw.Row{Tick: true, Cells: []string{s.Title(), unit.Format(s.Length, unit.Metre), strings.Join(s.Parts, " and ")}})
	}
	return t
}

// threadTable has a row for each kind of thread. Thread is sold by the metre
// everywhere, so it is told in metres whatever the unit.
func threadTable(threads []needs.Thread, width float64) draw.Table {
	t := draw.Table{Columns: []draw.Column{
		{Head: "thread", Width: 0.28 * width}, {Head: "at least", Width: 0.13 * width, Anchor: draw.End},
		{Head: "tails in it", Width: 0.13 * width, Anchor: draw.End}, {Head: "seam sewn, thread to each metre of it", Width: 0.46 * width},
	}}
	for _, thread := range threads {
		var uses []string
		for _, use := range thread.Uses {
			uses = append(uses, fmt.Sprintf("stitch %s: %s, %.2f m", use.Stitch, unit.Format(use.Seam, unit.Metre), use.Ratio))
		}
		t.Rows = append(t.Rows, draw.Row{Tick: true, Cells: []string{
			thread.Name, unit.Format(thread.Length, unit.Metre), unit.Format(thread.Tails, unit.Metre), strings.Join(uses, "\n")}})
	}
	return t
}

// sources names, once for each stitch, where its thread consumption is from.
func sources(threads []needs.Thread) string {
	var words []string
	told := map[string]bool{}
	for _, t := range threads {
		for _, u := range t.Uses {
			if line := "Stitch " + u.Stitch + ": " + u.Source; !told[line] {
				told[line] = true
				words = append(words, line)
			}
		}
	}
	if len(words) == 0 {
		return ""
	}
	return "Thread to each metre of seam, by stitch:\n" + strings.Join(words, "\n")
}

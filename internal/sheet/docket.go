package sheet

import (
	"fmt"
	"strings"

	"gusset/internal/change"
	"gusset/internal/draw"
	"gusset/internal/finding"
	"gusset/internal/fit"
	"gusset/internal/geom"
	"gusset/internal/lay"
	"gusset/internal/unit"
)

// Summary is what the docket sheet says about a make.
type Summary struct {
	For      string // whom it is made for, by name only
	Zones    []fit.ZoneSize
	Ease     []fit.Ease
	Applied  []change.Applied
	Seams    int     // seams walked
	Widest   float64 // widest gap among them, mm
	Lays     []lay.Lay
	Findings finding.List
}

const (
	docketText    = 2.9
	docketPicture = 46.0 // height of the lays, mm
	mostFindings  = 8
)

// Docket returns the one page that goes with the work: whom it is for, sizes,
// ease, changes, seams, lays, what was found, and room for notes.
func Docket(h Heading, s Summary, paper draw.Paper) (draw.Doc, error) {
	f := draw.NewFlow(paper, "Docket: "+h.Docket, h.foot("docket"))
	f.Text(list("For "+s.For, h.View, "size "+h.Size))
	f.Heading("Sizes and ease", 10)
	if err := f.Table(sizeTable(h.Unit, s, f.Width())); err != nil {
		return draw.Doc{}, err
	}
	f.Heading("Changes and seams", 10)
	for i, a := range s.Applied {
		f.Text(fmt.Sprintf("%d. %s: %s", i+1, a.ID, a.Text))
	}
	if len(s.Applied) == 0 {
		f.Text("No changes to the pattern.")
	}
	f.Text(fmt.Sprintf("%d seams walked on the stitching line; widest gap %s.", s.Seams, unit.Format(s.Widest, unit.Millimetre)))
	f.Heading("Cloth and lays", docketPicture)
	if err := f.Table(layTable(h.Unit, s.Lays, f.Width())); err != nil {
		return draw.Doc{}, err
	}
	f.Picture(docketPicture, func(l *draw.List, box draw.Rect) { lays(l, s.Lays, box) })
	f.Heading("Found", 10)
	if err := f.Table(findingTable(s.Findings, f.Width())); err != nil {
		return draw.Doc{}, err
	}
	f.Space(3)
	if room := f.Room(); room > 12 {
		f.Picture(room, notes)
	}
	return h.doc("docket", f.Pages()), nil
}

// sizeTable has a row for each zone, its size and its ease.
func sizeTable(u unit.Unit, s Summary, width float64) draw.Table {
	t := draw.Table{Size: docketText}
	for _, c := range []string{"zone", "size", "nearest printed", "chosen by", "body", "garment", "ease", "least ease"} {
		t.Columns = append(t.Columns, draw.Column{Head: c, Width: width / 8})
	}
	ease := map[string]fit.Ease{}
	for _, e := range s.Ease {
		ease[e.Zone] = e
	}
	for _, z := range s.Zones {
		cells := []string{z.Zone, z.Label, z.Nearest, z.From}
		if e, ok := ease[z.Zone]; ok {
			cells = append(cells, easeCells(u, e)...)
		}
		t.Rows = append(t.Rows, draw.Row{Cells: cells})
	}
	return t
}

func easeCells(u unit.Unit, e fit.Ease) []string {
	cells := []string{"", unit.Format(e.Garment, u), "", ""}
	if e.HasBody {
		cells[0], cells[2] = unit.Format(e.Body, u), unit.Format(e.Ease, u)
	}
	if e.HasMinimum {
		cells[3] = unit.Format(e.Minimum, u)
	}
	return cells
}

// layTable has a row for each cloth.
func layTable(u unit.Unit, lays []lay.Lay, width float64) draw.Table {
	t := draw.Table{Size: docketText, Columns: []draw.Column{
		{Head: "cloth", Width: 0.34 * width}, {Head: "for", Width: 0.16 * width}, {Head: "laid", Width: 0.14 * width},
		{Head: "used", Width: 0.12 * width}, {Head: "there", Width: 0.12 * width}, {Head: "covered", Width: 0.12 * width},
	}}
	for _, l := range lays {
		t.Rows = append(t.Rows, draw.Row{Cells: []string{
			l.Cloth.Title, string(l.Role), string(l.Plan), unit.Format(l.Length, u), unit.Format(l.Cloth.UsableLength(), u),
			fmt.Sprintf("%.0f %%", 100*l.Density)}})
	}
	return t
}

// lays draws the lays small, side by side.
func lays(out *draw.List, all []lay.Lay, box draw.Rect) {
	w := box.W() / float64(max(2, len(all)))
	for i, l := range all {
		laySketch(out, l, draw.Box(box.Min.X+w*float64(i), box.Min.Y, w, box.H()))
	}
}

// findingTable lists the weightiest findings and counts the rest.
func findingTable(found finding.List, width float64) draw.Table {
	t := draw.Table{Size: docketText, Columns: []draw.Column{{Width: 0.1 * width}, {Width: 0.9 * width}}}
	for i, f := range found.Sorted() {
		if i == mostFindings {
			t.Rows = append(t.Rows, draw.Row{Cells: []string{"", fmt.Sprintf("and %d more", len(found)-mostFindings)}})
			break
		}
		t.Rows = append(t.Rows, draw.Row{Cells: []string{f.Severity().String(), findingText(f)}})
	}
	if len(found) == 0 {
		t.Rows = []draw.Row{{Cells: []string{"", "nothing"}}}
	}
	return t
}

// findingText is a finding in one line: where, what, and what would mend it.
func findingText(f finding.Finding) string {
	text := f.Text()
	if where := f.Place.OnGarment(); where != "" {
		text = where + ": " + text
	}
	if mend := f.Mend(); mend != "" {
		text += "; " + mend
	}
	return strings.ReplaceAll(text, "\n", " ")
}

// notes draws ruled room for writing.
func notes(l *draw.List, box draw.Rect) {
	l.Text(draw.Text{At: geom.Pt{X: box.Min.X, Y: box.Max.Y - 4}, Size: docketText, Bold: true, Body: "Notes"})
	for y := box.Max.Y - 12; y > box.Min.Y; y -= 8 {
		l.Line(draw.Pen(draw.Gray(190), 0.15), geom.Pt{X: box.Min.X, Y: y}, geom.Pt{X: box.Max.X, Y: y})
	}
}

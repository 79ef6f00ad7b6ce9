package sheet

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"gusset/internal/change"
	"gusset/internal/draw"
	"gusset/internal/finding"
	"gusset/internal/fit"
	"gusset/internal/geom"
	"gusset/internal/lay"
	"gusset/internal/pattern"
	"gusset/internal/unit"
)

// Summary is what the docket sheet says about a make.
type Summary struct {
	For      string // whom it is made for, by name only
	Zones    []fit.ZoneSize
	Ease     []fit.Ease      // as sized, before the changes
	Garment  pattern.Garment // after the changes; it is measured for the ease as made
	Applied  []change.Applied
	Seams    int     // seams walked
	Widest   float64 // widest gap among them, mm
	Lays     []lay.Lay
	Findings finding.List
}

const (
	docketText    = 2.9
	sketchMargin  = 5.0  // mm about a small lay, for the line below it
	docketPicture = 46.0 // height of the lays, mm
	notesLeast    = 20.0 // less room than that is left blank
)

// share is how much of its lists a docket prints.
type share struct{ changes, findings int }

// Docket returns the one page that goes with the work: whom it is for, sizes,
// ease, changes, seams, lays, what was found, and room for notes. What a list
// has too many of for one page is counted at its end. It fails when the zones
// and cloths alone take more than a page.
func Docket(h Heading, s Summary, paper draw.Paper) (draw.Doc, error) {
	for most := (share{changes: 15, findings: 10}); ; {
		pages, noted, err := docketPages(h, s, paper, most)
		switch {
		case err != nil || len(pages) == 1 && (noted || most.findings <= 5):
			return h.doc("docket", pages), err
		case most.findings > 3 || most.changes <= 3 && most.findings > 0:
			most.findings--
		case most.changes > 0:
			most.changes--
		default:
			return draw.Doc{}, errors.New("the docket has too many zones and cloths for one page")
		}
	}
}

// docketPages lays the docket out, and reports whether it has room for notes.
func docketPages(h Heading, s Summary, paper draw.Paper, most share) (pages []draw.Page, noted bool, err error) {
	f := draw.NewFlow(paper, "Docket: "+h.Docket, h.foot("docket"))
	f.Text(list("For "+s.For, h.View, "size "+h.Size))
	f.Heading("Sizes and ease", 10)
	if err := f.Table(sizeTable(h.Unit, s, f.Width())); err != nil {
		return nil, false, err
	}
	f.Heading("Changes and seams", 10)
	for i, a := range s.Applied[:min(most.changes, len(s.Applied))] {
		f.Text(fmt.Sprintf("%d. %s: %s", i+1, a.ID, a.Text))
	}
	if more := len(s.Applied) - most.changes; more > 0 {
		f.Text(fmt.Sprintf("and %d more", more))
	}
	if len(s.Applied) == 0 {
		f.Text("No changes to the pattern.")
	}
	f.Text(fmt.Sprintf("%d seams walked on the stitching line; widest gap %s.", s.Seams, unit.Format(s.Widest, unit.Millimetre)))
	if laid := laidOn(s.Lays); len(laid) > 0 {
		f.Heading("Cloth and lays", docketPicture)
		if err := f.Table(layTable(h.Unit, laid, f.Width())); err != nil {
			return nil, false, err
		}
		f.Picture(docketPicture, func(l *draw.List, box draw.Rect) { lays(l, laid, box) })
	}
	f.Heading("Findings: "+counted(s.Findings), 10)
	if err := f.Table(findingTable(s.Findings, f.Width(), most.findings)); err != nil {
		return nil, false, err
	}
	f.Space(3)
	if noted = f.Room() > notesLeast; noted {
		f.Picture(f.Room(), notes)
	}
	return f.Pages(), noted, nil
}

// laidOn returns the lays that have a piece.
func laidOn(lays []lay.Lay) []lay.Lay {
	return slices.DeleteFunc(slices.Clone(lays), func(l lay.Lay) bool { return len(l.Placed) == 0 && len(l.Unplaced) == 0 })
}

// sizeTable has a row for each zone, its size and its ease.
func sizeTable(u unit.Unit, s Summary, width float64) draw.Table {
	t := draw.Table{Size: docketText}
	for _, c := range []string{"zone", "size", "nearest printed", "chosen by", "body", "as sized", "as made", "ease as made", "least ease"} {
		t.Columns = append(t.Columns, draw.Column{Head: c, Width: width / 9})
	}
	ease := map[string]fit.Ease{}
	for _, e := range s.Ease {
		ease[e.Zone] = e
	}
	for _, z := range s.Zones {
		cells := []string{z.Zone, z.Label, z.Nearest, z.From}
		if e, ok := ease[z.Zone]; ok {
			cells = append(cells, easeCells(u, e, s.Garment)...)
		}
		t.Rows = append(t.Rows, draw.Row{Cells: cells})
	}
	return t
}

func easeCells(u unit.Unit, e fit.Ease, made pattern.Garment) []string {
	cells := []string{"", unit.Format(e.Garment, u), "", "", ""}
	if e.HasBody {
		cells[0] = unit.Format(e.Body, u)
	}
	if e.HasMinimum {
		cells[4] = unit.Format(e.Minimum, u)
	}
	round, ok := RoundAt(made, e.Zone)
	if !ok {
		return cells
	}
	cells[2] = unit.Format(round, u)
	if e.HasBody {
		left := round - e.Body
		cells[3] = unit.Format(left, u)
		if e.HasMinimum && left < e.Minimum-0.05 {
			cells[3] += ", too little"
		}
	}
	return cells
}

// RoundAt measures a garment round at a zone, in mm; false where the view does
// not say how.
func RoundAt(g pattern.Garment, zone string) (float64, bool) {
	for _, girth := range g.View.Girths {
		if girth.Zone != zone {
			continue
		}
		if mm, err := fit.Girth(g, girth); err == nil {
			return mm, true
		}
	}
	return 0, false
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

// counted says how many findings of each weight there are.
func counted(found finding.List) string {
	if len(found) == 0 {
		return "none"
	}
	return fmt.Sprintf("%d that stop, %d that warn, %d of advice", found.Stops(), found.Warns(), len(found)-found.Stops()-found.Warns())
}

// findingTable lists the weightiest findings first and counts the rest.
func findingTable(found finding.List, width float64, most int) draw.Table {
	t := draw.Table{Size: docketText, Columns: []draw.Column{{Width: 0.1 * width}, {Width: 0.9 * width}}}
	weighed := slices.Clone(found)
	slices.SortStableFunc(weighed, func(a, b finding.Finding) int { return int(b.Severity()) - int(a.Severity()) })
	for i, f := range weighed {
		if i == most {
			t.Rows = append(t.Rows, draw.Row{Cells: []string{"", fmt.Sprintf("and %d more", len(found)-most)}})
			break
		}
		t.Rows = append(t.Rows, draw.Row{Cells: []string{f.Severity().String(), findingText(f)}})
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

package sheet

import (
	"slices"
	"strconv"

	"gusset/internal/body"
	"gusset/internal/body/figure"
	"gusset/internal/draw"
	"gusset/internal/unit"
)

// figureHeight is the most height of the figures on a measuring sheet, mm, and
// blank is a room for a reading.
const (
	figureHeight = 112.0
	blank        = "___________"
)

// Measuring returns the sheet to measure with: where the tape goes for each of
// the measures, how it is taken, and room for its readings. What the body has
// measured already is filled in; a body without measures leaves every room
// blank. Measures without a second room are read once.
func Measuring(b body.Body, ms []body.Measure, u unit.Unit, paper draw.Paper) (draw.Doc, error) {
	title := "Measures"
	if b.Title != "" {
		title += ": " + b.Title
	}
	f := draw.NewFlow(paper, title, "measure")
	f.Text(body.Preparing)
	f.Space(2)
	f.Picture(figure.Height(f.Width(), figureHeight, ms), func(l *draw.List, box draw.Rect) { figure.Draw(l, box, ms) })
	f.Space(2)
	if err := f.Table(takingTable(b, ms, u, f.Width())); err != nil {
		return draw.Doc{}, err
	}
	f.Space(2)
	f.Text("Which waist (mark one): natural, where the cord settles; or midway, between lowest rib and hip bone.")
	f.Text(body.SurveyNote)
	return draw.Doc{Title: title, Pages: f.Pages()}, nil
}

// takingTable has a row for each measure.
func takingTable(b body.Body, ms []body.Measure, u unit.Unit, width float64) draw.Table {
	t := draw.Table{Size: 3.1, Columns: []draw.Column{
		{Head: "", Width: 0.05 * width, Anchor: draw.End}, {Head: "measure", Width: 0.15 * width},
		{Head: "how it is taken", Width: 0.52 * width},
		{Head: "1st, " + string(u), Width: 0.14 * width}, {Head: "2nd, " + string(u), Width: 0.14 * width},
	}}
	for _, k := range body.Takings {
		if !slices.Contains(ms, k.Measure) {
			continue
		}
		how := k.How
		if k.Slip != "" {
			how += ". Beware: " + k.Slip
		}
		read := [2]string{blank, blank}
		if !slices.Contains(body.ReadTwice, k.Measure) {
			read[1] = "once will do"
		}
		for i, l := range b.Readings[k.Measure] {
			if i < len(read) {
				read[i] = l.String()
			}
		}
		t.Rows = append(t.Rows, draw.Row{Cells: []string{strconv.Itoa(body.NumberOf(k.Measure)), k.Title, how, read[0], read[1]}})
	}
	return t
}

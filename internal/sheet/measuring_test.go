package sheet

import (
	"fmt"
	"strings"
	"testing"

	"gusset/internal/body"
	"gusset/internal/draw"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// A measuring sheet says how each measure asked for is taken, with its number,
// what was read, and room for what was not, as poppler reads it off the PDF.
func TestMeasuring(t *testing.T) {
	b, _ := body.Load(source.File{Path: "bodies/wren.yaml", Data: []byte(
		"gusset: body/1\ntitle: Wren\nwaist-at: natural\nmeasures: {waist: [78 cm, 77.5 cm], thigh: 58 cm}\n")})
	for _, paper := range []draw.Paper{draw.A4, draw.Letter} {
		for _, ms := range [][]body.Measure{{body.Waist, body.Hip, body.Thigh}, body.Measures()} {
			doc, err := Measuring(b, ms, unit.Centimetre, paper)
			if err != nil {
				t.Fatal(err)
			}
			text := strings.Join(strings.Fields(string(poppler(t, "pdftotext", "-layout", pdfOf(t, "measures", doc), "-"))), " ")
			for _, want := range []string{"Measures: Wren", "78 cm", "77.5 cm", "58 cm", "once will do", blank, "Which waist", "ANSUR II"} {
				if !strings.Contains(text, want) {
					t.Errorf("%s, %d measures: the sheet does not say %q", paper.Name, len(ms), want)
				}
			}
			for _, k := range body.Takings {
				asked := len(ms) > 3 || k.Measure == body.Waist || k.Measure == body.Hip || k.Measure == body.Thigh
				row := fmt.Sprintf("%d %s %s", body.NumberOf(k.Measure), k.Title, strings.Fields(k.How)[0])
				if asked != strings.Contains(text, row) {
					t.Errorf("%s, %d measures: %s told: %v", paper.Name, len(ms), k.Measure, !asked)
				}
			}
		}
	}
}

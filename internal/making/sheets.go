package making

import (
	"bytes"
	"errors"
	"strings"
	"sync"

	"gusset/internal/draw"
	"gusset/internal/finding"
	"gusset/internal/sheet"
)

// Sheets draws every sheet of a make that has come as far as its needs: file name
// to PDF. Lay charts, work card, needs and docket are on the paper given. A roll
// that is too narrow is told, and there is no sheet for it then.
func Sheets(in Inputs, r Result, paper draw.Paper) (map[string][]byte, finding.List, error) {
	h := HeadingOf(in, r)
	cuts := r.Cut.Pieces()
	roll, found := sheet.Roll(h, cuts, in.Docket.Roll.MM())
	kinds := []struct {
		name string
		doc  func() (draw.Doc, error)
	}{
		{"pattern-a4", func() (draw.Doc, error) { return sheet.Tiled(h, cuts, draw.A4) }},
		{"pattern-letter", func() (draw.Doc, error) { return sheet.Tiled(h, cuts, draw.Letter) }},
		{"pattern-roll", func() (draw.Doc, error) { return roll, nil }},
		{"lay", func() (draw.Doc, error) { return sheet.Lays(h, r.Lays, paper) }},
		{"work-card", func() (draw.Doc, error) {
			return sheet.WorkCard(h, WorkOf(in, r), paper)
		}},
		{"needs", func() (draw.Doc, error) { return sheet.Needs(h, r.Needs, paper) }},
		{"docket", func() (draw.Doc, error) { return sheet.Docket(h, summary(in, r), paper) }},
	}
	pdfs := make([][]byte, len(kinds))
	errs := make([]error, len(kinds))
	var all sync.WaitGroup
	for i, k := range kinds { // drawing is pure: every sheet on its own
		all.Go(func() { pdfs[i], errs[i] = DrawSheet(k.doc) })
	}
	all.Wait()
	if err := errors.Join(errs...); err != nil {
		return nil, found, err
	}
	out := map[string][]byte{}
	for i, k := range kinds {
		if pdfs[i] != nil { // the roll is too narrow; the finding says so
			out[k.name+".pdf"] = pdfs[i]
		}
	}
	return out, found, nil
}

// WorkOf is what the work card shows of a make.
func WorkOf(in Inputs, r Result) sheet.Work {
	return sheet.Work{Steps: r.Steps.Steps(), Plan: r.Plan, Cuts: r.Cut.Pieces(), Child: in.Body.Child}
}

// DrawSheet draws one sheet as a PDF; nil when it has no page.
func DrawSheet(draws func() (draw.Doc, error)) ([]byte, error) {
	doc, err := draws()
	if err != nil || len(doc.Pages) == 0 {
		return nil, err
	}
	var b bytes.Buffer
	err = draw.PDF(&b, doc)
	return b.Bytes(), err
}

// HeadingOf is what every sheet says about the make.
func HeadingOf(in Inputs, r Result) sheet.Heading {
	v := r.Garment().View
	return sheet.Heading{
		Docket: in.Docket.Title, View: in.Pattern.Title + ", " + v.Title, Size: sizeWords(r), Digest: r.Digest, Unit: in.Docket.Unit,
	}
}

// sizeWords is the size as chosen: one label where all zones agree.
func sizeWords(r Result) string {
	zones := r.Sized.Zones()
	var parts []string
	same := true
	for _, z := range zones {
		parts = append(parts, z.Zone+" "+z.Label)
		same = same && z.Label == zones[0].Label
	}
	if same {
		return zones[0].Label
	}
	return strings.Join(parts, ", ")
}

func summary(in Inputs, r Result) sheet.Summary {
	return sheet.Summary{
		For: in.Body.Title, Zones: r.Sized.Zones(), Ease: r.Sized.Ease(), Garment: r.Garment(), Applied: r.Changed.Applied(),
		Seams: len(r.Walked.Seams()), Widest: r.Walked.Widest(), Lays: r.Lays, Findings: r.Findings,
	}
}

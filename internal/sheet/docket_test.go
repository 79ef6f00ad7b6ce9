package sheet

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"gusset/internal/change"
	"gusset/internal/cloth"
	"gusset/internal/draw"
	"gusset/internal/finding"
	"gusset/internal/fit"
	"gusset/internal/lay"
)

func testSummary(t *testing.T) Summary {
	t.Helper()
	l, _ := lay.Make(context.Background(), testCloth(), cloth.Main, laidCuts(), lay.Options{Fold: "open", Rounds: 3})
	pocketing := l
	pocketing.Role = cloth.Pocketing
	s := Summary{For: "Wren", Seams: 11, Widest: 0.2, Lays: []lay.Lay{l, pocketing}}
	for i, z := range []string{"waist", "hip", "thigh", "knee", "hem"} {
		s.Zones = append(s.Zones, fit.ZoneSize{Zone: z, Label: fmt.Sprintf("14.%d", i), Nearest: "14", From: "chart"})
		s.Ease = append(s.Ease, fit.Ease{Zone: z, Body: 800, Garment: 840 + float64(i), Ease: 40 + float64(i), Minimum: 25.4, HasBody: i < 4, HasMinimum: i < 3})
	}
	s.Applied = []change.Applied{{ID: "legs", Text: "lengthened by 25 mm at the knee"}, {ID: "up", Text: "hem moved up by 1 in"}}
	short := finding.Kind{Code: "test.short", Severity: finding.Warn, Text: "the cloth is %.0[1]f mm short", Mend: "lay it open"}
	for i := range 12 {
		s.Findings = append(s.Findings, short.At(finding.Place{}, float64(i)))
	}
	return s
}

func TestDocket(t *testing.T) {
	s := testSummary(t)
	for _, paper := range []draw.Paper{draw.A4, draw.Letter} {
		pages := printed(t, "docket-"+paper.Name, func() (draw.Doc, error) { return Docket(testHeading(), s, paper) })
		if len(pages) != 1 {
			t.Errorf("%s: %d pages, want one", paper.Name, len(pages))
		}
		wants(t, "docket", pages[0], "For Wren", "14.1", "thigh", "25.4 mm", "843 mm", "lengthened by 25 mm at the knee", "hem moved up by 1 in",
			"11 seams walked", "widest gap 0.2 mm", "rust drill", "pocketing", "the cloth is 3 mm short; lay it open", " more", "Notes")
	}
	pages := printed(t, "docket-bare", func() (draw.Doc, error) { return Docket(testHeading(), Summary{For: "Wren"}, draw.A4) })
	wants(t, "bare docket", pages[0], "No changes to the pattern", "Findings: none")
}

// However long the lists, the docket is one page, and what stops stands on it.
func TestDocketIsOnePage(t *testing.T) {
	s := testSummary(t)
	for i := range 80 {
		s.Applied = append(s.Applied, change.Applied{ID: fmt.Sprintf("step%d", i), Text: "moved"})
		long := finding.Kind{Code: "test.long", Severity: finding.Advice, Text: strings.Repeat("a long word of advice ", 30)}
		s.Findings = append(s.Findings, long.At(finding.Place{}))
	}
	stop := finding.Kind{Code: "test.stop", Severity: finding.Stop, Text: "the waist cannot be sewn"}
	s.Findings = append(s.Findings, stop.At(finding.Place{}))
	pages := printed(t, "docket-full", func() (draw.Doc, error) { return Docket(testHeading(), s, draw.Letter) })
	if len(pages) != 1 {
		t.Fatalf("%d pages, want one", len(pages))
	}
	wants(t, "full docket", pages[0], "1 that stop", "the waist cannot be sewn", "and 90 more")

	for i := range 90 {
		s.Zones = append(s.Zones, fit.ZoneSize{Zone: fmt.Sprint("zone", i)})
	}
	if _, err := Docket(testHeading(), s, draw.A4); err == nil {
		t.Error("ninety zones on one page")
	}
}

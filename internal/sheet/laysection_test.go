package sheet

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/draw"
	"gusset/internal/geom"
	"gusset/internal/lay"
	"gusset/internal/unit"
)

// A lay longer than the table has a page for the whole and pages for each
// section, every one of which says which it is; flaws are told; the numbers of
// the pieces run through the sections in the order of cutting.
func TestLaySections(t *testing.T) {
	k := testCloth()
	k.Width = unit.MM(900)
	k.Flaws = []cloth.Flaw{{At: cloth.Spot{FromEnd: unit.MM(150), FromSelvedge: unit.MM(600)}, Size: unit.MM(40), Note: "stain"}}
	l, told := lay.Make(context.Background(), k, cloth.Main, laidCuts(), lay.Options{Fold: "open", Rounds: 3, Table: 800})
	if told.Stops() > 0 || len(l.Sections) < 2 {
		t.Fatalf("%v: %d sections", told.Codes(), len(l.Sections))
	}
	pages := printed(t, "lay-sections", func() (draw.Doc, error) { return Lays(testHeading(), []lay.Lay{l}, draw.A4) })
	n := len(l.Sections)
	wants(t, "first page", pages[0], "Section 1.", fmt.Sprintf("Section %d.", n), "One flaw is hatched", "Lay all pieces of a section before the first cut")
	for i := range n {
		about := fmt.Sprintf("Rust drill, for main: section %d of %d", i+1, n)
		if !strings.Contains(strings.Join(pages[1:], "\n"), about) {
			t.Errorf("no page is about %q", about)
		}
	}
	for i, p := range pages[1:] {
		wants(t, fmt.Sprintf("page %d", i+2), p, "section ")
	}
	order := wholeOf(l).placed()
	start := func(i int) float64 { lo, _ := geom.BoundsOf(order[i].Outline()); return lo.X }
	for i := 1; i < len(order); i++ {
		if order[i].number != i+1 || order[i].Section < order[i-1].Section {
			t.Errorf("piece %d lies in section %d, the one before in %d", order[i].number, order[i].Section, order[i-1].Section)
		}
		if order[i].Section == order[i-1].Section && start(i) < start(i-1) {
			t.Errorf("piece %d begins before the one that is cut before it", order[i].number)
		}
	}
	if len(l.Flawed(0)) != 1 {
		t.Errorf("%d flaws show in the first section", len(l.Flawed(0)))
	}
}

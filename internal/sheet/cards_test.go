package sheet

import (
	"bytes"
	"context"
	"fmt"
	"strings"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/construct"
	"gusset/internal/draw"
	"gusset/internal/lay"
	"gusset/internal/machine"
	"gusset/internal/needs"
	"gusset/internal/order"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// printed makes the document twice, wants equal bytes, and returns the text of
// its pages, each of which names the docket and the digest.
func printed(t *testing.T, name string, make func() (draw.Doc, error)) []string {
	t.Helper()
	var first bytes.Buffer
	d, err := make()
	if err != nil {
		t.Fatal(err)
	}
	if err := draw.PDF(&first, d); err != nil {
		t.Fatal(err)
	}
	again, err := make()
	var second bytes.Buffer
	if err != nil || draw.PDF(&second, again) != nil || !bytes.Equal(first.Bytes(), second.Bytes()) {
		t.Errorf("%s: two runs differ (%v)", name, err)
	}
	pages := strings.Split(string(poppler(t, "pdftotext", "-layout", pdfOf(t, name, d), "-")), "\f")
	pages = pages[:len(pages)-1]
	if len(pages) != len(d.Pages) {
		t.Fatalf("%s: %d pages of %d", name, len(pages), len(d.Pages))
	}
	for i, text := range pages {
		wants(t, name, text, "Wardrobe skirt for Wren", "digest 5e1f09ab", fmt.Sprintf("page %d of %d", i+1, len(pages)))
	}
	return pages
}

func wants(t *testing.T, name, text string, words ...string) {
	t.Helper()
	for _, w := range words {
		if !strings.Contains(text, w) {
			t.Errorf("%s: no %q in\n%s", name, w, text)
		}
	}
}

// testOps sew the panels together and hem them.
func testOps() []construct.Operation {
	sew := construct.Operation{
		ID: "side.sew", Item: "side", Do: "sew the side seam, right sides together", Machine: machine.Lockstitch, Stitch: "301",
		StitchLength: 2.5, Thread: "main", Foot: "standard", Needle: "80", Rows: 1, Length: 700, Plies: 2, Thickness: 1.2,
	}
	press := construct.Operation{ID: "side.press", Item: "side", Do: "press the side seam open", Machine: machine.Iron, Caution: "hot iron and steam"}
	hem := sew
	hem.ID, hem.Item, hem.Do, hem.Rows, hem.Length, hem.Thread, hem.Copy = "hem.sew", "hem", "topstitch the hem", 2, 640, "topstitch", piece.Left
	return []construct.Operation{sew, press, hem}
}

func TestWorkCard(t *testing.T) {
	ops := testOps()
	var steps []order.Step
	for i := range 24 {
		s := order.Step{Number: i + 1, Op: ops[i%3]}
		s.Setup = []string{"", "to the iron", "change to topstitch thread"}[i%3]
		steps = append(steps, s)
	}
	pages := printed(t, "work-card", func() (draw.Doc, error) { return WorkCard(testHeading(), Work{Steps: steps}, draw.A4) })
	all := strings.Join(pages, "\n")
	wants(t, "work card", all, "Sew the side seam, right sides together.", "Left: topstitch the hem.", "To the iron", "Change to topstitch thread",
		"stitch 301, 2.5 mm", "700 mm long", "2 × 640 mm long", "topstitch thread", "needle 80", "standard foot", "Caution: hot iron and steam",
		"switch the machine off", "Now everything for the lockstitch, steps 3 to 4", "right side up")
}

// A caution stands once above the steps it goes for; another one with its step.
func TestCautions(t *testing.T) {
	ops := testOps()
	other := ops[1]
	other.Caution = "blade"
	var told []string
	for _, r := range cardRows(unit.Millimetre, []order.Step{{Number: 1, Op: ops[1]}, {Number: 2, Op: other}}, allowances{construct.Plan{}, map[string]bool{}}, nil, ops[1].Caution) {
		_, caution, _ := strings.Cut(r.do, "Caution: ")
		told = append(told, caution)
	}
	if got, want := strings.Join(told, "|"), "|blade."; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestNeeds(t *testing.T) {
	drill := testCloth()
	n, told := needs.Count(testOps(), []construct.Notion{{Kind: "zip", Title: "metal zip, closed end", Count: 1, Length: 180}},
		needs.Options{Cloths: []needs.Cloth{{Role: cloth.Main, Cloth: drill, Used: 1200}}})
	if told.Stops() > 0 {
		t.Fatal(told)
	}
	pages := printed(t, "needs", func() (draw.Doc, error) { return Needs(testHeading(), n, draw.A4) })
	wants(t, "needs", pages[0], "metal zip, closed end", "180 mm", "rust drill", "1200 mm")
	for _, thread := range n.Threads() {
		wants(t, "needs", pages[0], thread.Name, unit.Format(thread.Length, unit.Metre))
	}
	if len(n.Threads()) == 0 {
		t.Error("no thread counted")
	}
}

func testCloth() cloth.Cloth {
	return cloth.Cloth{
		Name: "drill", Title: "rust drill", Width: unit.MM(1480), Selvedge: unit.MM(10), Length: unit.MM(3000),
		Direction: cloth.TwoWay, Washed: true,
	}
}

func TestLays(t *testing.T) {
	for _, fold := range []string{"open", "lengthwise"} {
		l, told := lay.Make(context.Background(), testCloth(), cloth.Main, laidCuts(), lay.Options{Fold: fold, Rounds: 3})
		if told.Stops() > 0 || len(l.Unplaced) > 0 {
			t.Fatalf("%v: %v not placed", told, l.Unplaced)
		}
		pages := printed(t, "lay-"+fold, func() (draw.Doc, error) { return Lays(testHeading(), []lay.Lay{l}, draw.A4) })
		wants(t, fold, pages[0], "Rust drill", "selvedge", "squared line", "50 cm of cloth; scale 1:", "Panel")
		table := strings.Join(pages[1:], "\n")
		wants(t, fold, table, "Panel", "Patch pocket", "Band", "Loop strip")
		wants(t, fold, strings.Join(strings.Fields(strings.Join(pages, " ")), " "), "Caution: shears and rotary")
		for _, p := range l.Placed {
			if tape, ok := l.Tape(p); ok {
				// Along from the squared line, or from the line squared for a later section.
				from := max(l.Sections[p.Section].From, 10)
				wants(t, fold, table, unit.Format(tape.Top.End-from, unit.Millimetre), unit.Format(tape.Foot.Edge, unit.Millimetre))
			}
		}
		if fold == "lengthwise" {
			wants(t, fold, table, "two layers, paper face down, fold line on the fold")
			wants(t, fold, pages[0], "folded selvedge to selvedge, right sides together")
		} else {
			wants(t, fold, table, "Panel, left", "Panel, right", "paper face down", "from the selvedge")
		}
	}
	printed(t, "lay-none", func() (draw.Doc, error) { return Lays(testHeading(), nil, draw.A4) })
}

func stepsOf(ops []construct.Operation) []order.Step {
	var steps []order.Step
	for i, o := range ops {
		steps = append(steps, order.Step{Number: i + 1, Op: o})
	}
	return steps
}

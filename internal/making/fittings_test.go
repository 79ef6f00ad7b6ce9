package making

import (
	"context"
	"io/fs"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"gusset/demo"
	"gusset/internal/construct"
	"gusset/internal/finding"
	"gusset/internal/order"
)

// tryOn are fittings that a docket adds to the demo, whose pattern has none.
const tryOn = `
fittings:
  first: {title: first fitting, method: basted-fitting, joins: [outseam, inseam, seat, fork]}
  toile: {method: toile, joins: [outseam, inseam]}
`

func withText(t testing.TB, docket, more string) Inputs {
	t.Helper()
	in, found, err := openWith(t, docket, more)
	if err != nil || found.Stops() > 0 {
		t.Fatal(err, found.Codes())
	}
	return in
}

// In the order of work nothing that prevents altering a seam precedes its
// fitting: until the basting is out again no machine has sewn, and no blade has
// trimmed, any edge that the fitting tries. A toile is over before anything
// else is begun. The pattern has neither fitting.
func TestDocketAddsFittings(t *testing.T) {
	in := withText(t, "dockets/quay-long.yaml", tryOn)
	r := Run(context.Background(), in, Order, Effort{}, nil)
	if r.Findings.Stops() > 0 {
		t.Fatal(r.Findings.Codes())
	}
	steps := r.Steps.Steps()
	at := func(id string) int {
		return slices.IndexFunc(steps, func(s order.Step) bool { return s.Op.ID == id })
	}
	tried := map[string]bool{}
	for _, s := range r.Plan.Seams() {
		if slices.Contains([]string{"outseam", "inseam", "seat", "fork"}, s.Join) {
			for _, st := range slices.Concat(s.Sides...) {
				tried[copyEdgeName(st)] = true
			}
		}
	}
	unpicked, carried := at("first.unpick"), at("toile.carry")
	if unpicked < 0 || carried < 0 {
		t.Fatal("the fittings are not in the order of work")
	}
	before := 0
	for i, s := range steps {
		if i < carried && s.Op.Item != "toile" {
			t.Errorf("%s comes before the end of the toile", s.Op.ID)
		}
		if i > unpicked || s.Op.Item == "first" || s.Op.Item == "toile" || s.Op.Stitch == "" && !cuts(s.Op) {
			continue
		}
		before++
		for _, st := range slices.Concat(s.Op.Sides...) {
			if tried[copyEdgeName(st)] {
				t.Errorf("%s (step %d) works on %s before the fitting is over (step %d)", s.Op.ID, i, copyEdgeName(st), unpicked)
			}
		}
	}
	if before == 0 {
		t.Error("nothing at all is sewn before the fitting: pockets and yokes may be")
	}
}

func cuts(o construct.Operation) bool {
	return slices.ContainsFunc(o.Actions, func(a string) bool { return strings.HasPrefix(a, "trim") || strings.HasPrefix(a, "layer") })
}

func copyEdgeName(s construct.Stretch) string {
	if s.Inside {
		return ""
	}
	return s.Piece + "@" + string(s.Copy) + ":" + s.Edge
}

// What a docket's fitting names must be there, and its name must be free.
func TestFittingsThatCannotBe(t *testing.T) {
	for _, c := range []struct{ text, code string }{
		{"fittings: {first: {method: basted-fitting, joins: [outsaem]}}", "making.unknown-join"},
		{"fittings: {first: {method: basted-fiting, joins: [outseam]}}", "making.unknown-method"},
		{"fittings: {outseam: {method: basted-fitting, joins: [outseam]}}", "making.name-taken"},
		{"fittings: {first: {joins: [outseam]}}", "source.missing-key"},
	} {
		_, found, err := openWith(t, "dockets/quay-long.yaml", c.text)
		if err != nil || !found.Has(c.code) {
			t.Errorf("%s: %v, %v", c.text, err, found.Codes())
		}
	}
}

// openWith opens a docket of the demo with more text at its end.
func openWith(t testing.TB, docket, more string) (Inputs, finding.List, error) {
	t.Helper()
	data, err := fs.ReadFile(demo.Files, docket)
	if err != nil {
		t.Fatal(err)
	}
	return Open(overlaid{demo.Files, docket, append(data, more...)}, docket)
}

// overlaid is a tree of files with one in place of its own.
type overlaid struct {
	fs.FS
	name string
	data []byte
}

func (o overlaid) Open(name string) (fs.File, error) {
	if name != o.name {
		return o.FS.Open(name)
	}
	return fstest.MapFS{name: {Data: o.data}}.Open(name)
}

package demo

import (
	"context"
	"slices"
	"testing"

	"gusset/internal/making"
	"gusset/internal/order"
)

// The trousers with an elastic waist are made down to their needs: what the
// methods bring is cut, laid, ordered and bought, and what they do away with is
// not. No finding is worse than advice.
func TestQuickChange(t *testing.T) {
	in, found, err := making.Open(Files, "dockets/quay-quick-change.yaml")
	if err != nil || len(found) > 0 {
		t.Fatal(err, found.Codes())
	}
	r := making.Run(context.Background(), in, making.Needs, making.Effort{}, nil)
	for _, f := range r.Findings {
		if f.Severity().String() != "advice" {
			t.Errorf("%s: %s", f.Code(), f.Text())
		}
	}
	placed := map[string]int{}
	for _, l := range r.Lays {
		for _, p := range l.Placed {
			placed[p.Cut.Piece] += p.Layers
		}
	}
	for piece, want := range map[string]int{
		"waist-strip": 1, "loops-tab": 12, "hem-facing-front": 2, "hem-facing-back": 2, "front": 2, "back": 2,
		"band": 0, "fly-facing": 0, "shield": 0, "loops": 0,
	} {
		if placed[piece] != want {
			t.Errorf("%s is laid %d times, want %d", piece, placed[piece], want)
		}
	}
	steps := r.Steps.Steps()
	at := func(id string) int {
		return slices.IndexFunc(steps, func(s order.Step) bool { return s.Op.ID == id })
	}
	for _, c := range [][2]string{
		{"waist-fitting.unpick", "outseam.sew@left"}, {"outseam.fell@right", "waist.sew"}, {"loops.baste", "waist.sew"}, {"waist.thread", "waist.shut"},
	} {
		if a, b := at(c[0]), at(c[1]); a < 0 || b < 0 || a > b {
			t.Errorf("%s is step %d, %s step %d", c[0], a, c[1], b)
		}
	}
	items := map[string]int{}
	for _, i := range r.Needs.Items() {
		items[i.Kind] += i.Count
	}
	if items["elastic"] != 1 || items["button"] != 6 || items["zip"] != 0 {
		t.Errorf("needs %v", items)
	}
}

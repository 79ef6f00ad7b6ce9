package sheet

import (
	"strings"
	"testing"

	demoprinted "gusset/demo/printed"
	"gusset/internal/cloth"
	"gusset/internal/construct"
	"gusset/internal/draw"
	"gusset/internal/finish"
	"gusset/internal/geom"
	"gusset/internal/method"
	"gusset/internal/unit"
)

// quayCuts are the demo trousers in the middle printed size, in one view.
func quayCuts(t *testing.T, view string) []finish.Cut {
	t.Helper()
	g := demoprinted.View(t, "quay", view, 3)
	lib, _ := method.Builtin()
	cloths := map[cloth.Role]cloth.Cloth{}
	for _, r := range cloth.Roles {
		cloths[r] = cloth.Cloth{Thickness: unit.MM(0.5)}
	}
	plan, told := construct.Construct(g, lib, cloths, nil)
	if told.Stops() > 0 {
		t.Fatal(told.Codes())
	}
	set, told := finish.Finish(plan)
	if told.Stops() > 0 {
		t.Fatal(told.Codes())
	}
	return set.Pieces()
}

// The demo trousers come out on the pattern sheets, each piece by its name, and
// no line inside a piece is drawn beyond its cut line.
func TestQuayPattern(t *testing.T) {
	h := testHeading()
	for _, view := range []string{"long", "cropped"} {
		cuts := quayCuts(t, view)
		tiled := strings.Join(printed(t, "quay-A4-"+view, func() (draw.Doc, error) { return Tiled(h, cuts, draw.A4) }), "\n")
		roll := strings.Join(printed(t, "quay-roll-"+view, func() (draw.Doc, error) {
			d, told := Roll(h, cuts, 914)
			for _, f := range told {
				t.Error(f.Text())
			}
			return d, nil
		}), "\n")
		for _, s := range showEach(cuts) {
			wants(t, "tiled", tiled, s.cut.Title)
			wants(t, "roll", roll, s.cut.Title)
			l := &draw.List{}
			drawPiece(l, h, s)
			lo, hi := l.Bounds()
			a, b := geom.BoundsOf(s.cut.Exact)
			if room := (draw.Rect{Min: a, Max: b}).Inset(-1); !room.Contains(lo) || !room.Contains(hi) {
				t.Errorf("%s: drawn from %v to %v, cut from %v to %v", s.cut.ID, lo, hi, a, b)
			}
		}
	}
}

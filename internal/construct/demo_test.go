package construct

import (
	"testing"

	"gusset/demo/printed"
	"gusset/internal/cloth"
	"gusset/internal/unit"
)

// Every view of the demo pattern can be planned in every printed size, with
// every edge taken and an order of work that exists.
func TestDemo(t *testing.T) {
	p := printed.Pattern(t, "quay")
	cloths := drill()
	cloths[cloth.Pocketing] = cloth.Cloth{Thickness: unit.MM(0.3)}
	cloths[cloth.Interfacing] = cloth.Cloth{Thickness: unit.MM(0.2)}
	for _, v := range p.Views {
		for i, size := range p.Sizes {
			plan, found := Construct(printed.Garment(p, v, i), library(t), cloths, nil)
			for _, f := range found {
				t.Errorf("%s in %s: %s: %s", v.Name, size, f.Code(), f.Text())
			}
			if i == 0 {
				checkDemoOrder(t, v.Name, plan)
			}
		}
	}
}

// What is pinned across a seam waits for that seam: a sleeve for the shoulder, a
// facing for the seams that it is matched to.
func TestPinnedAcross(t *testing.T) {
	p := printed.Pattern(t, "mooring")
	cloths := drill()
	cloths[cloth.Interfacing] = cloth.Cloth{Thickness: unit.MM(0.2)}
	plan, found := Construct(printed.Garment(p, p.Views[0], 3), library(t), cloths, nil)
	if found.Stops() > 0 {
		t.Fatal(found.Codes())
	}
	checkDemoOrder(t, "faced", plan)
}

func checkDemoOrder(t *testing.T, view string, p Plan) {
	t.Helper()
	pairs := map[string][][2]string{
		"long": {
			{"yoke-seam.press@left", "seat.topstitch"}, {"yoke-seam.press@left", "outseam.sew@left"},
			{"seat.press", "waist.sew"}, {"outseam.press-flat@right", "hem.turn@right"},
			{"fly.tack", "waist.sew"}, {"fly-facing-waist.baste", "waist.sew"},
			{"pocket-top.topstitch@left", "front-pocket.turn@left"}, {"band-inner.topstitch", "loops.tack"},
			// The allowance of back and yoke is pressed under, and pinned, when they are one.
			{"yoke-seam.press@right", "seat.turn"}, {"yoke-seam.press@left", "seat.lay"}, {"band-ends.turn", "band-inner.pin"},
		},
		"cropped": {
			{"outseam-lower.press@left", "hem.turn@left"}, {"outseam-upper.press@left", "waist.sew"},
			{"band-inner.topstitch", "fly.buttonhole"},
		},
	}
	pairs["faced"] = [][2]string{
		{"shoulder.press@left", "armhole.pin@left"}, {"shoulder.press@right", "facing.pin"}, {"facing-shoulder.press@left", "facing.pin"},
		{"underarm.press@left", "cuff.pin@left"}, {"cuff-ends.press@left", "cuff.pin@left"},
	}
	all := reaches(p)
	for _, c := range pairs[view] {
		if all[c[1]] == nil || all[c[0]] == nil {
			t.Errorf("%s: no operations %s and %s", view, c[0], c[1])
		} else if !all[c[1]][c[0]] {
			t.Errorf("%s: %s does not wait for %s", view, c[1], c[0])
		}
	}
}

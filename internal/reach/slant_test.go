package reach

import (
	"testing"

	"gusset/internal/change"
	"gusset/internal/cloth"
	"gusset/internal/construct"
	"gusset/internal/docket"
	"gusset/internal/method"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// slanted is the demo's long trousers with slant pockets instead of the patch
// pockets in front.
func slanted(t *testing.T) construct.Plan {
	t.Helper()
	d, found := docket.Load(source.File{Path: "dockets/slant.yaml", Data: []byte(`gusset: docket/1
title: t
body: b
pattern: p
view: v
cloths: {main: m}
changes:
  - {id: slant, slant-pocket: {side: "front:outseam", in: 6 cm, down: 16 cm, wide: 14 cm, deep: 28 cm, instead-of: front-pocket}}
`)})
	if len(found) > 0 {
		t.Fatal(found.Codes())
	}
	changed, found := change.Apply(quay(t, "long", 3).Garment(), d.Changes, unit.Centimetre)
	if len(found) > 0 {
		t.Fatal(found.Codes())
	}
	library, _ := method.Builtin()
	c := cloth.Cloth{Thickness: unit.MM(0.8)}
	plan, found := construct.Construct(changed.Garment(), library, map[cloth.Role]cloth.Cloth{cloth.Main: c, cloth.Pocketing: c, cloth.Interfacing: c}, nil)
	for _, f := range found {
		t.Errorf("%s: %s", f.Code(), f.Text())
	}
	return plan
}

// The bag of a slant pocket is closed in the outseam and in the waist, where both
// its halves are caught: no tube runs through it. So its mouth and the seams beside
// it are got at as on trousers without: the yoke's outseam is felled while the
// inseam is open with ease, and the band is stitched down with ease.
func TestSlantPocketIsNoTube(t *testing.T) {
	p := slanted(t)
	s := Look(p, bench)
	for _, e := range []string{"low", "top-in"} {
		for _, i := range s.surface.byEdge[onEdge{copyOf{"front-bag", "left"}, e}] {
			m := s.surface.arcs[i].mate
			if m < 0 || s.surface.faces[s.surface.arcs[m].face].copyOf.piece != "front-side" {
				t.Errorf("%s of the bag is closed on nothing: arc %d mate %d", e, i, m)
			}
		}
	}
	all := func(but string) func(string) bool {
		return func(id string) bool { return id != but && id != "inseam.sew@left" }
	}
	for _, id := range []string{"outseam.fell@left", "waist.press", "band-inner.topstitch"} {
		if a := s.At(id, all(id)); a.Level > RoundArm {
			t.Errorf("%s: %s %+v", id, a.Level, a)
		}
	}
}

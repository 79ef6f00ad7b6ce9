package construct

import (
	"path"
	"testing"

	"gusset/demo"
	"gusset/internal/cloth"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// quay reads the demo pattern.
func quay(t *testing.T) pattern.Pattern { return ofDemo(t, "quay") }

// ofDemo is one of the demo's patterns.
func ofDemo(t *testing.T, folder string) pattern.Pattern {
	t.Helper()
	read := func(name string) (source.File, error) {
		p := path.Join("patterns", folder, name)
		data, err := demo.Files.ReadFile(p)
		return source.File{Path: p, Data: data}, err
	}
	f, err := read("pattern.yaml")
	if err != nil {
		t.Fatal(err)
	}
	p, found := pattern.Load(f, read)
	if found.Stops() > 0 {
		t.Fatal(found.Codes())
	}
	return p
}

// inSize is a view of a pattern in one printed size.
func inSize(p pattern.Pattern, v pattern.View, size int) pattern.Garment {
	g := pattern.Garment{View: v, Pieces: map[string]piece.Piece{}, Order: p.Order}
	for _, u := range v.Uses {
		g.Pieces[u.Piece] = p.Pieces[u.Piece].In[size]
	}
	return g
}

// Every view of the demo pattern can be planned in every printed size, with
// every edge taken and an order of work that exists.
func TestDemo(t *testing.T) {
	p := quay(t)
	cloths := drill()
	cloths[cloth.Pocketing] = cloth.Cloth{Thickness: unit.MM(0.3)}
	cloths[cloth.Interfacing] = cloth.Cloth{Thickness: unit.MM(0.2)}
	for _, v := range p.Views {
		for i, size := range p.Sizes {
			plan, found := Construct(inSize(p, v, i), library(t), cloths, nil)
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
	p := ofDemo(t, "mooring")
	cloths := drill()
	cloths[cloth.Interfacing] = cloth.Cloth{Thickness: unit.MM(0.2)}
	plan, found := Construct(inSize(p, p.Views[0], 3), library(t), cloths, nil)
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

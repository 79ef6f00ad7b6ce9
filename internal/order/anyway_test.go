package order

import (
	"slices"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/construct"
	"gusset/internal/geom"
	"gusset/internal/machine"
	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/reach"
	"gusset/internal/unit"
)

// leg is a tube of two panels, 38 cm round and 74 cm long, one seam felled and
// the other plain, with finishes of the whole hem.
func leg(t *testing.T, finishes ...pattern.Finish) construct.Plan {
	t.Helper()
	box := func(name string, names ...string) piece.Piece {
		p := piece.Piece{Name: name}
		c := []geom.Pt{{}, {X: 190}, {X: 190, Y: 740}, {Y: 740}}
		for i, n := range names {
			p.Edges = append(p.Edges, piece.Edge{Name: n, Curve: geom.Polyline(c[i], c[(i+1)%4]), Printed: 15})
		}
		return p
	}
	ref := func(text string) []piece.Ref {
		r, err := piece.ParseRef(text)
		if err != nil {
			t.Fatal(err)
		}
		return []piece.Ref{r}
	}
	main := []cloth.Role{cloth.Main}
	g := pattern.Garment{
		Pieces: map[string]piece.Piece{"front": box("front", "hem", "outseam", "top", "inseam"), "back": box("back", "hem", "inseam", "top", "outseam")},
		Order:  []string{"front", "back"},
		View: pattern.View{
			Uses: []pattern.Use{{Piece: "front", Copies: pattern.Single, Cloths: main}, {Piece: "back", Copies: pattern.Single, Cloths: main}},
			Joins: []pattern.Join{
				{ID: "inseam", Method: "plain-overlocked", Sides: [][]piece.Ref{ref("front:inseam"), ref("back:inseam")}},
				{ID: "outseam", Method: "felled-seam", Sides: [][]piece.Ref{ref("front:outseam"), ref("back:outseam")}},
			},
		},
	}
	for _, f := range finishes {
		f.Edges = append(ref("front:hem"), ref("back:hem")...)
		g.View.Finishes = append(g.View.Finishes, f)
	}
	library, found := method.Builtin()
	if found.Stops() > 0 {
		t.Fatal(found.Codes())
	}
	p, _ := construct.Construct(g, library, map[cloth.Role]cloth.Cloth{cloth.Main: {Thickness: unit.MM(0.8)}}, nil)
	return p
}

// The planned order fells the outseam before the inseam closes the leg, as the
// trade does (published jeans sequence: the topstitched leg seam first, the
// other closes the leg). An order that closes the leg first is told why not.
func TestTopstitchedSeamFirst(t *testing.T) {
	p := leg(t)
	bench := []machine.Machine{
		{Kind: machine.Lockstitch, Stitches: []string{"301"}, ArmGirth: unit.MM(280), ArmLength: unit.MM(170), Throat: unit.MM(170), ThroatHeight: unit.MM(110)},
		{Kind: machine.Overlocker, Stitches: []string{"504"}},
	}
	look := reach.Look(p, bench)
	s, _ := Plan(p.Operations(), look.Conditions(), bench, Costs{})
	at := map[string]int{}
	for _, step := range s.Steps() {
		at[step.Op.ID] = step.Number
	}
	if at["outseam.fell"] > at["inseam.sew"] {
		t.Errorf("the outseam is felled in step %d, the inseam sewn in step %d", at["outseam.fell"], at["inseam.sew"])
	}
	if hard := HardOf(s.Steps(), look.Conditions()); len(hard) > 0 {
		t.Errorf("planned: %s", hard[0].Why())
	}
	if found := HardAnyway(s.Steps(), look, unit.Centimetre); len(found) > 0 {
		t.Errorf("planned: %s", found[0].Text())
	}
	late := slices.Clone(s.Steps())
	slices.SortStableFunc(late, func(a, b Step) int {
		rank := func(s Step) int {
			if s.Op.Item == "inseam" {
				return 0
			}
			return 1
		}
		return rank(a) - rank(b)
	})
	hard := HardOf(late, look.Conditions())
	if len(hard) != 1 {
		t.Fatalf("hard: %+v", hard)
	}
	const text = "front and back are a tube of 38 cm, 74 cm deep, your machine's arm is 28 cm round and 17 cm long"
	if h := hard[0]; h.Op.ID != "outseam.fell" || h.Access.Words(unit.Centimetre) != text || !slices.Equal(h.Blockers, []string{"inseam.sew"}) {
		t.Errorf("%s before %v: %s", h.Op.ID, h.Blockers, h.Access.Words(unit.Centimetre))
	}
	if found := Bulky(s.Steps(), look); len(found) > 0 {
		t.Errorf("no line of it crosses a seam: %s", found[0].Text())
	}
	for _, k := range []interface{ Validate() error }{awkwardAnyway, byHandAnyway, neverReached, tooThick} {
		if err := k.Validate(); err != nil {
			t.Error(err)
		}
	}
}

// The hem of that leg runs over the felled outseam: three plies of hem over four of
// seam, 0.8 mm each, under a foot of which nothing is stated (see package reach).
func TestBulkyHemIsTold(t *testing.T) {
	p := leg(t, pattern.Finish{ID: "hem", Title: "hem", Method: "double-hem"})
	look := reach.Look(p, nil)
	s, _ := Plan(p.Operations(), look.Conditions(), nil, Costs{})
	found := Bulky(s.Steps(), look)
	if len(found) != 1 {
		t.Fatalf("%v", found.Codes())
	}
	const text = "hem.topstitch runs over outseam: 12 plies, 9.6 mm of cloth there, under a foot that lifts 6.0 mm " +
		"(a guess: measure it, and write it down as foot-lift)"
	if f := found[0]; f.Code() != "order.bulk" || f.Text() != text {
		t.Errorf("%s: %s", f.Code(), f.Text())
	}
}

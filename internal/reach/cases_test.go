package reach

import (
	"math"
	"slices"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/geom"
	"gusset/internal/machine"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// bench is the machine of the worked example: an arm 28 cm round and 17 cm
// long, a throat of 17 cm.
var bench = []machine.Machine{{
	Kind: machine.Lockstitch, Stitches: []string{"301"},
	ArmGirth: unit.MM(280), ArmLength: unit.MM(170), Throat: unit.MM(170), ThroatHeight: unit.MM(110),
}}

// done says that the given operations are done.
func done(ids ...string) func(string) bool {
	return func(id string) bool { return slices.Contains(ids, id) }
}

func only(t *testing.T, s Survey, op string) Condition {
	t.Helper()
	for _, c := range s.Conditions() {
		if c.Op == op {
			return c
		}
	}
	t.Fatalf("nothing makes %s harder", op)
	return Condition{}
}

// tube is a leg or sleeve of two panels, open at top and hem.
func tube(width, long float64, outseam, inseam string) pattern.Garment {
	front := box("front", width, long, "hem", "outseam", "top", "inseam")
	back := box("back", width, long, "hem", "inseam", "top", "outseam")
	return garment([]piece.Piece{front, back}, []string{"front", "back"}, pattern.View{
		Joins: []pattern.Join{
			join("outseam", outseam, "front:outseam", "back:outseam"),
			join("inseam", inseam, "front:inseam", "back:inseam"),
		},
		Finishes: []pattern.Finish{finish("hem", "double-hem", "front:hem", "back:hem")},
	})
}

// felled lists what comes before the fell of a seam.
func felled(id string) []string { return []string{id + ".sew", id + ".press", id + ".turn"} }

// A leg of 38 cm, 74 cm long: the outseam is topstitched with ease while the
// inseam is open. Afterwards the worst place is halfway, 37 cm from either end:
// the cloth lies on the arm in 37/17 layers, so that 28 cm + 2π × 3 × 0.08 cm ×
// 37/17 = 31.3 cm of girth would do: awkward, not impossible.
func TestTopstitchOutseamAfterInseam(t *testing.T) {
	s := Look(planned(t, tube(190, 740, "felled-seam", "plain-overlocked")), bench)
	if a := s.At("outseam.fell", done(felled("outseam")...)); a.Level != Easy {
		t.Errorf("before the inseam: %s", a.Level)
	}
	a := s.At("outseam.fell", done(append(felled("outseam"), "inseam.sew")...))
	if a.Level != Awkward || !a.Along || math.Abs(a.Girth-380) > 1 || math.Abs(a.Depth-370) > 20 || math.Abs(a.Deep-740) > 1 {
		t.Errorf("after the inseam: %s, %+v", a.Level, a)
	}
	if need := bench[0].ArmGirth.MM() + a.Machine.bunched(370, 0.8); math.Abs(need-313) > 1 {
		t.Errorf("with the cloth bunched up the arm is %.0f mm round, by hand 313", need)
	}
	b := only(t, s, "outseam.fell").Blockers(Awkward)
	if len(b) != 1 || !slices.Equal(b[0].Closers, []string{"inseam.sew"}) {
		t.Errorf("blocked by %+v", b)
	}
}

// The hem of a sleeve 22 cm round does not go on an arm of 28 cm, and inside
// the ring only 11 cm of the 12 that foot and fingers want are free (2 × 3 cm
// and 6 cm between the walls): it is hemmed by hand. A hem of 26 cm leaves 13.
func TestNarrowSleeveHem(t *testing.T) {
	for _, c := range []struct {
		girth float64
		want  Level
	}{{220, ByHand}, {260, RoundArm}, {320, RoundArm}, {440, Easy}} {
		s := Look(planned(t, tube(c.girth/2, 400, "plain-overlocked", "plain-overlocked")), bench)
		a := s.At("hem.topstitch", done("outseam.sew", "inseam.sew"))
		if a.Level != c.want || a.Along && c.want > Easy {
			t.Errorf("hem of %.0f mm: %s, want %s (%+v)", c.girth, a.Level, c.want, a)
		}
	}
}

// With both seams felled, whichever is second is felled in the tube: awkward in
// a leg of 38 cm, by hand in a sleeve of 22 cm. Neither can be planned away;
// each is blocked by the other only.
func TestBothSeamsFelled(t *testing.T) {
	for _, c := range []struct {
		width, long float64
		want        Level
	}{{190, 740, Awkward}, {110, 400, ByHand}} {
		s := Look(planned(t, tube(c.width, c.long, "felled-seam", "felled-seam")), bench)
		for _, pair := range [][2]string{{"outseam", "inseam"}, {"inseam", "outseam"}} {
			b := only(t, s, pair[0]+".fell").Blockers(c.want)
			if len(b) != 1 || !slices.Equal(b[0].Closers, []string{pair[1] + ".sew"}) || b[0].Access.Level != c.want {
				t.Errorf("%s in a tube of %.0f mm is blocked by %+v", pair[0], 2*c.width, b)
			}
		}
	}
}

// pouch is a bag of two panels, sewn all round but for a gap in the top.
func pouch(gap float64) pattern.Garment {
	front := box("front", 400, 300, "bottom", "right", "top", "left")
	back := box("back", 400, 300, "bottom", "right", "top", "left")
	v := pattern.View{Joins: []pattern.Join{
		join("sides", "plain-overlocked", "front:left", "back:right"),
		join("other-side", "plain-overlocked", "front:right", "back:left"),
		join("bottom", "lapped-topstitched", "front:bottom", "back:bottom"),
	}}
	if gap == 0 {
		v.Joins = append(v.Joins, join("top", "plain-overlocked", "front:top", "back:top"))
	} else {
		for _, p := range []*piece.Piece{&front, &back} {
			e, _ := p.Edge("top")
			p.Marks = append(p.Marks, piece.Mark{Kind: piece.Notch, Name: "gap", Edge: "top", At: 400 - gap, P: e.Curve.At(400 - gap)})
		}
		back.Marks[0].At, back.Marks[0].P = gap, geom.Pt{X: 400 - gap, Y: 300}
		v.Joins = append(v.Joins, join("top", "plain-overlocked", "front:top[right..gap]", "back:top[gap..left]"))
	}
	return garment([]piece.Piece{front, back}, []string{"front", "back"}, v)
}

// A bag sewn all round has no opening: a line at its bottom can be topstitched
// while any one of the other seams is open, and not at all when all are closed.
// Hands and arm go in through a gap of 20 cm (40 cm round), by a gap of 8 cm
// (16 cm round) neither.
func TestBagWithoutOpening(t *testing.T) {
	s := Look(planned(t, pouch(0)), bench)
	c := only(t, s, "bottom.topstitch")
	b := c.Blockers(Impossible)
	if len(b) != 1 || len(b[0].Closers) != 3 {
		t.Fatalf("blocked by %+v", b)
	}
	if !math.IsInf(b[0].Access.Depth, 1) {
		t.Errorf("the closed bag is entered %.0f mm deep", b[0].Access.Depth)
	}
	for gap, want := range map[float64]bool{200: false, 80: true} {
		s := Look(planned(t, pouch(gap)), bench)
		a := s.At("bottom.topstitch", done("sides.sew", "other-side.sew", "top.sew"))
		if closed := a.Level == Impossible; closed != want {
			t.Errorf("with a gap of %.0f mm: %s %+v", gap, a.Level, a)
		}
	}
}

// A patch pocket set after the side seams of a skirt 100 cm round, 20 cm below
// the waist: a tube that wide is laid open (common practice: it can be done, if
// less comfortably).
func TestPatchPocketAfterSideSeams(t *testing.T) {
	g := tube(500, 600, "plain-overlocked", "plain-overlocked")
	front := g.Pieces["front"]
	front.Lines = []piece.Line{{Kind: piece.Placement, Name: "pocket",
		Curve: geom.Polyline(geom.Pt{X: 150, Y: 400}, geom.Pt{X: 150, Y: 250}, geom.Pt{X: 280, Y: 250}, geom.Pt{X: 280, Y: 400})}}
	g.Pieces["front"] = front
	g.Pieces["pocket"] = box("pocket", 130, 150, "bottom", "side-b", "top", "side-a")
	g.Order = append(g.Order, "pocket")
	g.View.Uses = append(g.View.Uses, pattern.Use{Piece: "pocket", Copies: pattern.Single, Cloths: []cloth.Role{cloth.Main}})
	g.View.Joins = append(g.View.Joins, pattern.Join{
		ID: "pocket", Method: "patch-pocket", Sides: [][]piece.Ref{refs("pocket:side-a", "pocket:bottom", "pocket:side-b"), refs("front:/pocket")},
	})
	s := Look(planned(t, g), bench)
	if a := s.At("pocket.set", done("outseam.sew", "inseam.sew")); a.Level != Easy || math.Abs(a.Girth) < 900 {
		t.Errorf("%s: %+v", a.Level, a)
	}
}

// A zip in the last seam of a cushion cover: with the other three seams closed
// and the zip's seam sewn shut there is no way in. It is set while one of them
// is open.
func TestZipInAClosedSeam(t *testing.T) {
	g := pouch(0)
	g.View.Joins[2].Method = "plain-overlocked"
	g.View.Closures = []pattern.Closure{{ID: "zip", Method: "fly-zip", Joins: []string{"bottom"}, Along: refs("front:bottom")}}
	s := Look(planned(t, g), bench)
	if a := s.At("zip.set-left", done("bottom.sew")); a.Level != Easy {
		t.Errorf("with the sides open: %s", a.Level)
	}
	if a := s.At("zip.set-left", done("bottom.sew", "sides.sew", "other-side.sew", "top.sew")); a.Level != Impossible {
		t.Errorf("in the closed seam: %s", a.Level)
	}
}

// A slit in a flat piece is got at with ease, also where its line begins on the
// outline, runs along it, or on a curved edge lies outside the straight ways
// between the points that are looked at (the edge bulges 50 mm over 400, of which
// a straight way of 40 mm cuts off half a millimetre). In a leg that is closed by one
// seam it is still open; the other then makes a tube of it.
func TestLineOnTheOutline(t *testing.T) {
	bulge := geom.Curve{geom.Seg{P: [4]geom.Pt{{X: 200}, {X: 266, Y: 133}, {X: 266, Y: 267}, {X: 200, Y: 400}}}}
	for name, slit := range map[string]geom.Curve{
		"from the edge":        geom.Polyline(geom.Pt{X: 200, Y: 0}, geom.Pt{X: 100, Y: 100}),
		"from within the edge": geom.Polyline(bulge.At(bulge.Length()/2+7), geom.Pt{X: 150, Y: 200}),
		"along the edge":       bulge.Between(30, 390),
		"on a straight edge":   geom.Polyline(geom.Pt{Y: 330}, geom.Pt{Y: 170}),
		"a hair outside":       geom.Polyline(geom.Pt{X: -0.2, Y: 330}, geom.Pt{X: -0.2, Y: 170}),
	} {
		g := tube(200, 400, "plain-open", "plain-open")
		front := g.Pieces["front"]
		front.Edges[1].Curve = bulge
		front.Lines = []piece.Line{{Kind: piece.Placement, Name: "slit", Curve: slit}}
		g.Pieces["front"] = front
		back := g.Pieces["back"]
		for i, e := range front.Mirror().Edges {
			if e.Name == "outseam" {
				back.Edges[3].Curve = front.Mirror().Edges[i].Curve.Transform(geom.Shift(geom.Pt{X: 200}))
			}
		}
		g.Pieces["back"] = back
		g.View.Closures = []pattern.Closure{{ID: "slit", Method: "fly-zip", Along: refs("front:/slit")}}
		s := Look(planned(t, g), bench)
		if a := s.At("slit.set-left", done()); a.Level != Easy {
			t.Errorf("%s: %s, %+v", name, a.Level, a)
		}
		if a := s.At("slit.set-left", done("outseam.sew")); a.Level != Easy || !math.IsInf(a.Girth, 1) {
			t.Errorf("%s, one seam closed: %s, %+v", name, a.Level, a)
		}
		if a := s.At("slit.set-left", done("outseam.sew", "inseam.sew")); a.Level == Impossible || a.Girth < 380 || a.Girth > 520 {
			t.Errorf("%s, in the tube: %s, %+v", name, a.Level, a)
		}
	}
}

// Two leg tops of 28 cm (the arm wants 30) become a waist of 56: above the
// fork the work is easier again once the crotch is sewn.
func TestMergingOpenings(t *testing.T) {
	c := Condition{Closers: []string{"a", "b"}, When: []Access{{}, {Level: ByHand}, {}, {Level: Easy}}}
	if !c.Falls() {
		t.Error("an opening that grows goes unseen")
	}
	if b := c.Blockers(Awkward); len(b) != 1 || !slices.Equal(b[0].Closers, []string{"a"}) {
		t.Errorf("blocked by %+v", b)
	}
	if (Condition{Closers: []string{"a"}, When: []Access{{}, {Level: ByHand}}}).Falls() {
		t.Error("a seam that only closes is said to open")
	}
}

package reach

import (
	"slices"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/construct"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// frontWithBag is a front 300 wide and 600 high with a pocket bag 150 by 200 turned in
// along the upper end of its side, the top of the bag caught at the waist, and
// a patch set on the front where it is told.
func frontWithBag(t *testing.T, patch ...geom.Pt) construct.Plan {
	t.Helper()
	front := box("front", 300, 600, "hem", "side", "waist", "centre")
	for _, m := range []struct {
		edge string
		at   float64
		p    geom.Pt
	}{{"side", 400, geom.Pt{X: 300, Y: 400}}, {"waist", 150, geom.Pt{X: 150, Y: 600}}} {
		front.Marks = append(front.Marks, piece.Mark{Kind: piece.Notch, Name: "pocket-" + m.edge, Edge: m.edge, At: m.at, P: m.p})
	}
	front.Lines = []piece.Line{{Kind: piece.Placement, Name: "patch", Curve: geom.Polyline(patch...)}}
	bag := box("bag", 150, 200, "bottom", "inner", "top", "mouth")
	label := box("label", 40, 40, "bottom", "right", "top", "left")
	g := garment([]piece.Piece{front, bag, label}, []string{"front", "bag", "label"}, pattern.View{Joins: []pattern.Join{
		join("mouth", "enclosed", "front:side[pocket-side..waist]", "bag:mouth"),
		join("bag-top", "caught", "front:waist[side..pocket-waist]", "bag:top"),
		{ID: "patch", Method: "patch-pocket", Sides: [][]piece.Ref{refs("label:left", "label:bottom", "label:right"), refs("front:/patch")}},
	}})
	for i, u := range g.View.Uses {
		if u.Piece == "bag" {
			g.View.Uses[i].Cloths = []cloth.Role{cloth.Main}
		}
	}
	return planned(t, g)
}

// The bag is held along its mouth, from (300, 400) up to (300, 600), and along the
// waist from there to (150, 600). Within the triangle of these three points it
// cannot be drawn aside: a patch set at (210, 530) to (250, 570) would be sewn
// through it (the slanted side is at x = 300 − 150·(y − 400)/200, so x = 202 at
// y = 530). One at (160, 420) to (200, 460) lies under the bag as well, but there
// the bag's free corner is turned up. (Package construct lets what is set on a
// face come before its seams, so here no order is left to the planner.)
func TestPocketBagCaught(t *testing.T) {
	at := func(x, y float64) []geom.Pt {
		return []geom.Pt{{X: x, Y: y + 40}, {X: x, Y: y}, {X: x + 40, Y: y}, {X: x + 40, Y: y + 40}}
	}
	s := Look(frontWithBag(t, at(210, 530)...), bench)
	for _, c := range []struct {
		done []string
		want Level
	}{{nil, Easy}, {[]string{"mouth.sew"}, Easy}, {[]string{"bag-top.baste"}, Easy}, {[]string{"mouth.sew", "bag-top.baste"}, ByHand}} {
		a := s.At("patch.set", done(c.done...))
		if a.Level != c.want || (c.want == ByHand) != slices.Equal(a.Caught, []string{"bag"}) {
			t.Errorf("after %v: %s, caught %v; want %s", c.done, a.Level, a.Caught, c.want)
		}
	}
	const text = "the bag lies beneath, held at its edges, and would be caught"
	if a := s.At("patch.set", done("mouth.sew", "bag-top.baste")); a.Words(unit.Centimetre) != text {
		t.Errorf("told as %q", a.Words(unit.Centimetre))
	}
	s = Look(frontWithBag(t, at(160, 420)...), bench)
	if a := s.At("patch.set", done("mouth.sew", "bag-top.baste")); a.Level != Easy {
		t.Errorf("where the bag is turned up: %s, caught %v", a.Level, a.Caught)
	}
}

// A line beneath a patch that is sewn on round three sides goes through it; one
// beside it does not.
func TestSewnThroughAPatch(t *testing.T) {
	front := box("front", 300, 600, "hem", "side", "waist", "centre")
	front.Lines = []piece.Line{
		{Kind: piece.Placement, Name: "big", Curve: geom.Polyline(geom.Pt{X: 80, Y: 400}, geom.Pt{X: 80, Y: 200}, geom.Pt{X: 240, Y: 200}, geom.Pt{X: 240, Y: 400})},
		{Kind: piece.Placement, Name: "under", Curve: geom.Polyline(geom.Pt{X: 140, Y: 340}, geom.Pt{X: 140, Y: 300}, geom.Pt{X: 180, Y: 300}, geom.Pt{X: 180, Y: 340})},
		{Kind: piece.Placement, Name: "beside", Curve: geom.Polyline(geom.Pt{X: 20, Y: 340}, geom.Pt{X: 20, Y: 300}, geom.Pt{X: 60, Y: 300}, geom.Pt{X: 60, Y: 340})},
	}
	names := []string{"bottom", "right", "top", "left"}
	set := func(id, p, line string) pattern.Join {
		return pattern.Join{ID: id, Method: "patch-pocket", Sides: [][]piece.Ref{refs(p+":left", p+":bottom", p+":right"), refs("front:/" + line)}}
	}
	g := garment(
		[]piece.Piece{front, box("pocket", 160, 200, names...), box("label", 40, 40, names...), box("tag", 40, 40, names...)},
		[]string{"front", "pocket", "label", "tag"},
		pattern.View{Joins: []pattern.Join{set("pocket", "pocket", "big"), set("label", "label", "under"), set("tag", "tag", "beside")}},
	)
	s := Look(planned(t, g), bench)
	if a := s.At("label.set", done("pocket.set")); a.Level != ByHand || !slices.Equal(a.Caught, []string{"pocket"}) {
		t.Errorf("under the pocket: %s, caught %v", a.Level, a.Caught)
	}
	if a := s.At("tag.set", done("pocket.set")); a.Level != Easy {
		t.Errorf("beside the pocket: %s, caught %v", a.Level, a.Caught)
	}
	if a := s.At("label.set", done()); a.Level != Easy {
		t.Errorf("before the pocket: %s, caught %v", a.Level, a.Caught)
	}
}

// Both halves of the demo's pocket bags lie on the front, one on the other: they are
// cut alike and joined all round. Each is held by one seam only, the mouth's own, so
// that no line catches it.
func TestDemoBagsLieOnTheFront(t *testing.T) {
	p := quay(t, "cropped", 3)
	s := newSurface(p.Garment(), p.Seams())
	at := map[copyOf]geom.Pt{}
	for _, c := range s.covers() {
		ply, front := s.faces[c.face], s.faces[c.over]
		if ply.copyOf.piece != "bag-front" && ply.copyOf.piece != "bag-back" {
			continue
		}
		if front.copyOf != (copyOf{"front-cropped", ply.copy}) {
			t.Errorf("%v lies on %v", ply.copyOf, front.copyOf)
		}
		m := c.lies.Apply(middle(s.outline(c.face)))
		if at[ply.copyOf] = m; !geom.Inside(s.outline(c.over), m) {
			t.Errorf("the middle of %v lies at %.0f, beside the front", ply.copyOf, m)
		}
		if len(c.holds) != 1 {
			t.Errorf("%v is held by %d seams", ply.copyOf, len(c.holds))
		}
	}
	for _, hand := range []piece.Copy{piece.Left, piece.Right} {
		a, b := at[copyOf{"bag-front", hand}], at[copyOf{"bag-back", hand}]
		if a.Dist(b) > 1 || a == (geom.Pt{}) {
			t.Errorf("the halves of the %s bag lie at %.1f and %.1f", hand, a, b)
		}
	}
}

package change

import (
	"math"
	"slices"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/docket"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/seam"
	"gusset/internal/unit"
)

// square is a front 200 by 800 mm with a patch pocket, its outseam on the right and
// its centre on the left, sewn to a back of the same size and, both hands at once, to
// a band.
func square(t *testing.T) pattern.Garment {
	t.Helper()
	rect := func(name string, w, h float64, names ...string) piece.Piece {
		at := []geom.Pt{{}, {X: w}, {X: w, Y: h}, {Y: h}}
		p := piece.Piece{Name: name, Title: name}
		for i, n := range names {
			p.Edges = append(p.Edges, piece.Edge{Name: n, Curve: geom.Polyline(at[i], at[(i+1)%4]), Printed: 15})
		}
		p.Lines = []piece.Line{{Kind: piece.Grain, Name: "grain", Curve: geom.Polyline(geom.Pt{X: w / 2, Y: h / 4}, geom.Pt{X: w / 2, Y: h / 2})}}
		return p
	}
	front := rect("front", 200, 800, "hem", "outseam", "waist", "centre")
	front.Lines = append(front.Lines, piece.Line{Kind: piece.Placement, Name: "pocket", Curve: geom.Polyline(
		geom.Pt{X: 50, Y: 700}, geom.Pt{X: 50, Y: 560}, geom.Pt{X: 150, Y: 560}, geom.Pt{X: 150, Y: 700})})
	front.Marks = []piece.Mark{
		{Kind: piece.Notch, Name: "hip", Edge: "outseam", At: 500, P: geom.Pt{X: 200, Y: 500}},
		{Kind: piece.Notch, Name: "dart", Edge: "waist", At: 150, P: geom.Pt{X: 50, Y: 800}},
	}
	main := []cloth.Role{cloth.Main}
	return pattern.Garment{
		View: pattern.View{
			Uses: []pattern.Use{
				{Piece: "front", Copies: pattern.Pair, Cloths: main}, {Piece: "back", Copies: pattern.Pair, Cloths: main},
				{Piece: "band", Copies: pattern.Single, Cloths: main}, {Piece: "pocket", Copies: pattern.Pair, Cloths: main},
			},
			Joins: []pattern.Join{
				{ID: "pocket", Each: true, Sides: [][]piece.Ref{refs(t, "pocket:side-in", "pocket:bottom", "pocket:side-out"), refs(t, "front:/pocket")}},
				{ID: "outseam", Each: true, Sides: [][]piece.Ref{refs(t, "front:outseam"), refs(t, "back:outseam")}},
				{ID: "waist", Sides: [][]piece.Ref{refs(t, "band@single:lower"), refs(t, "front@left:waist", "back@left:waist", "back@right:waist", "front@right:waist")}},
			},
			Finishes: []pattern.Finish{{ID: "pocket-top", Edges: refs(t, "pocket:top"), Method: "self-facing"}},
			Girths:   []pattern.Girth{{Zone: "waist", Edges: refs(t, "front@left:waist", "back@left:waist")}},
			Matches:  []pattern.Match{{Join: "pocket", Point: pattern.Start}},
		},
		Pieces: map[string]piece.Piece{
			"front": front, "back": rect("back", 200, 800, "hem", "centre", "waist", "outseam"),
			"band": rect("band", 800, 40, "lower", "end-right", "upper", "end-left"), "pocket": rect("pocket", 100, 140, "bottom", "side-out", "top", "side-in"),
		},
		Order: []string{"front", "back", "band", "pocket"},
	}
}

func slantBy(in, down, wide, deep float64) docket.Change {
	return docket.Change{
		ID: "slant", Kind: docket.SlantPocket, Edge: "front:outseam", Where: unit.MM(in), By: unit.MM(down), Wide: unit.MM(wide), Deep: unit.MM(deep),
		Cloth: cloth.Pocketing, Other: "pocket", Method: "mouth-topstitched",
	}
}

// Worked by hand: a mouth from 60 mm in at the waist to 160 mm down the outseam cuts
// 60 · 160 / 2 mm² off the front; the side piece is 140 mm wide and 280 mm deep, the
// bag that without the corner. All seams fit, the waist goes on from the front
// along the side piece on both hands, and the patch pocket is gone with all that
// belonged to it.
func TestSlantPocket(t *testing.T) {
	g := square(t)
	c, found := apply(t, g, slantBy(60, 160, 140, 280))
	if len(found) > 0 {
		t.Fatal(told(found))
	}
	now := c.Garment()
	area := func(name string) float64 { return math.Abs(geom.Area(now.Pieces[name].Outline(0.01))) }
	same(t, "the front", area("front"), 200*800-60*160/2, 1e-6)
	same(t, "the side piece", area("front-side"), 140*280, 1e-6)
	same(t, "the bag", area("front-bag"), 140*280-60*160/2, 1e-6)
	if u, _ := now.Use("front-bag"); u.Copies != pattern.Pair || !u.Hidden || !slices.Equal(u.Cloths, []cloth.Role{cloth.Pocketing}) {
		t.Errorf("the bag is cut as %+v", u)
	}
	seams, found := seam.Resolve(now)
	walked, more := seam.Walk(now, seams, unit.Millimetre)
	if len(found)+len(more) > 0 || walked.Widest() > 1e-6 {
		t.Errorf("the seams miss by %.3f mm: %v %v", walked.Widest(), told(found), told(more))
	}
	for _, s := range seams {
		switch s.Join {
		case "waist":
			want := refs(t, "front@left:waist", "front-side@left:waist", "back@left:waist", "back@right:waist", "front-side@right:waist", "front@right:waist")
			for i, st := range s.Sides[1] {
				if i >= len(want) || st.Piece != want[i].Piece || st.Copy != want[i].Copy {
					t.Errorf("the waist goes on along %s@%s in place %d", st.Piece, st.Copy, i)
				}
			}
		case "slant-mouth":
			same(t, "the mouth", s.Length(), math.Hypot(60, 160), 1e-6)
		case "slant-bag":
			same(t, "round the bag", s.Length(), 280+140, 1e-6)
		}
	}
	if g := now.View.Girths[0].Edges; len(g) != 3 {
		t.Errorf("the waist is measured along %v", g)
	}
	_, pocket := now.Pieces["pocket"]
	_, place := now.Pieces["front"].LineNamed("pocket")
	if pocket || place || len(now.View.Finishes) > 0 || len(now.View.Matches) > 0 || slices.Contains(now.Order, "pocket") {
		t.Errorf("the patch pocket is still there: %v %v %v", now.View.Finishes, now.View.Matches, now.Order)
	}
	if _, there := now.Pieces["front"].Notch("outseam", "hip"); !there {
		t.Error("the hip notch is gone")
	}
}

// What cannot be cut or sewn so is refused with its reason, and nothing changes.
func TestSlantPocketRefused(t *testing.T) {
	g := square(t)
	once, _ := apply(t, g, slantBy(60, 160, 140, 280))
	other := slantBy(60, 160, 140, 280)
	other.Other = "waist"
	back := slantBy(60, 160, 140, 280)
	back.Edge, back.Other = "band:lower", ""
	for name, c := range map[string]struct {
		g    pattern.Garment
		step docket.Change
	}{
		"a bag no wider than its mouth":  {g, slantBy(60, 160, 70, 280)},
		"a bag across the whole waist":   {g, slantBy(60, 160, 190, 280)},
		"a bag no deeper than its mouth": {g, slantBy(60, 160, 140, 170)},
		"a bag down to the hem":          {g, slantBy(60, 160, 140, 790)},
		"instead of what is no pocket":   {g, other},
		"a piece that is cut once":       {g, back},
		"a second one of the same name":  {once.Garment(), func() docket.Change { c := slantBy(30, 40, 70, 90); c.Other = ""; return c }()},
	} {
		got, found := apply(t, c.g, c.step)
		if !found.Has("change.no-pocket") || len(got.Garment().Pieces) != len(c.g.Pieces) {
			t.Errorf("%s: %v", name, told(found))
		}
	}
}

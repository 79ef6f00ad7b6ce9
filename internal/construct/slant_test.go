package construct

import (
	"math"
	"slices"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// slantPockets is the constructed trousers with slant pockets in the place of
// the patch pockets: the front is cut off along the mouth, from 60 mm in at the
// waist to 160 mm down the outseam; a side piece with the back half of the bag
// fills the corner, and the front half of the bag faces the mouth.
func slantPockets() pattern.Garment {
	pt := func(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }
	g := trousers()
	front := outline("front", []string{"hem", "outseam", "mouth", "waist", "centre", "crotch", "inseam"},
		pt(0, 0), pt(200, 0), pt(200, 640), pt(140, 800), pt(0, 800), pt(0, 680), pt(0, 600))
	front.Marks = []piece.Mark{
		{Kind: piece.Notch, Name: "bag", Edge: "waist", At: 60, P: pt(80, 800)},
		{Kind: piece.Notch, Name: "bag-foot", Edge: "outseam", At: 520, P: pt(200, 520)},
	}
	side := outline("side", []string{"low", "side", "waist", "waist-in", "round", "foot"},
		pt(200, 520), pt(200, 640), pt(200, 800), pt(140, 800), pt(80, 800), pt(80, 520))
	bag := outline("bag", []string{"low", "mouth", "waist", "round", "foot"},
		pt(200, 520), pt(200, 640), pt(140, 800), pt(80, 800), pt(80, 520)).Mirror()
	g.Pieces["front"], g.Pieces["side"], g.Pieces["bag"] = front, side, bag
	delete(g.Pieces, "pocket")
	v := &g.View
	v.Uses = append(v.Uses[:5:5], v.Uses[6],
		pattern.Use{Piece: "side", Copies: pattern.Pair, Cloths: []cloth.Role{cloth.Main}},
		pattern.Use{Piece: "bag", Copies: pattern.Pair, Cloths: []cloth.Role{cloth.Main}, Hidden: true})
	around := func(hand string) []piece.Ref { return refs("front@"+hand+":waist", "side@"+hand+":waist") }
	turnedRound := func(hand string) []piece.Ref {
		return refs("side@"+hand+":waist reversed", "front@"+hand+":waist reversed")
	}
	waist := append(around("left"), refs("back@left:waist", "back@right:waist", "side@right:waist", "front@right:waist")...)
	turned := append(refs("front@right:waist reversed", "side@right:waist reversed", "back@right:waist reversed", "back@left:waist reversed"), turnedRound("left")...)
	var joins []pattern.Join
	for _, j := range v.Joins {
		switch j.ID {
		case "pocket":
			joins = append(joins,
				join("mouth", "mouth-topstitched", refs("front:mouth"), refs("bag:mouth")),
				join("bag", "pocket-bag", refs("side:round", "side:foot"), refs("bag:round", "bag:foot")),
				join("bag-waist", "caught", refs("front:waist[mouth..bag]"), refs("bag:waist")),
				join("side-waist", "caught", refs("front:waist[mouth..bag]"), refs("side:waist-in reversed")),
				join("bag-side", "caught", refs("front:outseam[bag-foot..mouth]"), refs("bag:low")),
				join("side-side", "caught", refs("front:outseam[bag-foot..mouth]"), refs("side:low reversed")))
			continue
		case "outseam":
			j.Sides[0] = refs("front:outseam", "side:side")
		case "waist":
			j.Sides[1] = waist
		case "band-inside":
			j.Sides[1] = turned
		}
		joins = append(joins, j)
	}
	v.Joins = joins
	v.Finishes = append(v.Finishes[:1:1], v.Finishes[2:]...)
	v.Closures = append(v.Closures, pattern.Closure{
		ID: "slant", Title: "slant pocket", Method: "slant-pocket", Joins: []string{"mouth"}, Along: refs("front@left:mouth", "front@right:mouth"),
	})
	g.Order = []string{"front", "side", "bag", "back", "facing", "shield", "band", "loops"}
	return g
}

// A closure on both hands needs its notions for each, named with the hands or
// without. By hand: two slits of 140 mm that open by buttons 85 mm apart, the first
// 15 and the last 80 mm from the ends, take (140 - 95) / 85, so one gap and two
// buttons each; two zips that end 10 mm short of the edge are two of 130 mm, not one of 270; and the buttonholes
// of both hands are sewn.
func TestClosureOnBothHands(t *testing.T) {
	for _, along := range [][]piece.Ref{refs("front@left:/slit", "front@right:/slit"), refs("front:/slit")} {
		g := trousers()
		front := g.Pieces["front"]
		front.Lines = append(front.Lines, piece.Line{Kind: piece.Placement, Name: "slit", Curve: geom.Polyline(geom.Pt{X: 100, Y: 640}, geom.Pt{X: 100, Y: 500})})
		g.Pieces["front"] = front
		closed := func(name string) Plan {
			g.View.Closures = append(g.View.Closures[:1:1], pattern.Closure{ID: "slit", Title: "slit", Method: name, Along: along})
			return planOf(t, g, nil)
		}
		var found []Notion
		p := closed("button-front")
		for _, n := range p.Notions() {
			if n.Item == "slit" {
				found = append(found, n)
			}
		}
		if len(found) != 1 || found[0].Count != 4 || math.Abs(found[0].Gap-45) > 1e-9 {
			t.Errorf("%v: %+v", along, found)
		}
		one := library(t)
		button, _ := one.Find("button-front")
		hole := button.Values["button"].MM() + button.Values["button-thickness"].MM() + 3
		k := slices.IndexFunc(p.Operations(), func(o Operation) bool { return o.ID == "slit.holes" })
		if k < 0 || math.Abs(p.Operations()[k].Length-4*hole) > 1e-9 {
			t.Errorf("%v: four holes of %.1f mm are not sewn as such", along, hole)
		}
		found = nil
		for _, n := range closed("zip-centred").Notions() {
			if n.Item == "slit" && n.Kind == "zip" {
				found = append(found, n)
			}
		}
		if len(found) != 1 || found[0].Count != 2 || math.Abs(found[0].Length-130) > 1e-9 {
			t.Errorf("%v: %+v", along, found)
		}
	}
}

// Slant pockets in a garment: every edge is accounted for and every seam walks;
// the mouth is faced, the bag closed and the pocket held at its ends before the
// seams that take them in, the outseam and the waist; its bar tacks come when
// these are sewn (published construction notes on jeans: pockets first, bar
// tacks at the ends of the mouth). By hand: the mouth is the hypotenuse of 60 and
// 160 mm; two mouths have four ends, each tacked over 6 mm and held over 30 mm.
func TestSlantPockets(t *testing.T) {
	p := outfittedPlan(t, slantPockets(), nil)
	by := map[string]Operation{}
	for _, o := range p.Operations() {
		by[o.ID] = o
	}
	if got, want := by["mouth.topstitch@left"].Length, math.Hypot(60, 160); math.Abs(got-want) > 1e-6 {
		t.Errorf("the mouth is topstitched %.2f mm, want %.2f", got, want)
	}
	if tack, hold := by["slant.tack"].Length, by["slant.hold"].Length; tack != 24 || hold != 120 {
		t.Errorf("tacked %.0f mm, held %.0f mm", tack, hold)
	}
	if got := by["bag.sew@right"].Length; math.Abs(got-(280+120)) > 1e-6 {
		t.Errorf("the bag is sewn %.1f mm", got)
	}
	wantOrder(t, p, [][2]string{
		{"mouth.press@left", "slant.hold"}, {"slant.hold", "outseam.sew@left"}, {"slant.hold", "waist.sew"},
		{"outseam.fell@left", "slant.tack"}, {"waist.press", "slant.tack"},
		{"bag.press@left", "waist.sew"},
		// a ply that is turned in at the mouth is held only when it lies inside
		{"mouth.press@left", "bag-side.baste@left"}, {"mouth.press@right", "side-waist.baste@right"},
	})
	if d := demandOn(t, p, "bag@left:mouth"); d.Width != 10 {
		t.Errorf("the bag gets %.1f mm at the mouth", d.Width)
	}
	if d := demandOn(t, p, "side@right:waist"); d.Width != 10 || d.Source != "waist" {
		t.Errorf("the side piece's waist gets %+v", d)
	}
}

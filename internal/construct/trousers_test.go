package construct

import (
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/geom"
	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// outline makes a piece of straight edges from its corners, counter-clockwise,
// printed 15 mm outside.
func outline(name string, names []string, corners ...geom.Pt) piece.Piece {
	p := piece.Piece{Name: name}
	for i, n := range names {
		c := geom.Polyline(corners[i], corners[(i+1)%len(corners)])
		p.Edges = append(p.Edges, piece.Edge{Name: n, Curve: c, Printed: 15})
	}
	return p
}

func box(name string, w, h float64, names ...string) piece.Piece {
	return outline(name, names, geom.Pt{}, geom.Pt{X: w}, geom.Pt{X: w, Y: h}, geom.Pt{Y: h})
}

func refs(texts ...string) []piece.Ref {
	var out []piece.Ref
	for _, s := range texts {
		r, err := piece.ParseRef(s)
		if err != nil {
			panic(err)
		}
		out = append(out, r)
	}
	return out
}

func join(id, name string, sides ...[]piece.Ref) pattern.Join {
	j := pattern.Join{ID: id, Title: id, Sides: sides, Method: name, Each: true}
	for _, side := range sides {
		for _, r := range side {
			j.Each = j.Each && r.Copy == piece.Both
		}
	}
	return j
}

// trousers is a plain pair of trousers: square-cut legs, a fly with facing and
// shield, a band, a patch pocket behind, and loops.
func trousers() pattern.Garment {
	pt := func(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }
	front := outline("front", []string{"hem", "outseam", "waist", "centre", "crotch", "inseam"},
		pt(0, 0), pt(200, 0), pt(200, 800), pt(0, 800), pt(0, 680), pt(0, 600))
	back := outline("back", []string{"hem", "inseam", "crotch", "waist", "outseam"},
		pt(0, 0), pt(220, 0), pt(220, 600), pt(220, 800), pt(0, 800))
	back.Lines = []piece.Line{{Kind: piece.Placement, Name: "pocket",
		Curve: geom.Polyline(pt(60, 700), pt(60, 560), pt(180, 560), pt(180, 700))}}
	pieces := map[string]piece.Piece{
		"front": front, "back": back,
		"facing": box("facing", 40, 120, "foot", "edge", "top", "free"),
		"shield": box("shield", 40, 120, "foot", "fold", "top", "edge"),
		"band":   box("band", 840, 80, "lower", "end-right", "upper", "end-left"),
		"pocket": box("pocket", 120, 140, "bottom", "side-b", "top", "side-a"),
		"loops":  box("loops", 480, 30, "lower", "end-b", "upper", "end-a"),
	}
	main := []cloth.Role{cloth.Main}
	waist := refs("front@left:waist", "back@left:waist", "back@right:waist", "front@right:waist")
	turned := refs("front@right:waist reversed", "back@right:waist reversed", "back@left:waist reversed", "front@left:waist reversed")
	finish := func(id, name string, edges ...string) pattern.Finish {
		return pattern.Finish{ID: id, Edges: refs(edges...), Method: name}
	}
	return pattern.Garment{
		Pieces: pieces,
		View: pattern.View{
			Uses: []pattern.Use{
				{Piece: "front", Copies: pattern.Pair, Cloths: main}, {Piece: "back", Copies: pattern.Pair, Cloths: main},
				{Piece: "facing", Copies: pattern.Single, Cloths: main},
				{Piece: "shield", Copies: pattern.OnFold, FoldEdge: "fold", Folded: true, Cloths: main},
				{Piece: "band", Copies: pattern.Single, Cloths: main},
				{Piece: "pocket", Copies: pattern.Pair, Cloths: main}, {Piece: "loops", Copies: pattern.Single, Cloths: main},
			},
			Joins: []pattern.Join{
				join("pocket", "patch-pocket", refs("pocket:side-a", "pocket:bottom", "pocket:side-b"), refs("back:/pocket reversed")),
				join("outseam", "felled-seam", refs("front:outseam"), refs("back:outseam")),
				join("inseam", "plain-overlocked", refs("front:inseam"), refs("back:inseam")),
				join("fly-facing", "plain-overlocked", refs("front@left:centre"), refs("facing@single:edge")),
				join("fly-shield", "plain-overlocked", refs("front@right:centre"), refs("shield@single:edge")),
				join("crotch", "plain-overlocked", refs("front@left:crotch", "back@left:crotch"), refs("front@right:crotch", "back@right:crotch")),
				join("waist", "waistband", refs("band@single:lower"), waist),
				join("band-inside", "band-inside", refs("band@single:upper"), turned),
			},
			Finishes: []pattern.Finish{
				finish("hem", "double-hem", "front:hem", "back:hem"),
				finish("pocket-top", "self-facing", "pocket:top"),
				finish("fly-edges", "overlocked-edge", "facing:foot", "facing:top", "facing:free", "shield:foot", "shield:top"),
				finish("band-ends", "band-end", "band:end-left", "band:end-right"),
				finish("loop-edges", "loop-edge", "loops:lower", "loops:end-a", "loops:end-b", "loops:upper"),
			},
			Closures: []pattern.Closure{{ID: "fly", Method: "fly-zip", Joins: []string{"fly-facing", "fly-shield"}, Along: refs("front@left:centre")}},
			Parts:    []pattern.Part{{ID: "loops", Method: "belt-loops", Piece: "loops", Count: 6, Joins: []string{"waist"}}},
		},
		Order: []string{"front", "back", "facing", "shield", "band", "pocket", "loops"},
	}
}

func library(t *testing.T) method.Library {
	t.Helper()
	l, found := method.Builtin()
	if len(found) > 0 {
		t.Fatal(found.Codes())
	}
	return l
}

// drill is a cloth 1 mm thick.
func drill() map[cloth.Role]cloth.Cloth {
	return map[cloth.Role]cloth.Cloth{cloth.Main: {Name: "drill", Thickness: unit.MM(1)}}
}

func planOf(t *testing.T, g pattern.Garment, swap map[string]string) Plan {
	t.Helper()
	p, found := Construct(g, library(t), drill(), swap)
	for _, f := range found {
		t.Errorf("%s %s: %s", f.Code(), f.Place, f.Text())
	}
	return p
}

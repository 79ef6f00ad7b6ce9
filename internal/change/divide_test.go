package change

import (
	"math"
	"strings"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/docket"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"

	"pgregory.net/rapid"
)

// banded is a strip 80 by 400 mm, grain along it, sewn by its lower edge to the
// tops of two panels of 200 mm.
func banded(t *testing.T) pattern.Garment {
	t.Helper()
	rect := func(name string, w, h float64, names ...string) piece.Piece {
		at := []geom.Pt{{}, {X: w}, {X: w, Y: h}, {Y: h}}
		p := piece.Piece{Name: name, Title: strings.ToUpper(name[:1]) + name[1:]}
		for i, n := range names {
			p.Edges = append(p.Edges, piece.Edge{Name: n, Curve: geom.Polyline(at[i], at[(i+1)%4]), Printed: 10})
		}
		return p
	}
	band := rect("band", 80, 400, "left-end", "lower", "right-end", "upper")
	band.Lines = []piece.Line{
		{Kind: piece.Grain, Name: "grain", Curve: geom.Polyline(geom.Pt{X: 20, Y: 30}, geom.Pt{X: 20, Y: 120})},
		{Kind: piece.Fold, Name: "fold", Curve: geom.Polyline(geom.Pt{X: 40}, geom.Pt{X: 40, Y: 400})},
	}
	band.Marks = []piece.Mark{
		{Kind: piece.Notch, Name: "side", Edge: "lower", At: 300, P: geom.Pt{X: 80, Y: 300}},
		{Kind: piece.Button, Name: "waist", P: geom.Pt{X: 20, Y: 380}},
	}
	front, back := rect("front", 200, 300, "hem", "right", "top", "left"), rect("back", 200, 300, "hem", "right", "top", "left")
	return pattern.Garment{
		View: pattern.View{
			Uses: []pattern.Use{
				{Piece: "front", Copies: pattern.Single, Cloths: []cloth.Role{cloth.Main}},
				{Piece: "back", Copies: pattern.Single, Cloths: []cloth.Role{cloth.Main}},
				{Piece: "band", Copies: pattern.Single, Cloths: []cloth.Role{cloth.Main, cloth.Interfacing}},
			},
			Joins: []pattern.Join{
				{ID: "waist", Sides: [][]piece.Ref{refs(t, "band:lower"), refs(t, "front:top", "back:top")}},
				{ID: "inner", Sides: [][]piece.Ref{refs(t, "band:upper reversed"), refs(t, "front:top", "back:top")}},
				{ID: "part", Sides: [][]piece.Ref{refs(t, "band:lower[side..right-end]"), refs(t, "front:left[top..hem]")}},
			},
			Finishes: []pattern.Finish{{ID: "ends", Edges: refs(t, "band:left-end", "band:right-end"), Method: "band-end"}},
		},
		Pieces: map[string]piece.Piece{"band": band, "front": front, "back": back},
		Order:  []string{"front", "back", "band"},
	}
}

func at(mm float64) docket.Change {
	return docket.Change{ID: "joint", Kind: docket.Divide, Piece: "band", Where: unit.MM(mm), Method: "plain-open"}
}

// A strip of 400 mm divided at 150 mm is a strip of 150 and one of 250 mm, with
// what lay on each; every reference means the same stretch as before.
func TestDivideKnown(t *testing.T) {
	c, found := apply(t, banded(t), at(150))
	if found.Stops() > 0 {
		t.Fatal(found)
	}
	g := c.Garment()
	near, far := g.Pieces["band"], g.Pieces["band-2"]
	for _, k := range []struct {
		p          piece.Piece
		edge       string
		length     float64
		lines, all int
	}{{near, "lower", 150, 2, 4}, {far, "lower", 250, 2, 4}, {near, "upper", 150, 2, 4}, {near, division, 80, 2, 4}, {far, division, 80, 2, 4}} {
		e, ok := k.p.Edge(k.edge)
		if !ok || math.Abs(e.Curve.Length()-k.length) > 1e-6 || len(k.p.Lines) != k.lines || len(k.p.Edges) != k.all {
			t.Errorf("%s of %s: %.3f mm, want %.0f; %d lines, %d edges", k.edge, k.p.Name, e.Curve.Length(), k.length, len(k.p.Lines), len(k.p.Edges))
		}
	}
	if len(near.Marks) != 0 || len(far.Marks) != 2 || math.Abs(far.Marks[0].At-150) > 1e-6 {
		t.Errorf("marks of the parts: %v, %v", near.Marks, far.Marks)
	}
	// The upper edge runs down from the far end, and is sewn reversed: up from the foot.
	want := map[string]string{"waist": "band:lower band-2:lower", "inner": "band:upper reversed band-2:upper reversed", "part": "band-2:lower[side..right-end]", "joint": "band:division"}
	for _, j := range g.View.Joins {
		var texts []string
		for _, r := range j.Sides[0] {
			texts = append(texts, r.String())
		}
		if got := strings.Join(texts, " "); got != want[j.ID] {
			t.Errorf("%s sews %s, want %s", j.ID, got, want[j.ID])
		}
	}
	if f := g.View.Finishes[0].Edges; f[0].Piece != "band" || f[1].Piece != "band-2" {
		t.Errorf("the ends are finished on %v", f)
	}
	if u, ok := g.Use("band-2"); !ok || len(u.Cloths) != 2 {
		t.Error("the second part is not cut from both cloths")
	}
}

// Wherever a leg of a trouser is divided, the parts together are as large as
// the whole and no seam is longer or shorter than before.
func TestDivideKeepsAreaAndSeams(t *testing.T) {
	whole := leg(t)
	before := misses(whole)
	rapid.Check(t, func(r *rapid.T) {
		name := rapid.SampledFrom([]string{"front", "back"}).Draw(r, "piece")
		step := docket.Change{ID: "joint", Kind: docket.Divide, Piece: name, Where: unit.MM(rapid.Float64Range(20, 980).Draw(r, "at")), Method: "plain-open"}
		c, found := Apply(whole, []docket.Change{step}, unit.Centimetre)
		if found.Stops() > 0 {
			r.Fatal(found)
		}
		g := c.Garment()
		sum := geom.Area(g.Pieces[name].Outline(0.001)) + geom.Area(g.Pieces[name+"-2"].Outline(0.001))
		if was := geom.Area(whole.Pieces[name].Outline(0.001)); math.Abs(sum-was) > 5 {
			r.Errorf("%.1f mm² in two parts, %.1f mm² whole", sum, was)
		}
		after := misses(g)
		for id, was := range before {
			if math.Abs(after[id]-was) > 1e-3 {
				r.Errorf("%s missed by %.4f mm and now by %.4f", id, was, after[id])
			}
		}
		if math.Abs(after["joint@left"]) > 1e-6 {
			r.Errorf("the parts miss each other by %.6f mm", after["joint@left"])
		}
	})
}

func TestDivideRefused(t *testing.T) {
	for _, k := range []struct {
		name string
		mm   float64
		with func(*pattern.Garment)
		code string
	}{
		{"beyond the end", 400, nil, "change.undivided"},
		{"at the end", 10, nil, "change.undivided"},
		{"within a seam's stretch", 350, nil, "change.undivided"},
		{"on the fold", 150, func(g *pattern.Garment) { g.View.Uses[2].Copies = pattern.OnFold }, "change.undivided"},
		{"no such piece", 150, func(g *pattern.Garment) { g.View.Uses = g.View.Uses[:2] }, "change.no-piece"},
	} {
		g := banded(t)
		if k.with != nil {
			k.with(&g)
		}
		if c, found := apply(t, g, at(k.mm)); !found.Has(k.code) || len(c.Applied()) != 0 {
			t.Errorf("%s: %v", k.name, found.Codes())
		}
	}
}

func TestCutFrom(t *testing.T) {
	g := banded(t)
	c, found := apply(t, g, docket.Change{ID: "thin", Kind: docket.CutFrom, Piece: "band", Cloth: cloth.Contrast})
	u, _ := c.Garment().Use("band")
	if found.Stops() > 0 || len(u.Cloths) != 2 || u.Cloths[0] != cloth.Contrast || u.Cloths[1] != cloth.Interfacing {
		t.Errorf("band is cut from %v: %v", u.Cloths, found)
	}
	if was, _ := g.Use("band"); was.Cloths[0] != cloth.Main {
		t.Error("the garment before the step has changed")
	}
	for _, k := range []struct {
		step docket.Change
		code string
	}{
		{docket.Change{ID: "a", Kind: docket.CutFrom, Piece: "bend", Cloth: cloth.Contrast}, "change.no-piece"},
		{docket.Change{ID: "b", Kind: docket.CutFrom, Piece: "band", Cloth: cloth.Main}, "change.nothing"},
	} {
		if _, found := apply(t, g, k.step); !found.Has(k.code) {
			t.Errorf("%s: %v", k.code, found.Codes())
		}
	}
}

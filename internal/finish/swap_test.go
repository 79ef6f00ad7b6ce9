package finish

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"gusset/demo/printed"
	"gusset/internal/cloth"
	"gusset/internal/construct"
	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// Whatever methods a docket chooses for the demo's joins, finishes, closures and
// parts, every
// edge stays accounted for, and a piece is either cut by a sound outline that
// holds the whole of it or left out with a finding that stops.
func TestAnyMethods(t *testing.T) {
	p := printed.Pattern(t, "quay")
	lib, _ := method.Builtin()
	by := map[method.Takes][]string{}
	for _, n := range lib.Names() {
		m, _ := lib.Find(n)
		by[m.Takes] = append(by[m.Takes], n)
	}
	rapid.Check(t, func(r *rapid.T) {
		v := p.Views[rapid.IntRange(0, len(p.Views)-1).Draw(r, "view")]
		size := rapid.IntRange(0, len(p.Sizes)-1).Draw(r, "size")
		g := pattern.Garment{View: v, Pieces: map[string]piece.Piece{}}
		for _, u := range v.Uses {
			g.Pieces[u.Piece] = p.Pieces[u.Piece].In[size]
		}
		swap := map[string]string{}
		for _, j := range v.Joins {
			swap[j.ID] = rapid.SampledFrom(by[method.Join]).Draw(r, j.ID)
		}
		for _, f := range v.Finishes {
			swap[f.ID] = rapid.SampledFrom(by[method.Finish]).Draw(r, f.ID)
		}
		for _, c := range v.Closures {
			swap[c.ID] = rapid.SampledFrom(by[method.Closure]).Draw(r, c.ID)
		}
		for _, p := range v.Parts {
			swap[p.ID] = rapid.SampledFrom(by[method.Part]).Draw(r, p.ID)
		}
		thickness := unit.MM(rapid.Float64Range(0.1, 3).Draw(r, "thickness"))
		cloths := map[cloth.Role]cloth.Cloth{}
		for _, role := range cloth.Roles {
			cloths[role] = cloth.Cloth{Thickness: thickness}
		}
		plan, found := construct.Construct(g, lib, cloths, swap)
		checkCovered(r, plan)
		set, more := Finish(plan)
		want := 0
		for _, u := range plan.Garment().View.Uses { // a method may bring pieces, or do without
			want += len(cutCopies(u)) * len(u.Cloths)
		}
		if len(set.Pieces()) < want && more.Stops() == 0 {
			r.Fatalf("%d of %d pieces and no word: %v", len(set.Pieces()), want, append(found, more...).AtLeast(finding.Stop).Codes())
		}
		for _, c := range set.Pieces() {
			checkSound(r, c)
		}
	})
}

// checkCovered adds up the demands of every edge.
func checkCovered(t rapid.TB, p construct.Plan) {
	t.Helper()
	got := map[string]float64{}
	for _, d := range p.Demands() {
		got[where(d)] += d.To - d.From
	}
	for _, u := range p.Garment().View.Uses {
		for _, c := range u.CopyList() {
			pc, _ := p.Garment().Copy(u.Piece, c)
			for _, e := range pc.Edges {
				name := where(construct.Demand{Piece: u.Piece, Copy: c, Edge: e.Name})
				if math.Abs(got[name]-e.Curve.Length()) > 1e-6 {
					t.Fatalf("%s: %.3f of %.3f mm", name, got[name], e.Curve.Length())
				}
			}
		}
	}
}

// checkSound wants a simple outline, the right way round, round the whole piece.
func checkSound(t rapid.TB, c Cut) {
	t.Helper()
	var pts []geom.Pt
	for _, m := range c.Outline {
		pts = append(pts, pt(float64(m.X)/1000, float64(m.Y)/1000))
	}
	if _, _, _, crosses := geom.SelfCrossing(pts); crosses || geom.Area(pts) <= 0 {
		t.Fatalf("%s has no sound outline", c.ID)
	}
	ring := geom.Polyline(append(pts, pts[0])...)
	for _, q := range c.Sewn.Outline(0.05) {
		if _, miss := ring.Nearest(q); !geom.Inside(pts, q) && miss > 0.02 {
			t.Fatalf("%s: the stitching line leaves the cut piece at %v by %.3f mm", c.ID, q, miss)
		}
	}
}

// A back cut on the fold whose halves are sewn differently cannot be cut so.
func TestHalvesThatDiffer(t *testing.T) {
	half := quad(15, pt(0, 0), pt(200, 0), pt(200, 300), pt(0, 300))
	lib, _ := method.Builtin()
	finish := func(id, name string, r ...piece.Ref) pattern.Finish {
		return pattern.Finish{ID: id, Method: name, Edges: r}
	}
	ref := func(edge string, c piece.Copy) piece.Ref { return piece.Ref{Piece: "panel", Edge: edge, Copy: c} }
	g := pattern.Garment{Pieces: map[string]piece.Piece{"panel": half}, View: pattern.View{
		Uses: []pattern.Use{{Piece: "panel", Copies: pattern.OnFold, FoldEdge: "left", Cloths: []cloth.Role{cloth.Main}}},
		Finishes: []pattern.Finish{
			finish("hem", "single-hem", ref("hem", "")), finish("top", "raw", ref("top", "")),
			finish("a", "raw", ref("right", piece.Left)), finish("b", "band-end", ref("right", piece.Right)),
		},
	}}
	plan, found := construct.Construct(g, lib, map[cloth.Role]cloth.Cloth{cloth.Main: {Thickness: unit.MM(1)}}, nil)
	if len(found) > 0 {
		t.Fatal(found.Codes())
	}
	if _, found := Finish(plan); !found.Has("finish.fold-uneven") {
		t.Errorf("%v", found.Codes())
	}
}

// What the plan makes nothing of is not cut; the plan has said so.
func TestOpenEdgeIsNotCut(t *testing.T) {
	lib, _ := method.Builtin()
	g := pattern.Garment{Pieces: map[string]piece.Piece{"panel": board}, View: pattern.View{
		Uses: []pattern.Use{{Piece: "panel", Copies: pattern.Single, Cloths: []cloth.Role{cloth.Main}}},
		Finishes: []pattern.Finish{{ID: "edges", Method: "raw", Edges: []piece.Ref{
			{Piece: "panel", Edge: "hem"}, {Piece: "panel", Edge: "left"}, {Piece: "panel", Edge: "right"}}}},
	}}
	plan, found := construct.Construct(g, lib, map[cloth.Role]cloth.Cloth{cloth.Main: {Thickness: unit.MM(1)}}, nil)
	set, more := Finish(plan)
	if len(set.Pieces()) != 0 || len(more) != 0 || !found.Has("construct.edge-open") {
		t.Errorf("%d cuts, %v, %v", len(set.Pieces()), found.Codes(), more.Codes())
	}
}

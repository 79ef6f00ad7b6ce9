package change

import (
	"math"
	"testing"

	"gusset/internal/docket"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"

	"pgregory.net/rapid"
)

// Lengthening by d moves the hem by d along the grain and changes no width at
// any level; shortening by the same again brings the ends back (identity).
func TestLengthen(t *testing.T) {
	for _, by := range []string{"2.5 cm", "-1 in", "60 mm", "-60 mm"} {
		g := leg(t)
		d := length(t, by)
		c, found := apply(t, g, docket.Change{Kind: docket.Lengthen, At: "leg", By: d})
		if found.Stops() > 0 {
			t.Fatalf("%s: %v", by, found)
		}
		for name, p := range c.Garment().Pieces {
			was := g.Pieces[name]
			for _, lv := range []string{"hip", "knee", "hem"} {
				a, _ := was.Line(piece.Level, lv)
				b, _ := p.Line(piece.Level, lv)
				ya, yb := height(a.Curve), height(b.Curve)
				want := ya
				if ya < 600 {
					want = ya - d.MM()
				}
				if math.Abs(yb-want) > 1e-9 {
					t.Errorf("%s %s: level %s at %.4f, want %.4f", by, name, lv, yb, want)
				}
				if wa, wb := widthAt(was, ya+0.3), widthAt(p, yb+0.3); math.Abs(wa-wb) > 0.15 { // truing moves corners by up to 0.1 mm
					t.Errorf("%s %s: width at %s %.4f, was %.4f", by, name, lv, wb, wa)
				}
			}
		}
		if w := widest(c.Garment()); w > 0.5 {
			t.Errorf("%s: a seam misses by %.3f mm", by, w)
		}
	}
}

func TestLengthenRefused(t *testing.T) {
	g := leg(t)
	if _, found := apply(t, g, docket.Change{Kind: docket.Lengthen, At: "thigh", By: unit.MM(10)}); !found.Has("change.no-line") {
		t.Error("an unknown line is not told")
	}
	if _, found := apply(t, g, docket.Change{Kind: docket.Lengthen, At: "leg", By: unit.MM(-550)}); !found.Has("change.no-room") && !found.Has("change.fold-over") {
		t.Error("shortening by more than there is goes through")
	}
	// One piece without the line: its partner must not move alone.
	p := g.Pieces["back"].Clone()
	p.Lines = p.Lines[:len(p.Lines)-1]
	g.Pieces["back"] = p
	if c, found := apply(t, g, docket.Change{Kind: docket.Lengthen, At: "leg", By: unit.MM(25)}); !found.Has("change.opens-seam") || len(c.Applied()) != 0 {
		t.Error("a seam is opened without a finding")
	}
}

// The hem comes out at the girth asked for; nothing above the level moves; each
// of the four side edges takes a quarter (CWU Costume Text ch. 17: divide by the
// number of garment seams' edges; its example: 2 in over two side seams is 1/2 in
// an edge).
func TestHemGirth(t *testing.T) {
	for _, to := range []string{"44 cm", "40 cm", "17 in", "56 cm"} {
		g := leg(t)
		want := length(t, to)
		was := g.Pieces["front"].Edges[2].Curve.Length() + g.Pieces["back"].Edges[g.Pieces["back"].Index("hem")].Curve.Length()
		c, found := apply(t, g, docket.Change{Kind: docket.HemGirth, Edge: "hem", To: want, From: "knee"})
		if found.Stops() > 0 {
			t.Fatalf("%s: %v", to, found)
		}
		var got float64
		for name, p := range c.Garment().Pieces {
			hem, _ := p.Edge("hem")
			got += hem.Curve.Length()
			old, _ := g.Pieces[name].Edge("hem")
			quarter := (want.MM() - was) / 4
			if d := hem.Curve.Start().X - old.Curve.Start().X; math.Abs(d+quarter) > 1e-6 {
				t.Errorf("%s %s: left side moved %.4f, want %.4f", to, name, d, -quarter)
			}
			if d := hem.Curve.End().X - old.Curve.End().X; math.Abs(d-quarter) > 1e-6 {
				t.Errorf("%s %s: right side moved %.4f, want %.4f", to, name, d, quarter)
			}
			for _, y := range []float64{451, 600, 800, 950} {
				if a, b := widthAt(p, y), widthAt(g.Pieces[name], y); math.Abs(a-b) > 0.021 {
					t.Errorf("%s %s: width at %.0f changed by %.4f above the knee", to, name, y, a-b)
				}
			}
			if k := sideKinks(p); k > 0.01 {
				t.Errorf("%s %s: a kink of %.4f rad in a side", to, name, k)
			}
		}
		if math.Abs(got-want.MM()) > 0.05 {
			t.Errorf("hem %.3f mm round, want %.3f", got, want.MM())
		}
		if w := widest(c.Garment()); w > 0.1 {
			t.Errorf("%s: a seam misses by %.3f mm", to, w)
		}
		again, _ := apply(t, c.Garment(), docket.Change{ID: "back", Kind: docket.HemGirth, Edge: "hem", To: unit.MM(was), From: "knee"})
		for name, p := range again.Garment().Pieces {
			for _, y := range []float64{100, 300, 440} {
				if a, b := widthAt(p, y), widthAt(g.Pieces[name], y); math.Abs(a-b) > 0.1 {
					t.Errorf("%s %s: there and back again leaves %.4f at %.0f", to, name, a-b, y)
				}
			}
		}
	}
}

// sideKinks is the sharpest turn at a joint of a side that was drawn smooth:
// the knee, where a straight leg meets a curve tangent to the grain, is left
// out by its own drawn angle.
func sideKinks(p piece.Piece) float64 {
	worst := 0.0
	for _, n := range []string{"inseam", "outseam"} {
		e, _ := p.Edge(n)
		for _, jt := range e.Curve.TurnAtJoints() {
			if y := e.Curve.At(jt.At).Y; math.Abs(y-450) > 2 {
				worst = math.Max(worst, math.Abs(jt.Turn))
			}
		}
	}
	return worst
}

func TestHemGirthRefused(t *testing.T) {
	g := leg(t)
	for code, s := range map[string]docket.Change{
		"change.no-hem":    {Kind: docket.HemGirth, Edge: "cuff", To: unit.MM(400), From: "knee"},
		"change.no-level":  {Kind: docket.HemGirth, Edge: "hem", To: unit.MM(400), From: "calf"},
		"change.fold-over": {Kind: docket.HemGirth, Edge: "hem", To: unit.MM(5), From: "knee"},
	} {
		if c, found := apply(t, g, s); !found.Has(code) || len(c.Applied()) > 0 {
			t.Errorf("want %s, got %v", code, found)
		}
	}
}

// A moved hem keeps the slope of the sides: the width changes by the slope
// times the amount (identity of a straight leg below the knee).
func TestMoveHem(t *testing.T) {
	for _, by := range []float64{30, -30, -200, 55} {
		g := leg(t)
		c, found := apply(t, g, docket.Change{Kind: docket.MoveHem, Edge: "hem", By: unit.MM(by)})
		if found.Stops() > 0 {
			t.Fatal(found)
		}
		for name, p := range c.Garment().Pieces {
			hem, _ := p.Edge("hem")
			if y := height(hem.Curve); math.Abs(y+by) > 1e-6 {
				t.Errorf("%s: hem at %.4f, want %.4f", name, y, -by)
			}
			// Both panels are 10 mm narrower at the hem than at the knee, over 450 mm.
			want := g.Pieces[name].Edges[g.Pieces[name].Index("hem")].Curve.Length() - 10*by/450
			if got := hem.Curve.Length(); math.Abs(got-want) > 1e-6 {
				t.Errorf("%s: hem %.5f wide, want %.5f", name, got, want)
			}
			if hem.Steps[0] != "move-hem" {
				t.Errorf("%s: the hem does not name the step", name)
			}
		}
		if w := widest(c.Garment()); w > 0.1 {
			t.Errorf("%.0f: a seam misses by %.3f mm", by, w)
		}
	}
	if _, found := apply(t, leg(t), docket.Change{Kind: docket.MoveHem, Edge: "hem", By: unit.MM(-1200)}); !found.Has("change.hem-too-high") {
		t.Error("a hem above the waist goes through")
	}
}

func TestSetFinish(t *testing.T) {
	g := leg(t)
	c, _ := apply(t, g, docket.Change{
		Kind: docket.SetFinish, Item: "hem", Method: "single-hem",
		Values: map[string]unit.Length{"depth": unit.MM(40)},
	})
	f := c.Garment().View.Finishes[0]
	if f.Method != "single-hem" || f.Values["depth"].MM() != 40 {
		t.Errorf("hem is %+v", f)
	}
	if g.View.Finishes[0].Method != "double-hem" {
		t.Error("the garment given was edited in place")
	}
	if _, found := apply(t, g, docket.Change{Kind: docket.SetFinish, Item: "outsaem", Method: "felled-seam"}); !found.Has("change.no-item") {
		t.Error("an unknown item is not told")
	}
}

// A copied edge has the shape of its model: same length, same depth of curve.
func TestCopyEdge(t *testing.T) {
	g := leg(t)
	p := g.Pieces["front"].Clone()
	i := p.Index("top")
	a, b := p.Edges[i].Curve.Start(), p.Edges[i].Curve.End()
	p.Edges[i].Curve = geom.Curve{geom.Cubic(a, a.Lerp(b, 0.3).Add(geom.Pt{Y: 12}), a.Lerp(b, 0.7).Add(geom.Pt{Y: 12}), b)}
	g.Pieces["front"] = p
	c, found := apply(t, g, docket.Change{Kind: docket.CopyEdge, From: "front:top", Edge: "back:top"})
	if !found.Has("change.edge-length") {
		t.Error("the longer place is not told")
	}
	if len(c.Applied()) == 1 {
		got, _ := c.Garment().Pieces["back"].Edge("top")
		model, _ := p.Edge("top")
		if d := got.Curve.Length() - model.Curve.Length(); math.Abs(d) > 1e-3 { // truing moves its corners by less
			t.Errorf("copied edge differs by %.6f mm in length", d)
		}
	} else if !found.Has("change.opens-seam") {
		t.Errorf("neither applied nor refused with its reason: %v", found)
	}
}

// A pocket whose side is given another shape takes its placement line along:
// the seam still walks, and the line has the pocket's own shape.
func TestPlacementFollows(t *testing.T) {
	g := leg(t)
	corner := []geom.Pt{{X: 60, Y: 700}, {X: -60, Y: 700}, {X: -50, Y: 560}, {X: 50, Y: 560}}
	pocket := piece.Piece{Name: "pocket"}
	for i, n := range []string{"top", "side-in", "bottom", "side-out"} {
		pocket.Edges = append(pocket.Edges, piece.Edge{Name: n, Curve: geom.Polyline(corner[i], corner[(i+1)%4])})
	}
	front := g.Pieces["front"].Clone()
	front.Lines = append(front.Lines, piece.Line{Kind: piece.Placement, Name: "pocket", Curve: geom.Polyline(corner[1], corner[2], corner[3], corner[0])})
	g.Pieces["front"], g.Pieces["pocket"] = front, pocket
	g.View.Uses = append(g.View.Uses, pattern.Use{Piece: "pocket", Copies: pattern.Pair})
	g.View.Joins = append(g.View.Joins, pattern.Join{ID: "pocket", Each: true, Sides: [][]piece.Ref{
		refs(t, "pocket:side-in", "pocket:bottom", "pocket:side-out"), refs(t, "front:/pocket"),
	}})
	model := pocket.Clone()
	model.Name = "model"
	a, b := corner[2], corner[3]
	model.Edges[2].Curve = geom.Curve{geom.Cubic(a, a.Add(geom.Pt{X: 30, Y: -25}), b.Add(geom.Pt{X: -30, Y: -25}), b)}
	g.Pieces["model"] = model
	c, found := apply(t, g, docket.Change{Kind: docket.CopyEdge, From: "model:bottom", Edge: "pocket:bottom"})
	if found.Stops() > 0 || len(c.Applied()) != 1 {
		t.Fatal(found)
	}
	line, _ := c.Garment().Pieces["front"].LineNamed("pocket")
	if _, d := line.Curve.Nearest(model.Edges[2].Curve.At(model.Edges[2].Curve.Length() / 2)); d > 1e-6 {
		t.Errorf("the placement line is %.3f mm off the pocket's new bottom", d)
	}
	if w := widest(c.Garment()); w > 0.05 {
		t.Errorf("a seam misses by %.3f mm", w)
	}
}

// Random recipes: no panic, no outline crossing itself, and every seam within
// the tolerance or the step refused.
func TestRandomRecipes(t *testing.T) {
	base := leg(t)
	rapid.Check(t, func(rt *rapid.T) {
		var steps []docket.Change
		for i := range rapid.IntRange(1, 6).Draw(rt, "steps") {
			s := docket.Change{ID: string(rune('a' + i))}
			level := rapid.SampledFrom([]string{"hip", "knee", "hem", "calf", ""})
			small := rapid.Float64Range(-80, 80)
			switch rapid.IntRange(0, 8).Draw(rt, "kind") {
			case 3:
				s.Kind, s.Item = docket.TakeIn, rapid.SampledFrom([]string{"outseam", "inseam", "side"}).Draw(rt, "seam")
				s.At, s.From, s.Upto, s.By = level.Draw(rt, "at"), level.Draw(rt, "from"), level.Draw(rt, "to"), unit.MM(small.Draw(rt, "by"))
			case 4:
				s.Kind, s.At, s.By = docket.CrotchDepth, level.Draw(rt, "at"), unit.MM(small.Draw(rt, "by"))
			case 5:
				s.Kind, s.Item, s.From, s.By = docket.CrotchLength, "inseam", level.Draw(rt, "from"), unit.MM(small.Draw(rt, "by"))
			case 6:
				s.Kind, s.Item, s.At, s.By = docket.FullSeat, "inseam", level.Draw(rt, "at"), unit.MM(small.Draw(rt, "by"))
			case 7:
				s.Kind, s.Edge, s.By = docket.RaiseEdge, "top", unit.MM(small.Draw(rt, "by"))
			case 8:
				s.Kind, s.Edge, s.From, s.To = docket.Straighten, "hem", level.Draw(rt, "from"), unit.MM(rapid.Float64Range(100, 900).Draw(rt, "to"))
			case 0:
				s.Kind, s.At, s.By = docket.Lengthen, "leg", unit.MM(rapid.Float64Range(-150, 150).Draw(rt, "by"))
			case 1:
				s.Kind, s.Edge, s.From, s.To = docket.HemGirth, "hem", "knee", unit.MM(rapid.Float64Range(100, 900).Draw(rt, "to"))
			case 2:
				s.Kind, s.Edge, s.By = docket.MoveHem, "hem", unit.MM(rapid.Float64Range(-400, 200).Draw(rt, "by"))
			}
			steps = append(steps, s)
		}
		c, _ := Apply(base, steps, unit.Centimetre)
		for name, p := range c.Garment().Pieces {
			for _, q := range p.Outline(0.05) {
				if !q.Finite() {
					rt.Fatalf("%s has a corner at %v", name, q)
				}
			}
			if q, _, _, crosses := geom.SelfCrossing(p.Outline(0.05)); crosses {
				rt.Fatalf("%s crosses itself at %v", name, q)
			}
		}
		for id, miss := range misses(c.Garment()) {
			if math.Abs(miss) > 0.5 {
				rt.Fatalf("%s misses by %.3f mm without a finding", id, miss)
			}
		}
	})
}

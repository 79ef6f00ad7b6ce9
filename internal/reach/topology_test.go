package reach

import (
	"math"
	"slices"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/construct"
	"gusset/internal/geom"
	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// outline makes a piece of straight edges from its corners, counter-clockwise.
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

// join sews two edges by a method; it is made for each hand when no copy is
// named.
func join(id, name string, a, b string) pattern.Join {
	j := pattern.Join{ID: id, Title: id, Sides: [][]piece.Ref{refs(a), refs(b)}, Method: name, Each: true}
	for _, side := range j.Sides {
		for _, r := range side {
			j.Each = j.Each && r.Copy == piece.Both
		}
	}
	return j
}

func finish(id, name string, edges ...string) pattern.Finish {
	return pattern.Finish{ID: id, Title: id, Edges: refs(edges...), Method: name}
}

// garment is a view of pieces, each cut as a pair unless named in single.
func garment(pieces []piece.Piece, single []string, v pattern.View) pattern.Garment {
	g := pattern.Garment{Pieces: map[string]piece.Piece{}, View: v}
	for _, p := range pieces {
		g.Pieces[p.Name] = p
		g.Order = append(g.Order, p.Name)
		u := pattern.Use{Piece: p.Name, Copies: pattern.Pair, Cloths: []cloth.Role{cloth.Main}}
		if slices.Contains(single, p.Name) {
			u.Copies = pattern.Single
		}
		g.View.Uses = append(g.View.Uses, u)
	}
	return g
}

// planned constructs a garment of a cloth 0.8 mm thick. Edges that nothing is
// said of are not at issue here.
func planned(t testing.TB, g pattern.Garment) construct.Plan {
	t.Helper()
	library, found := method.Builtin()
	if len(found) > 0 {
		t.Fatal(found.Codes())
	}
	cloths := map[cloth.Role]cloth.Cloth{cloth.Main: {Name: "drill", Thickness: unit.MM(0.8)}}
	p, found := construct.Construct(g, library, cloths, nil)
	for _, f := range found {
		if f.Code() != "construct.edge-open" {
			t.Fatalf("%s %s: %s", f.Code(), f.Place, f.Text())
		}
	}
	return p
}

// legs is a pair of trousers of four panels: width is half the leg's girth,
// and a leg is 740 long below the fork.
func legs(width float64, outseam, inseam string) pattern.Garment {
	pt := func(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }
	front := outline("front", []string{"hem", "outseam", "waist", "crotch", "inseam"},
		pt(0, 0), pt(width, 0), pt(width, 1000), pt(0, 1000), pt(0, 740))
	back := outline("back", []string{"hem", "inseam", "crotch", "waist", "outseam"},
		pt(0, 0), pt(width, 0), pt(width, 740), pt(width, 1000), pt(0, 1000))
	return garment([]piece.Piece{front, back}, nil, pattern.View{
		Joins: []pattern.Join{
			join("outseam", outseam, "front:outseam", "back:outseam"),
			join("inseam", inseam, "front:inseam", "back:inseam"),
			join("front-crotch", "plain-overlocked", "front@left:crotch", "front@right:crotch"),
			join("back-crotch", "plain-overlocked", "back@left:crotch", "back@right:crotch"),
		},
		Finishes: []pattern.Finish{finish("hem", "double-hem", "front:hem", "back:hem"), finish("waist", "double-hem", "front:waist", "back:waist")},
	})
}

// sewnSeams is the state with seams sewn, by their names.
func sewnSeams(s *surface, names ...string) sewn {
	done := make(sewn, len(s.seams))
	for i, m := range s.seams {
		done[i] = slices.Contains(names, m.ID)
	}
	return done
}

// The four panels of a pair of trousers, worked out by hand: a flat piece has
// χ 1 and one opening, a leg closed at both seams χ 0 and two, both legs
// together 0 and 4, with the front crotch sewn −1 and three (waist slit open
// down the back, two hems), with the back crotch still −1 and three.
func TestTrousersStageByStage(t *testing.T) {
	p := planned(t, legs(200, "plain-overlocked", "plain-overlocked"))
	s := newSurface(p.Garment(), p.Seams())
	var done []string
	for _, stage := range []struct {
		seam                   string
		parts, euler, openings int
		rounds                 []float64
	}{
		{"", 4, 4, 4, nil},
		{"outseam@left", 3, 3, 3, nil},
		{"inseam@left", 3, 2, 4, nil},
		{"outseam@right", 2, 1, 3, nil},
		{"inseam@right", 2, 0, 4, []float64{400, 400, 920, 920}},
		{"front-crotch", 1, -1, 3, []float64{400, 400, 1320}},
		{"back-crotch", 1, -1, 3, []float64{400, 400, 800}},
	} {
		done = append(done, stage.seam)
		st := s.after(sewnSeams(s, done...))
		euler := 0
		for _, p := range st.parts {
			euler += p.euler
		}
		if len(st.parts) != stage.parts || euler != stage.euler || len(st.rounds) != stage.openings {
			t.Errorf("after %s: %d parts, χ %d, %d openings; want %d, %d, %d", stage.seam, len(st.parts), euler, len(st.rounds), stage.parts, stage.euler, stage.openings)
		}
		if rounds := slices.Sorted(slices.Values(st.rounds)); stage.rounds != nil && !near(rounds, stage.rounds) {
			t.Errorf("after %s: openings of %.0f mm, want %.0f", stage.seam, rounds, stage.rounds)
		}
	}
}

func near(a, b []float64) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if math.Abs(a[i]-b[i]) > 1e-6 {
			return false
		}
	}
	return true
}

// On the finished trousers the loop through a point at the knee goes round one
// leg. At the side of the waist the shortest goes down to the fork in front, 260
// below and 200 across, and up again behind: round one leg too.
func TestGirths(t *testing.T) {
	p := planned(t, legs(200, "plain-overlocked", "plain-overlocked"))
	s := newSurface(p.Garment(), p.Seams())
	all := make(sewn, len(s.seams))
	for i := range all {
		all[i] = true
	}
	st := s.after(all)
	for _, c := range []struct{ up, girth, depth float64 }{{0, 400, 0}, {360, 400, 360}, {720, 400, 280}, {1000, 2 * math.Hypot(200, 260), 0}} {
		f := st.tight(s.sideAt(t, c.up), 300)
		if math.Abs(f.girth-c.girth) > 2 || math.Abs(f.depth-c.depth) > 2 {
			t.Errorf("%.0f up the side: girth %.1f, depth %.1f; want %.0f, %.0f", c.up, f.girth, f.depth, c.girth, c.depth)
		}
	}
	flat := s.after(make(sewn, len(s.seams)))
	if f := flat.tight(s.sideAt(t, 360), 300); !math.IsInf(f.girth, 1) || f.depth != 0 {
		t.Errorf("a flat piece has a tube of %.1f, %.1f deep", f.girth, f.depth)
	}
}

// sideAt is the node of the left front's outseam that lies so far up.
func (s *surface) sideAt(t *testing.T, up float64) start {
	t.Helper()
	for _, i := range s.byEdge[onEdge{copyOf{"front", piece.Left}, "outseam"}] {
		for _, n := range s.arcs[i].nodes {
			if math.Abs(s.nodes[n].at.Y-up) < 1 {
				return start{s.nodes[n].point, n, s.tangent(i, n)}
			}
		}
	}
	t.Fatalf("no node %.0f up", up)
	return start{}
}

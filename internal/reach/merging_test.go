package reach

import (
	"math"
	"slices"
	"testing"

	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/seam"
)

// balloons are trousers for a figure of the puppet stage: two legs that are wide in
// the middle, 600 round, and narrow at both ends. A leg's hem is 200 round, its
// top 2 × 110 and the four crotch edges of 20: 260.
func balloons() pattern.Garment {
	pt := func(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }
	front := outline("front", []string{"hem", "side-low", "side", "side-top", "waist", "crotch", "in-top", "in", "in-low"},
		pt(100, 0), pt(200, 0), pt(300, 150), pt(300, 600), pt(205, 760), pt(95, 760), pt(95, 740), pt(0, 600), pt(0, 150))
	back := outline("back", []string{"hem", "in-low", "in", "in-top", "crotch", "waist", "side-top", "side", "side-low"},
		pt(100, 0), pt(200, 0), pt(300, 150), pt(300, 600), pt(205, 740), pt(205, 760), pt(95, 760), pt(0, 600), pt(0, 150))
	v := pattern.View{Joins: []pattern.Join{
		join("front-crotch", "plain-overlocked", "front@left:crotch", "front@right:crotch"),
		join("back-crotch", "plain-overlocked", "back@left:crotch", "back@right:crotch"),
	}}
	for _, e := range []string{"side-low", "side-top", "in-low", "in", "in-top"} {
		v.Joins = append(v.Joins, join(e, "plain-overlocked", "front:"+e, "back:"+e))
	}
	v.Joins = append(v.Joins, join("side", "lapped-topstitched", "front:side", "back:side"))
	return garment([]piece.Piece{front, back}, nil, v)
}

// With all other seams of a leg sewn the arm, which wants 280 and 20 of ease, goes
// in neither by the hem nor by the top: the side is topstitched by hand. Once the
// front crotch makes one opening of the two tops, 2 × 260 less twice the 20 of the
// seam on either leg, 480, the arm goes in and 600 of girth are laid open. With
// the back crotch 440 are left, the waist: still wide enough.
func TestTwoLegTopsMakeAWaist(t *testing.T) {
	p := planned(t, balloons())
	s := Look(p, bench)
	leg := []string{"side.turn@left", "side.lay@left"}
	var seams []string
	for _, e := range []string{"side-low", "side-top", "in-low", "in", "in-top"} {
		leg = append(leg, e+".sew@left", e+".sew@right")
		seams = append(seams, e+"@left", e+"@right")
	}
	leg = append(leg, "side.topstitch@right")
	seams = append(seams, "side@left", "side@right")
	for _, c := range []struct {
		crotch   []string
		want     Level
		openings []float64
	}{
		{nil, ByHand, []float64{200, 200, 260, 260}},
		{[]string{"front-crotch"}, Easy, []float64{200, 200, 480}},
		{[]string{"front-crotch", "back-crotch"}, Easy, []float64{200, 200, 440}},
	} {
		ids := slices.Clone(leg)
		for _, j := range c.crotch {
			ids = append(ids, j+".sew")
		}
		if a := s.At("side.topstitch@left", done(ids...)); a.Level != c.want {
			t.Errorf("crotch %v: %s, %+v", c.crotch, a.Level, a)
		}
		st := s.surface.after(sewnSeams(s.surface, slices.Concat(seams, c.crotch)...))
		if rounds := slices.Sorted(slices.Values(st.rounds)); !near(rounds, c.openings) {
			t.Errorf("crotch %v: openings of %.0f, want %.0f", c.crotch, rounds, c.openings)
		}
	}
	if c := only(t, s, "side.topstitch@left"); !c.Falls() {
		t.Errorf("%v closes and nothing opens again", c.Closers)
	}
}

// On the demo's long trousers the same happens as on paper: closing the fork
// makes one opening of two leg tops, as long as both less the seam on either side
// of each leg. They are wide throughout, so that nothing gets easier by it and the
// planner has no reason to wait.
func TestDemoLegTopsMerge(t *testing.T) {
	p := quay(t, "long", 3)
	s := newSurface(p.Garment(), p.Seams())
	legs := []string{"yoke-seam@left", "yoke-seam@right", "outseam@left", "outseam@right", "inseam@left", "inseam@right"}
	rounds := func(names ...string) []float64 {
		st := s.after(sewnSeams(s, names...))
		i := s.byEdge[onEdge{copyOf{"front", piece.Left}, "hem"}][0]
		j := s.byEdge[onEdge{copyOf{"front", piece.Right}, "hem"}][0]
		var out []float64
		for o, r := range st.rounds {
			here := st.part[s.arcs[i].face] == st.openingPart(o) || st.part[s.arcs[j].face] == st.openingPart(o)
			if here && o != st.opening[i] && o != st.opening[j] {
				out = append(out, r)
			}
		}
		return slices.Sorted(slices.Values(out))
	}
	apart := rounds(legs...)
	if len(apart) != 2 {
		t.Fatalf("leg tops %.0f", apart)
	}
	var fork, seat float64
	for _, m := range p.Seams() {
		for _, side := range m.Sides[:2] {
			switch m.ID {
			case "fork":
				fork += seam.ChainLength(side)
			case "seat":
				seat += seam.ChainLength(side)
			}
		}
	}
	for _, c := range []struct {
		sewn []string
		want float64
	}{{[]string{"fork"}, apart[0] + apart[1] - fork}, {[]string{"fork", "seat"}, apart[0] + apart[1] - fork - seat}} {
		got := rounds(slices.Concat(legs, c.sewn)...)
		if len(got) != 1 || math.Abs(got[0]-c.want) > 1 {
			t.Errorf("with %v sewn: openings %.1f, want %.1f", c.sewn, got, c.want)
		}
	}
	for _, c := range Look(p, bench).Conditions() {
		if c.Falls() {
			t.Errorf("%s waits for an opening", c.Op)
		}
	}
}

// openingPart is the part that an opening belongs to.
func (t *state) openingPart(o int) int {
	return slices.IndexFunc(t.parts, func(p part) bool { return slices.Contains(p.openings, o) })
}

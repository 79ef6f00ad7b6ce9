package order

import (
	"slices"
	"strings"
	"testing"

	"gusset/demo/printed"
	"gusset/internal/cloth"
	"gusset/internal/construct"
	"gusset/internal/geom"
	"gusset/internal/machine"
	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// yoked is a back of yoke and panel on a front: the side seam runs over the end of
// the yoke seam.
func yoked(t *testing.T) construct.Plan {
	t.Helper()
	box := func(name string, w, h float64, names ...string) piece.Piece {
		p := piece.Piece{Name: name}
		c := []geom.Pt{{}, {X: w}, {X: w, Y: h}, {Y: h}}
		for i, n := range names {
			p.Edges = append(p.Edges, piece.Edge{Name: n, Curve: geom.Polyline(c[i], c[(i+1)%4]), Printed: 15})
		}
		return p
	}
	refs := func(texts ...string) []piece.Ref {
		var out []piece.Ref
		for _, s := range texts {
			r, err := piece.ParseRef(s)
			if err != nil {
				t.Fatal(err)
			}
			out = append(out, r)
		}
		return out
	}
	g := pattern.Garment{
		Pieces: map[string]piece.Piece{
			"yoke":  box("yoke", 200, 100, "seam", "side", "top", "centre"),
			"panel": box("panel", 200, 400, "hem", "side", "seam", "centre"),
			"front": box("front", 200, 500, "hem", "centre", "top", "side"),
		},
		Order: []string{"yoke", "panel", "front"},
		View: pattern.View{Joins: []pattern.Join{
			{ID: "yoke-seam", Title: "yoke seam", Method: "plain-open", Sides: [][]piece.Ref{refs("panel:seam"), refs("yoke:seam")}},
			{ID: "side", Title: "side seam", Method: "plain-open", Sides: [][]piece.Ref{refs("panel:side", "yoke:side"), refs("front:side")}},
		}},
	}
	for _, p := range g.Order {
		g.View.Uses = append(g.View.Uses, pattern.Use{Piece: p, Copies: pattern.Single, Cloths: []cloth.Role{cloth.Main}})
	}
	library, found := method.Builtin()
	if found.Stops() > 0 {
		t.Fatal(found.Codes())
	}
	p, found := construct.Construct(g, library, map[cloth.Role]cloth.Cloth{cloth.Main: {Thickness: unit.MM(0.8)}}, nil)
	for _, f := range found {
		if f.Code() != "construct.edge-open" {
			t.Fatalf("%s: %s", f.Code(), f.Text())
		}
	}
	return p
}

// A seam is pressed before another is sewn across its end (common practice).
// The planner would save changes by pressing both at once, and does so where it
// is let: so this test would see a press that is dropped.
func TestPressBeforeCrossing(t *testing.T) {
	p := yoked(t)
	ops := p.Operations()
	s, found := Plan(ops, nil, nil, Costs{})
	if len(found) > 0 {
		for _, f := range found {
			if f.Code() != "order.machine-missing" {
				t.Errorf("%s: %s", f.Code(), f.Text())
			}
		}
	}
	order := listedIDs(s)
	if len(order) != len(ops) {
		t.Errorf("%d steps for %d operations", len(order), len(ops))
	}
	press, across := slices.Index(order, "yoke-seam.press"), slices.Index(order, "side.sew")
	if press < 0 || press > across {
		t.Errorf("the yoke seam is pressed in step %d, crossed in step %d", press+1, across+1)
	}
	if n := walks(s); n != 2 {
		t.Errorf("%d trips to the iron, not one for each seam", n)
	}

	free := slices.Clone(ops)
	for i, o := range free {
		if o.Item == "side" {
			free[i].After = slices.DeleteFunc(slices.Clone(o.After), func(id string) bool { return strings.HasPrefix(id, "yoke-seam.press") })
			if o.ID == "side.sew" {
				free[i].After = append(free[i].After, "yoke-seam.sew")
			}
		}
	}
	tempted, _ := Plan(free, nil, nil, Costs{})
	if tempted.Changes() >= s.Changes() || walks(tempted) != 1 {
		t.Errorf("with the press left free: %d changes, not fewer than %d", tempted.Changes(), s.Changes())
	}

	j, late := Judge("printed", listed(t, "yoke-seam.overlock-a", "yoke-seam.overlock-b", "yoke-seam.sew", "side.overlock-a", "side.overlock-b", "side.sew",
		"yoke-seam.press", "side.press"), ops, nil, Times{})
	if !slices.Contains(late.Codes(), "order.out-of-turn") || len(j.Late()) != 1 || j.Late()[0].Need.ID != "yoke-seam.press" {
		t.Errorf("an order that presses too late: %v %+v", late.Codes(), j.Late())
	}
}

// In the plan of every garment here, the demo's trousers among them, each seam is
// pressed before another crosses its end. The crossings are read off the sides: a
// side that goes on from one piece to the next runs over the seam between the two.
func TestEveryCrossingIsPressed(t *testing.T) {
	for name, c := range map[string]struct {
		plan  construct.Plan
		least int
	}{"yoked": {yoked(t), 1}, "long": {trousersPlan(t, "long"), 4}, "cropped": {trousersPlan(t, "cropped"), 4}} {
		s, found := Plan(c.plan.Operations(), nil, nil, Costs{})
		if found.Stops() > 0 {
			t.Fatal(found.Codes())
		}
		if n := crossingsPressed(t, c.plan, listedIDs(s)); n < c.least {
			t.Errorf("%s: %d crossings, at least %d are known: yoke seams under the outseams, under the seat seam", name, n, c.least)
		}
	}
}

// trousersPlan is a view of the demo's trousers in one printed size.
func trousersPlan(t *testing.T, view string) construct.Plan {
	t.Helper()
	g := printed.View(t, "quay", view, 3)
	library, _ := method.Builtin()
	c := cloth.Cloth{Thickness: unit.MM(0.6)}
	plan, found := construct.Construct(g, library, map[cloth.Role]cloth.Cloth{cloth.Main: c, cloth.Pocketing: c, cloth.Interfacing: c}, nil)
	if found.Stops() > 0 {
		t.Fatal(found.Codes())
	}
	return plan
}

// crossingsPressed checks an order and counts the crossings.
func crossingsPressed(t *testing.T, p construct.Plan, order []string) int {
	t.Helper()
	n := 0
	for _, across := range p.Seams() {
		for _, side := range across.Sides {
			for k := 1; k < len(side); k++ {
				for _, under := range p.Seams() {
					if under.ID == across.ID || !joins(under, side[k-1], side[k]) {
						continue
					}
					n++
					sewn := slices.IndexFunc(order, func(id string) bool {
						return slices.ContainsFunc(p.Operations(), func(o construct.Operation) bool { return o.ID == id && o.Seam == across.ID && o.Closes })
					})
					for _, o := range p.Operations() {
						if o.Seam == under.ID && o.Machine == machine.Iron && slices.Index(order, o.ID) > sewn {
							t.Errorf("%s comes after %s is sewn across it", o.ID, across.ID)
						}
					}
				}
			}
		}
	}
	return n
}

// joins reports whether a seam has one stretch's copy on its first side and the
// other's on its second.
func joins(s construct.Seam, a, b construct.Stretch) bool {
	has := func(side []construct.Stretch, x construct.Stretch) bool {
		return slices.ContainsFunc(side, func(y construct.Stretch) bool { return y.Piece == x.Piece && y.Copy == x.Copy })
	}
	return has(s.Sides[0], a) && has(s.Sides[1], b) || has(s.Sides[0], b) && has(s.Sides[1], a)
}

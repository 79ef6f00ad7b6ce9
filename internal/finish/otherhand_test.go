package finish

import (
	"slices"
	"testing"

	"gusset/demo/printed"
	"gusset/internal/cloth"
	"gusset/internal/construct"
	"gusset/internal/geom"
	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// The right copy of a pair that are alike is the left turned over. Drawn by itself, as
// it is where the hands differ, it has the same cut line, slits, folds and
// labels: its parallels are fitted from the other end, within 0.01 mm.
func TestOtherHand(t *testing.T) {
	lib, _ := method.Builtin()
	cloths := map[cloth.Role]cloth.Cloth{}
	for _, role := range cloth.Roles {
		cloths[role] = cloth.Cloth{Thickness: unit.MM(0.6)}
	}
	for name, least := range map[string]int{"quay": 50, "weir": 4, "mooring": 20} {
		p := printed.Pattern(t, name)
		pairs, intakes := 0, 0
		for _, v := range p.Views {
			for size := range p.Sizes {
				g := pattern.Garment{View: v, Pieces: map[string]piece.Piece{}, Order: p.Order}
				for _, u := range v.Uses {
					g.Pieces[u.Piece] = p.Pieces[u.Piece].In[size]
				}
				plan, _ := construct.Construct(g, lib, cloths, nil)
				b := builderOf(plan)
				for _, u := range plan.Garment().View.Uses {
					if !b.alike(u) {
						continue
					}
					for _, role := range u.Cloths {
						left, ok1 := b.cut(u, piece.Left, role)
						right, ok2 := b.cut(u, piece.Right, role)
						if !ok1 || !ok2 {
							t.Fatalf("%s %s is not cut", name, u.Piece)
						}
						pairs++
						for _, d := range b.demands[copyKey{u.Piece, piece.Left}] {
							if d.Kind == construct.ForIntake {
								intakes++
							}
						}
						sameCut(t, b.otherHand(u, left), right)
					}
				}
			}
		}
		t.Logf("%s: %d pairs, %d intakes", name, pairs, intakes)
		if pairs < least {
			t.Errorf("%s: only %d pairs are alike", name, pairs)
		}
	}
}

// sameCut compares two drawings of one copy.
func sameCut(t *testing.T, got, want Cut) {
	t.Helper()
	if !mirrored(turnedOver(got.Outline), want.Outline) {
		t.Errorf("%s: another cut line", want.ID)
	}
	if got.ID != want.ID || got.Copy != want.Copy || got.Title != want.Title || got.Cloth != want.Cloth || len(got.Matched) != len(want.Matched) {
		t.Errorf("%s of %s is called %s", want.ID, want.Cloth, got.ID)
	}
	ring := func(c Cut) geom.Curve {
		return geom.Polyline(append(c.Exact[:len(c.Exact):len(c.Exact)], c.Exact[0])...)
	}
	for _, pair := range [][2]Cut{{got, want}, {want, got}} {
		for _, q := range pair[0].Exact {
			if _, miss := ring(pair[1]).Nearest(q); miss > 0.02 {
				t.Errorf("%s: the line that is printed is %.3f mm off", want.ID, miss)
			}
		}
	}
	if len(got.Notches) != len(want.Notches) || len(got.Turns) != len(want.Turns) || len(got.Allowances) != len(want.Allowances) {
		t.Fatalf("%s %v %v %v: %d slits, %d folds and %d labels, want %d, %d and %d", want.ID, got.Notches, want.Notches, want.Sewn.Marks, len(got.Notches), len(got.Turns), len(got.Allowances), len(want.Notches), len(want.Turns), len(want.Allowances))
	}
	for _, n := range got.Notches {
		if !slices.ContainsFunc(want.Notches, func(m [2]geom.Pt) bool { return n[0].Dist(m[0])+n[1].Dist(m[1]) < 0.02 }) {
			t.Errorf("%s: no slit at %v", want.ID, n)
		}
	}
	for _, c := range got.Turns {
		if !slices.ContainsFunc(want.Turns, func(m geom.Curve) bool { return c.Start().Dist(m.Start())+c.End().Dist(m.End()) < 0.02 }) {
			t.Errorf("%s: no fold from %v to %v", want.ID, c.Start(), c.End())
		}
	}
	for i, a := range got.Allowances {
		m := want.Allowances[i]
		if a.Edge != m.Edge || a.Note != m.Note || a.Width != m.Width || a.At.Dist(m.At) > 0.02 {
			t.Errorf("%s: label %+v, want %+v", want.ID, a, m)
		}
	}
}

package finish

import (
	"math"
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

// demoCuts cuts one view of the demo pattern in one printed size.
func demoCuts(t *testing.T, p pattern.Pattern, v pattern.View, size int) []Cut {
	t.Helper()
	g := printed.Garment(p, v, size)
	lib, _ := method.Builtin()
	cloths := map[cloth.Role]cloth.Cloth{
		cloth.Main:        {Thickness: unit.MM(0.6)},
		cloth.Pocketing:   {Thickness: unit.MM(0.3)},
		cloth.Interfacing: {Thickness: unit.MM(0.2)},
	}
	plan, found := construct.Construct(g, lib, cloths, nil)
	if len(found) > 0 {
		t.Fatalf("%s: %v", v.Name, found.Codes())
	}
	set, found := Finish(plan)
	for _, f := range found {
		t.Errorf("%s in %s: %s %s: %s", v.Name, p.Sizes[size], f.Code(), f.Place.OnGarment(), f.Text())
	}
	return set.Pieces()
}

// Every piece of the demo pattern can be cut in every view and size.
func TestDemo(t *testing.T) {
	p := printed.Pattern(t, "quay")
	for _, v := range p.Views {
		want := 0
		for _, u := range v.Uses {
			want += len(cutCopies(u)) * max(u.Number, 1) * len(u.Cloths)
		}
		for i := range p.Sizes {
			cuts := demoCuts(t, p, v, i)
			if len(cuts) != want {
				t.Errorf("%s in %s: %d cuts, want %d", v.Name, p.Sizes[i], len(cuts), want)
			}
			checkDistances(t, cuts)
			checkPairs(t, cuts)
		}
	}
}

// checkPairs: what is called a pair is a mirror image to the micrometre.
// Otherwise no lay would dare to cut the two as one on a fold.
func checkPairs(t *testing.T, cuts []Cut) {
	t.Helper()
	for _, c := range cuts {
		if c.Pair == "" || c.Copy != piece.Left {
			continue
		}
		k := slices.IndexFunc(cuts, func(o Cut) bool { return o.ID == c.Pair && o.Cloth == c.Cloth })
		if k < 0 || cuts[k].Pair != c.ID || !slices.Equal(cuts[k].Outline, turnedOver(c.Outline)) {
			t.Errorf("%s and %s are no mirror images", c.ID, c.Pair)
		}
	}
}

// checkDistances measures cut lines against stitching lines: square out from
// the middle of every stretch the cut line lies at the allowance, and nowhere is
// it nearer than the least allowance of the piece, mitred corners aside.
func checkDistances(t *testing.T, cuts []Cut) {
	t.Helper()
	for _, c := range cuts {
		ring := geom.Polyline(append(slices.Clone(c.Exact), c.Exact[0])...)
		least := mitreRoom
		for _, a := range c.Allowances {
			least = min(least, a.Width)
			e, _ := c.Sewn.Edge(a.Edge)
			at, _ := e.Curve.Nearest(a.At)
			out := a.At.Sub(e.Curve.TangentAt(at).Left().Mul(a.Width))
			if _, miss := ring.Nearest(out); miss > 0.02 {
				t.Errorf("%s:%s: the cut line is %.3f mm off its allowance of %.2f", c.ID, a.Edge, miss, a.Width)
			}
		}
		for _, q := range c.Exact {
			nearest := 1e9
			for _, e := range c.Sewn.Edges {
				_, d := e.Curve.Nearest(q)
				nearest = min(nearest, d)
			}
			if nearest < least-0.02 {
				t.Errorf("%s: cut %.2f mm from the stitching line, least allowance %.2f", c.ID, nearest, least)
				break
			}
		}
	}
}

// A notch where two allowances of one edge meet is cut on both hands: the foot of the
// demo skirt's zip, with its closure above and the plain seam below.
func TestNotchBetweenAllowances(t *testing.T) {
	cuts := cutOf(t, printed.Pattern(t, "weir"), "knee", 2, nil)
	for _, id := range []string{"back@left", "back@right"} {
		c := cuts[id]
		foot, ok := c.Sewn.Notch("centre", "zip-foot")
		if !ok || !slices.ContainsFunc(c.Notches, func(n [2]geom.Pt) bool { return math.Abs(n[0].Y-foot.P.Y) < 1 }) {
			t.Errorf("%s has no slit at the foot of the zip: %v", id, c.Notches)
		}
	}
}

package demo

import (
	"context"
	"fmt"
	"math"
	"testing"

	"gusset/internal/docket"
	"gusset/internal/geom"
	"gusset/internal/making"
	"gusset/internal/pattern"
	"gusset/internal/unit"
)

// facedStretches are the facings of the Weir with the stretches that they face.
var facedStretches = map[string][]string{"front": {"waist-side", "waist-centre"}, "back": {"waist-side", "waist-middle", "waist-centre"}}

// A facing is cut from the edge that it faces (common practice): when the waist
// changes, the facing of each piece changes by as much as that piece, not only all
// of them together; it stays as deep as it was, its ends keep their direction, and
// what lies on the fold stays there.
func TestFacingsFollowOverDarts(t *testing.T) {
	inSizes(t, weir, func(t *testing.T, g pattern.Garment) {
		for _, step := range []docket.Change{
			{Kind: docket.TakeIn, Item: "side", By: unit.MM(10), At: "hip"},
			{Kind: docket.TakeIn, Item: "side", By: unit.MM(-12), At: "waist", From: "hip"},
			{Kind: docket.RaiseEdge, Edge: "waist", By: unit.MM(12)},
			{Kind: docket.RaiseEdge, Edge: "waist", By: unit.MM(-12)},
		} {
			now := changed(t, g, step)
			for on, stretches := range facedStretches {
				grown, name := 0.0, on+"-facing"
				for _, e := range stretches {
					grown += long(now.Pieces[on], e) - long(g.Pieces[on], e)
				}
				was, p := g.Pieces[name], now.Pieces[name]
				if by := long(p, "waist") - long(was, "waist"); math.Abs(by-grown) > 0.15 || math.Abs(grown) < 2 {
					t.Errorf("%s %s: the waist of the %s has grown by %.3f mm and its facing by %.3f", step.Kind, step.By, on, grown, by)
				}
				for _, end := range []string{"side", "centre"} {
					a, _ := was.Edge(end)
					b, _ := p.Edge(end)
					if deeper := b.Curve.Length() - a.Curve.Length(); math.Abs(deeper) > 0.5 {
						t.Errorf("%s %s: the facing of the %s is %.3f mm deeper at the %s", step.Kind, step.By, on, deeper, end)
					}
					if lean := math.Abs(b.Curve.EndTangent().Cross(a.Curve.EndTangent())); lean > 0.01 {
						t.Errorf("%s %s: the %s of the facing of the %s leans by %.4f", step.Kind, step.By, end, on, lean)
					}
				}
			}
			fold, _ := now.Pieces["front-facing"].Edge("centre")
			if a, b := fold.Curve.Start(), fold.Curve.End(); math.Abs(a.X-b.X) > 1e-6 {
				t.Errorf("%s %s: the fold of the facing leans by %.4f mm", step.Kind, step.By, a.X-b.X)
			}
			sameFit(t, g, now, 0.1)
		}
	})
}

// The truing of a hem that ends on a fold tilts it by less than can be cut; the
// piece is still opened out and laid.
func TestTakenInIsLaid(t *testing.T) {
	in := open(t, weir)
	for _, steps := range [][]docket.Change{
		{{Kind: docket.TakeIn, Item: "side", By: unit.MM(15), At: "waist", From: "hip"}, {Kind: docket.RunOn, Item: "side", By: unit.MM(40)}},
		{{Kind: docket.TakeIn, Item: "side", By: unit.MM(10), At: "hip"}},
		{{Kind: docket.TakeIn, Item: "side", By: unit.MM(-12), At: "hip", Upto: "waist"}},
	} {
		for i := range steps {
			steps[i].ID = fmt.Sprintf("step-%d", i)
		}
		in.Docket.Changes = steps
		r := making.Run(context.Background(), in, making.Lay, making.Effort{Seed: 1}, nil)
		if r.Findings.Stops() > 0 || len(r.Lays) < 2 {
			t.Errorf("%v: %v", steps[0], r.Findings.Codes())
		}
		for _, c := range r.Cut.Pieces() {
			var pts []geom.Pt
			for _, m := range c.Outline {
				pts = append(pts, geom.Pt{X: float64(m.X) / 1000, Y: float64(m.Y) / 1000})
			}
			if q, _, _, crosses := geom.SelfCrossing(pts); crosses {
				t.Errorf("the cut line of %s crosses itself at %v", c.ID, q)
			}
		}
	}
}

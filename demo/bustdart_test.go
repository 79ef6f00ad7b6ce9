package demo

import (
	"math"
	"strings"
	"testing"

	"gusset/internal/docket"
	"gusset/internal/pattern"
	"gusset/internal/unit"
)

// The dart that a full bust opens in the front of the overshirt obeys the same
// identities as the darts that are printed: pivoted, its angle and the length of
// every edge stay, and pivoted back the front is as it was; longer, it takes in as
// much at its opening; divided, the two angles seen from the old point are its own
// (a turn about a point keeps lengths and angles).
func TestBustDart(t *testing.T) {
	inSizes(t, "dockets/mooring-stripe.yaml", func(t *testing.T, g pattern.Garment) {
		bust := docket.Change{
			ID: "bust", Kind: docket.FullBust, At: "apex", Edge: "armhole", Item: "side", Where: unit.MM(60), Method: "dart", By: unit.MM(25),
		}
		g = changed(t, g, bust)
		was := g.Pieces["front"]
		const lower, upper = "bust-dart-lower", "bust-dart-upper"
		before, _ := wedge(t, was, lower, upper)
		for _, to := range []docket.Spot{spot("front:shoulder", "middle"), spot("front:hem", "middle"), spot("front:side", 150.0, lower)} {
			there := docket.Change{ID: "there", Kind: docket.PivotDart, Item: "bust", Spot: to}
			now := changed(t, g, there)
			p := now.Pieces["front"]
			after, uneven := wedge(t, p, lower, upper)
			if math.Abs(after-before) > 1e-9 || uneven > 1e-6 {
				t.Errorf("to %s: %.9f radians, were %.9f; legs differ by %.6f mm", to.Edge, after, before, uneven)
			}
			for _, e := range was.Edges {
				if !strings.HasPrefix(e.Name, "bust-dart") && !strings.HasPrefix(e.Name, "side") && math.Abs(long(p, e.Name)-e.Curve.Length()) > 1e-4 {
					t.Errorf("to %s: %s was %.4f mm long and is %.4f", to.Edge, e.Name, e.Curve.Length(), long(p, e.Name))
				}
			}
			sameFit(t, g, now, 1e-3)
			back := docket.Change{ID: "back", Kind: docket.PivotDart, Item: "bust", Spot: spot("front:side-upper", 0.0)}
			if off := apart(was, changed(t, now, back).Pieces["front"]); off > 0.01 {
				t.Errorf("to %s and back, the front is %.4f mm off", to.Edge, off)
			}
		}
		longer := changed(t, g, docket.Change{ID: "longer", Kind: docket.DartLength, Item: "bust", By: unit.MM(12)}).Pieces["front"]
		opening := func(in, out string) float64 {
			p := longer
			a, _ := p.Edge(in)
			b, _ := p.Edge(out)
			return a.Curve.Start().Dist(b.Curve.End())
		}
		a, _ := was.Edge(lower)
		b, _ := was.Edge(upper)
		if off := opening(lower, upper) - a.Curve.Start().Dist(b.Curve.End()); math.Abs(off) > 1e-6 {
			t.Errorf("a longer dart opens %.6f mm more", off)
		}
		halved := changed(t, g, docket.Change{ID: "half", Kind: docket.DivideDart, Item: "bust", Spot: spot("front:shoulder", "middle"), Share: 0.5})
		if first, _ := wedge(t, halved.Pieces["front"], lower, upper); math.Abs(first-before/2) > 1e-7 {
			t.Errorf("half of %.7f radians is %.7f", before, first)
		}
		sameFit(t, g, halved, 1e-3)
	})
}

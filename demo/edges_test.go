package demo

import (
	"math"
	"testing"

	"gusset/internal/docket"
	"gusset/internal/pattern"
	"gusset/internal/seam"
	"gusset/internal/unit"
)

// Taken in at the side, the waist breaks there; drawn on across it, it runs on,
// the seams fit, and no corner has moved by more than truing allows.
func TestRunOn(t *testing.T) {
	inSizes(t, weir, func(t *testing.T, g pattern.Garment) {
		breaks := func(g pattern.Garment) float64 {
			seams, _ := seam.Resolve(g)
			var worst float64
			for _, c := range seam.Crossings(g, seams) {
				if c.Seam.Join == "side" {
					worst = math.Max(worst, math.Abs(c.Break))
				}
			}
			return worst
		}
		in := docket.Change{ID: "in", Kind: docket.TakeIn, Item: "side", By: unit.MM(15), At: "waist", From: "hip"}
		on := docket.Change{ID: "on", Kind: docket.RunOn, Item: "side", By: unit.MM(40)}
		taken, smooth := changed(t, g, in), changed(t, g, in, on)
		if was, now := breaks(taken), breaks(smooth); was < 1 || now > 0.3 {
			t.Errorf("the waist breaks by %.2f degrees, and by %.2f drawn on", was, now)
		}
		sameFit(t, g, smooth, 0.1)
	})
}

// An edge in one sweep keeps its ends and their directions, and is nowhere far
// from where it was: a hem that has been spread bends one way only afterwards.
func TestSmoothEdge(t *testing.T) {
	inSizes(t, weir, func(t *testing.T, g pattern.Garment) {
		open := docket.Change{ID: "open", Kind: docket.Spread, Spot: spot("front:hem", "middle"), Hinge: spot("front:waist-side", "middle"), By: unit.MM(60)}
		sweep := docket.Change{ID: "sweep", Kind: docket.SmoothEdge, Edge: "front:hem"}
		a, _ := changed(t, g, open).Pieces["front"].Edge("hem")
		b, _ := changed(t, g, open, sweep).Pieces["front"].Edge("hem")
		for _, d := range []float64{
			a.Curve.Start().Dist(b.Curve.Start()), a.Curve.End().Dist(b.Curve.End()),
			a.Curve.StartTangent().Dist(b.Curve.StartTangent()), a.Curve.EndTangent().Dist(b.Curve.EndTangent()),
		} {
			if d > 1e-9 {
				t.Errorf("an end has moved or turned by %g", d)
			}
		}
		for at := 1.0; at < b.Curve.Length()-2; at += 5 {
			if b.Curve.TangentAt(at).Cross(b.Curve.TangentAt(at+1)) < -1e-9 {
				t.Errorf("the hem bends back %.0f mm from the centre", at)
				break
			}
		}
	})
}

package making

import (
	"context"
	"os"
	"testing"

	"gusset/internal/docket"
	"gusset/internal/needs"
	"gusset/internal/unit"
)

// every change of the recipe, as a docket would ask for it.
var everyChange = []docket.Change{
	{ID: "longer", Kind: docket.Lengthen, At: "leg", By: unit.MM(20)},
	{ID: "shorter", Kind: docket.Lengthen, At: "leg", By: unit.MM(-15)},
	{ID: "much longer", Kind: docket.Lengthen, At: "leg", By: unit.MM(110)},
	{ID: "much shorter", Kind: docket.Lengthen, At: "leg", By: unit.MM(-80)},
	{ID: "narrow", Kind: docket.HemGirth, Edge: "hem", From: "knee", To: unit.MM(420)},
	{ID: "wide", Kind: docket.HemGirth, Edge: "hem", From: "knee", To: unit.MM(560)},
	{ID: "up", Kind: docket.MoveHem, Edge: "hem", By: unit.MM(-25)},
	{ID: "down", Kind: docket.MoveHem, Edge: "hem", By: unit.MM(15)},
	{ID: "hem", Kind: docket.SetFinish, Item: "hem", Method: "single-hem", Values: map[string]unit.Length{"depth": unit.MM(35)}},
}

// With each change applied, in every printed size and both views: it takes
// effect, every seam walks within half a millimetre, and the pieces are
// finished without a stop.
func TestEveryChangeEverySize(t *testing.T) {
	inEverySize(t, func(Inputs) []docket.Change { return everyChange })
}

// inEverySize makes each change by itself in every printed size of both demo
// dockets; in one size only in the quick run for the race detector.
func inEverySize(t *testing.T, changes func(Inputs) []docket.Change) {
	t.Helper()
	for _, d := range demoDockets {
		in := openDemo(t, d)
		sizes := in.Pattern.Sizes
		if os.Getenv("GUSSET_QUICK") != "" {
			sizes = sizes[3:4]
		}
		for _, size := range sizes {
			for _, c := range changes(in) {
				in.Docket.Size = docket.Size{All: size}
				in.Docket.Changes = []docket.Change{c}
				r := Run(context.Background(), in, Finish, Effort{}, nil)
				if r.Findings.Stops() > 0 || len(r.Changed.Applied()) != 1 || r.Walked.Widest() > 0.5 {
					t.Errorf("%s size %s %s: %d applied, widest %.2f mm", d, size, c.ID, len(r.Changed.Applied()), r.Walked.Widest())
					for _, f := range r.Findings {
						t.Logf("%s: %s", f.Code(), f.Text())
					}
				}
			}
		}
	}
}

// Lengths have a size of their own: with it the inside leg grows and the hip
// does not.
func TestLengthZone(t *testing.T) {
	in := openDemo(t, demoDockets[0])
	in.Docket.Changes = nil
	in.Docket.Size = docket.Size{All: "12"}
	plain := Run(context.Background(), in, Walk, Effort{}, nil)
	in.Docket.Size = docket.Size{All: "12", Zones: map[string]string{"length": "18"}}
	long := Run(context.Background(), in, Walk, Effort{}, nil)
	if long.Findings.Stops() > 0 || long.Walked.Widest() > 0.5 {
		t.Fatal(long.Walked.Widest(), long.Findings)
	}
	seam := func(r Result, id string) float64 {
		for _, s := range r.Walked.Seams() {
			if s.Seam.ID == id {
				return s.Lengths[0]
			}
		}
		return 0
	}
	if a, b := seam(plain, "inseam@left"), seam(long, "inseam@left"); b < a+5 {
		t.Errorf("inseam %.1f mm, with lengths of size 18 %.1f", a, b)
	}
	hip := func(r Result) float64 {
		for _, e := range r.Sized.Ease() {
			if e.Zone == "hip" {
				return e.Garment
			}
		}
		return 0
	}
	if a, b := hip(plain), hip(long); b-a > 1 || a-b > 1 {
		t.Errorf("hip %.1f mm, with lengths of size 18 %.1f", a, b)
	}
}

// Published yardage as a sanity band: Capri pants take 1 1/2 yd of 58-60 in
// cloth (US extension-service table); the cropped trousers, turn-ups included,
// must not take more than a fifth above it nor less than three fifths. Long
// trousers: about 1.6 m of denim for jeans (same digest of published needs).
func TestYardageBand(t *testing.T) {
	if os.Getenv("GUSSET_QUICK") != "" {
		t.Skip("quick: the dockets are laid in full without the race detector")
	}
	if to, ok := needs.Yardage(1.5*914.4, 1480, 1480); !ok || to <= 0 {
		t.Fatal("the table has no such width")
	}
	for d, typical := range map[string]float64{demoDockets[1]: 1.5 * 914.4, demoDockets[0]: 1600} {
		r := Run(context.Background(), openDemo(t, d), Lay, Effort{Seed: 1, Rounds: 100}, nil)
		if l := r.Lays[0].Length; l > 1.2*typical || l < 0.6*typical {
			t.Errorf("%s takes %.0f mm, published need %.0f", d, l, typical)
		} else {
			t.Logf("%s takes %.0f mm, published need %.0f", d, l, typical)
		}
	}
}

package nest

import (
	"context"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// A bar leans between walls where the angle is known by trigonometry: one of
// length l and thickness h reaches l sin a + h cos a across when it leans by a.
// In a strip a little wider than that, and too narrow for what leans less than
// a, it must be found between the steps of exploring; and the less a part has
// to lean, the less it does.
func TestLeansNoMoreThanNeeded(t *testing.T) {
	const long, thick = 300.0, 40.0
	across := func(degrees float64) float64 {
		sin, cos := math.Sincos(degrees * math.Pi / 180)
		return float64(long*cos) + float64(thick*sin)
	}
	upright := still(rect(thick, long))
	upright.Tilt = 20
	for _, c := range []struct{ needs float64 }{{15.6}, {16.3}, {17.8}, {19.3}} {
		p := Problem{Containers: []Container{{Width: across(c.needs)}}, Parts: []Part{upright}}
		for _, rounds := range []int{0, 400} {
			l, _ := solve(t, p, Budget{Rounds: rounds, Lanes: 2, Seed: 1})
			if len(l.Placements) != 1 {
				t.Fatalf("needs %v degrees: not placed", c.needs)
			}
			if lean := math.Abs(l.Placements[0].Degrees); lean < c.needs-1e-6 || lean > c.needs+1.1 {
				t.Errorf("%d rounds: leans by %v degrees, %v are needed", rounds, lean, c.needs)
			}
		}
	}
}

// Whatever leans, the rules hold, and a layout with leans of its own is gone on
// from: what comes of it is never longer.
func TestLeaningLayoutGoneOnFrom(outer *testing.T) {
	rapid.Check(outer, func(t *rapid.T) {
		p := Problem{Containers: []Container{{Width: 420}}}
		for n := range rapid.IntRange(2, 5).Draw(t, "parts") {
			p.Parts = append(p.Parts, Part{
				Shape: star(t, fmt.Sprint("shape ", n)),
				Poses: []Orientation{{}, {Degrees: 180}},
				Tilt:  rapid.SampledFrom([]float64{0, 0.05, 2.5, 10, 45}).Draw(t, "tilt"),
			})
		}
		b := Budget{Rounds: 30, Lanes: 2, Seed: rapid.Uint64().Draw(t, "seed")}
		first, stats, err := Search(context.Background(), p, b, nil, nil)
		if err != nil || len(first.Unplaced) > 0 {
			t.Fatalf("unplaced %v, error %v", first.Unplaced, err)
		}
		if stats.Bound > first.Length+1e-6 {
			t.Fatalf("bound %v, length %v", stats.Bound, first.Length)
		}
		b.Rounds = 0
		again, _, err := Search(context.Background(), p, b, &first, nil)
		if err != nil || len(again.Unplaced) > 0 || again.Length > first.Length+1e-6 {
			t.Fatalf("from %v came %v, unplaced %v, error %v", first.Length, again.Length, again.Unplaced, err)
		}
		for _, l := range []Layout{first, again} {
			judge(outer, p, l)
		}
		if outer.Failed() {
			t.Fatal("a rule is broken")
		}
	})
}

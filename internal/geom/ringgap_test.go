package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Known answers by elementary geometry: squares apart along an axis, corner to
// corner, touching and crossing.
func TestRingGap(t *testing.T) {
	square := func(x, y float64) []Pt { return []Pt{{x, y}, {x + 10, y}, {x + 10, y + 10}, {x, y + 10}} }
	for _, c := range []struct{ x, y, want float64 }{{14, 0, 4}, {13, 14, 5}, {10, 3, 0}, {5, 5, 0}, {-12, 2, 2}} {
		if got := RingGap(square(0, 0), square(c.x, c.y)); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("a square at %v, %v: %v, want %v", c.x, c.y, got, c.want)
		}
	}
}

// The same as looking at every pair of sides, and the same from either side.
func TestRingGapAgainstAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ring := func(name string) []Pt {
			n := rapid.IntRange(3, 12).Draw(t, name+" corners")
			at := Pt{rapid.Float64Range(-50, 50).Draw(t, name+" x"), rapid.Float64Range(-50, 50).Draw(t, name+" y")}
			out := make([]Pt, n)
			for i := range out {
				out[i] = at.Add(Pt{X: rapid.Float64Range(1, 30).Draw(t, name)}.Rot(2 * math.Pi * float64(i) / float64(n)))
			}
			return out
		}
		a, b := ring("a"), ring("b")
		all := math.Inf(1)
		for i := range a {
			for j := range b {
				all = min(all, segDist(a[i], a[(i+1)%len(a)], b[j], b[(j+1)%len(b)]))
			}
		}
		if got, back := RingGap(a, b), RingGap(b, a); math.Abs(got-all) > 1e-9 || math.Abs(back-all) > 1e-9 {
			t.Fatalf("%v and %v, by all pairs %v", got, back, all)
		}
	})
}

package nest

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The fence of two convex parts is their Minkowski sum: of a square of side a
// for one of side b it is a square of side a + b, widened by the clearance
// (plane geometry). Deepest is its middle.
func TestFenceSquares(t *testing.T) {
	f := newFence(convexParts(rect(40, 40)), convexParts(rect(20, 20)), 1)
	for _, c := range []struct{ x, y, depth float64 }{
		{-21, 0, 0}, {41, 0, 0}, {0, 41, 0}, {60, 60, 0},
		{-20, 10, 1}, {40, 10, 1}, {10, 35, 6}, {10, 10, 31},
	} {
		if got := f.depth(c.x, c.y, math.Inf(1)); math.Abs(got-20*c.depth) > 1e-9 {
			t.Errorf("depth at (%v, %v) is %v, want %v", c.x, c.y, got/20, c.depth)
		}
	}
}

// star is a simple polygon round the origin: a radius for each of n angles.
func star(t *rapid.T, name string) []Pt {
	radii := rapid.SliceOfN(rapid.Float64Range(10, 100), 3, 24).Draw(t, name)
	out := make([]Pt, len(radii))
	for i, r := range radii {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(len(radii)))
		out[i] = Pt{r * cos, r * sin}
	}
	return out
}

// Convex parts are convex, and their areas add up to the polygon's: together
// with lying inside it, that is what a partition is.
func TestConvexParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ring := star(t, "ring")
		var sum float64
		for _, p := range convexParts(ring) {
			sum += signedArea(p)
			for k := range p {
				if left(p[k], p[(k+1)%len(p)], p[(k+2)%len(p)]) < 0 {
					t.Fatalf("part %v is not convex at %d", p, k)
				}
			}
		}
		if area := signedArea(ring); math.Abs(sum-area) > 1e-9*area {
			t.Fatalf("parts cover %v of %v", sum, area)
		}
	})
}

// Slow twin: a fence tells the same as comparing all edges. Mitred corners of
// the widened fence reach farther than the clearance, so offsets whose gap is
// less than a few clearances may be told as too near.
func TestFenceTellsWhatEdgesTell(t *testing.T) {
	const c = 0.01
	var k probe
	rapid.Check(t, func(t *rapid.T) {
		a, b := newSolid(star(t, "a")), newSolid(star(t, "b"))
		f := newFence(convexParts(a.ring()), convexParts(b.ring()), c)
		for range 20 {
			dx, dy := rapid.Float64Range(-200, 200).Draw(t, "dx"), rapid.Float64Range(-200, 200).Draw(t, "dy")
			deep := f.depth(dx, dy, math.Inf(1)) > 0
			if k.near(a, b, dx, dy, c-1e-9) && !deep {
				t.Fatalf("too near at (%v, %v), told as clear", dx, dy)
			}
			if deep && !k.near(a, b, dx, dy, 20*c) {
				t.Fatalf("clear at (%v, %v), told as too near", dx, dy)
			}
		}
	})
}

// Slow twin: looking only at the cells of a tile tells the same, to the last
// bit, as looking at all.
func TestTilesTellTheSame(t *testing.T) {
	divided := 0
	rapid.Check(t, func(t *rapid.T) {
		f := newFence(convexParts(star(t, "a")), convexParts(star(t, "b")), 0.01)
		if f.tiles != nil {
			divided++
		}
		all := *f
		all.tiles = nil
		for range 20 {
			x, y := rapid.Float64Range(-200, 200).Draw(t, "x"), rapid.Float64Range(-200, 200).Draw(t, "y")
			if got, want := f.depth(x, y, math.Inf(1)), all.depth(x, y, math.Inf(1)); got != want {
				t.Fatalf("depth %v at (%v, %v), without tiles %v", got, x, y, want)
			}
		}
	})
	if divided == 0 {
		t.Error("no fence was divided")
	}
}

// A fence asked the other way round gives the same answer.
func TestFenceBothWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := convexParts(star(t, "a")), convexParts(star(t, "b"))
		f, g := newFence(a, b, 1), newFence(b, a, 1)
		dx, dy := rapid.Float64Range(-200, 200).Draw(t, "dx"), rapid.Float64Range(-200, 200).Draw(t, "dy")
		p, q := f.depth(dx, dy, math.Inf(1)), g.depth(-dx, -dy, math.Inf(1))
		if math.Abs(p-q) > 1e-9*(1+p) {
			t.Fatalf("depths %v and %v", p, q)
		}
	})
}

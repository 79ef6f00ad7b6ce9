package geom

import (
	"math"
	"math/rand/v2"
	"testing"
)

// bendsOf returns the least and the greatest curvature of a curve's segments
// longer than a trimmed sliver, read off the parallel at d.
func bendsOf(c Curve, d float64) (lo, hi float64) {
	for _, s := range c {
		if s.Length() < sliver {
			continue
		}
		for k := range 401 {
			b := parallelBend(s.Curvature(min(max(float64(k)/400, 1e-6), 1-1e-6)), d)
			lo, hi = min(lo, b), max(hi, b)
		}
	}
	return lo, hi
}

func drawnEdge(seed uint64, most float64) (Curve, float64) {
	r := rand.New(rand.NewPCG(seed, 7))
	return smoothEdge(r), between(r, -most, most)
}

// Draws whose parallel had, on a stretch that hardly bends, a handle of under a
// hundredth of it: radii of 0.3 mm and less where 20 mm and more are true.
func TestParallelHasNoHooks(t *testing.T) {
	for _, seed := range []uint64{0x62f, 0xdad, 0x1e46, 0x2a1c, 0x6da7, 0x723b, 0x737c, 0x865b, 0x8989} {
		c, d := drawnEdge(seed, 40)
		p, err := c.Parallel(d)
		if err != nil {
			t.Fatalf("%#x: %v", seed, err)
		}
		lo, hi := bendsOf(c, d)
		if a, b := bendsOf(p, 0); a < lo-0.005-0.3*math.Abs(lo) || b > hi+0.005+0.3*math.Abs(hi) {
			t.Errorf("%#x at %.2f mm bends from %.4f to %.4f per mm, the parallel proper from %.4f to %.4f", seed, d, a, b, lo, hi)
		}
	}
}

// A parallel bends as the parallel proper does, of curvature κ/(1-κd), at
// whatever distance it is asked for (do Carmo, Differential Geometry of Curves
// and Surfaces, 1-5, exercise on parallel curves, from memory).
func TestParallelBends(t *testing.T) {
	tried := 0
	for seed := range uint64(3000) {
		c, d := drawnEdge(seed, 40)
		p, err := c.Parallel(d)
		if err != nil || leastRadius(c, d) < 10 {
			continue
		}
		tried++
		lo, hi := bendsOf(c, d)
		if a, b := bendsOf(p, 0); a < lo-0.005-0.3*math.Abs(lo) || b > hi+0.005+0.3*math.Abs(hi) {
			t.Fatalf("%#x at %.2f mm bends from %.4f to %.4f per mm, the parallel proper from %.4f to %.4f", seed, d, a, b, lo, hi)
		}
	}
	if tried < 1500 {
		t.Errorf("only %d of 3000 tried", tried)
	}
}

// A seam line recovered from a printed cut line with its structure kept must
// let the allowance be added again.
func TestParallelSameLeavesTheWayBack(t *testing.T) {
	tried := 0
	for seed := range uint64(3000) {
		c, d := drawnEdge(seed, 20)
		p, _, err := c.ParallelSame(d)
		if err != nil || leastRadius(c, d) < math.Max(20, math.Abs(d)) {
			continue
		}
		tried++
		if _, err := p.Parallel(-d); err != nil {
			t.Fatalf("%#x: back from %.2f mm, where a radius of %.1f mm is left: %v", seed, d, leastRadius(c, d), err)
		}
	}
	if tried < 1500 {
		t.Errorf("only %d of 3000 tried", tried)
	}
}

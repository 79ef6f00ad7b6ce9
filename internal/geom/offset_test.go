package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func totalArea(loops [][]Pt) (sum float64) {
	for _, l := range loops {
		sum += Area(l)
	}
	return sum
}

func TestOffsetPolylineKnown(t *testing.T) {
	slot := []Pt{{0, 0}, {100, 0}, {100, 100}, {55, 100}, {55, 20}, {45, 20}, {45, 100}, {0, 100}}
	waist := []Pt{{0, 0}, {100, 0}, {100, 40}, {60, 45}, {60, 55}, {100, 60}, {100, 100}, {0, 100}, {0, 60}, {40, 55}, {40, 45}, {0, 40}}
	ring := []Pt{{0, 0}, {100, 0}, {100, 100}, {51, 100}, {51, 80}, {80, 80}, {80, 20}, {20, 20}, {20, 80}, {49, 80}, {49, 100}, {0, 100}}
	cases := []struct {
		name     string
		pts      []Pt
		d, mitre float64
		loops    int
		area     float64
	}{
		{"square inward", square(100), 10, 4, 1, 80 * 80},
		{"square outward to points", square(100), -10, 4, 1, 120 * 120},
		{"square outward cut at its distance", square(100), -10, 1, 1, 120*120 - 4*100*math.Pow(math.Sqrt2-1, 2)},
		{"square outward by nothing", square(100), 0, 4, 1, 100 * 100},
		{"clockwise square to the left is outward", reversed(square(100)), 10, 4, 1, -120 * 120},
		{"square inward by all of it", square(100), 51, 4, 0, 0},
		{"repeated corners", append(square(100), Pt{0, 100}, Pt{0, 0}), 10, 4, 1, 80 * 80},
		{"slot closing", slot, -6, 4, 1, 112 * 112},
		{"arms of a slot inward", slot, 6, 4, 1, 88*88 - 22*80},
		{"waist parting", waist, 11, 4, 2, -1},
		{"open ring closing on a hole", ring, -2, 4, 2, 104*104 - 56*56},
	}
	for _, c := range cases {
		got := OffsetPolyline(c.pts, c.d, c.mitre)
		if len(got) != c.loops {
			t.Errorf("%s: %d loops, want %d", c.name, len(got), c.loops)
		}
		if a := totalArea(got); c.area != -1 && math.Abs(a-c.area) > 1e-6 {
			t.Errorf("%s: area %.6f, want %.6f", c.name, a, c.area)
		}
	}
}

// Every point of an inward offset lies at least d inside, every point of an
// outward one at least d and, at mitres, at most that many times d outside. A
// convex polygon moved out and back in again is itself.
func TestOffsetPolyline(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := dice(t)
		pts := blob(r, 3+r.IntN(15), between(r, 30, 300))
		d, mitre := between(r, 0.5, 20), between(r, 1, 5)
		closed := append(append([]Pt(nil), pts...), pts[0])
		for _, by := range []float64{d, -d} {
			var sum float64
			for _, l := range OffsetPolyline(pts, by, mitre) {
				sum += Area(l)
				if _, i, j, crosses := SelfCrossing(l); crosses {
					t.Fatalf("edges %d and %d of the offset by %g meet", i, j, by)
				}
				for k, p := range l {
					q := p.Lerp(l[(k+1)%len(l)], 0.37)
					for _, p := range []Pt{p, q} {
						at := bruteDistance(closed, p)
						if Inside(pts, p) != (by > 0) || at < d-1e-6 || at > mitre*d*1.5 {
							t.Fatalf("a point of the offset by %g is %g away", by, at)
						}
					}
				}
			}
			if by > 0 && sum >= Area(pts) || by < 0 && sum <= Area(pts) {
				t.Fatalf("offset by %g has the area %g, the polygon %g", by, sum, Area(pts))
			}
		}
	})
}

func TestOffsetPolylineOfHullsAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := dice(t)
		pts := hull(blob(r, 4+r.IntN(12), between(r, 50, 300)))
		d := between(r, 0.5, 40)
		out := OffsetPolyline(pts, -d, 1e6)
		if len(out) != 1 {
			t.Fatalf("%d loops", len(out))
		}
		back := OffsetPolyline(out[0], d, 1)
		if len(back) != 1 || len(back[0]) != len(pts) {
			t.Fatalf("out and back is %v", back)
		}
		for i, p := range back[0] {
			if p.Dist(pts[i]) > 1e-6 {
				t.Fatalf("a corner came back %g off", p.Dist(pts[i]))
			}
		}
	})
}

// hull drops corners until the loop turns left at every one.
func hull(pts []Pt) []Pt {
	for i := 0; i < len(pts); {
		n := len(pts)
		if n > 3 && Orient(pts[(i+n-1)%n], pts[i], pts[(i+1)%n]) <= 0 {
			pts = append(append([]Pt(nil), pts[:i]...), pts[i+1:]...)
			i = 0
			continue
		}
		i++
	}
	return pts
}

package geom

import (
	"math"
	"math/rand/v2"
	"testing"
)

func TestLoopKnown(t *testing.T) {
	near(t, "area of a square", Area(square(10)), 100, 0)
	near(t, "perimeter of a square", Perimeter(square(10)), 40, 0)
	near(t, "area clockwise", Area(reversed(square(10))), -100, 0)
	near(t, "area of a circle", Area(circle(100).Flatten(1e-5)), math.Pi*1e4, 0.1)
	far := square(0.001)
	for i := range far {
		far[i] = far[i].Add(Pt{1 << 20, 1 << 20})
	}
	near(t, "area of a small square far away", Area(far), 1e-6, 1e-11)
	for p, want := range map[Pt]bool{{5, 5}: true, {0, 5}: true, {10, 10}: true, {10.001, 5}: false, {-1, 0}: false, {5, 10}: true, {11, 10}: false} {
		if Inside(square(10), p) != want {
			t.Errorf("inside %v = %v", p, !want)
		}
	}
	if Area(nil) != 0 || Perimeter(nil) != 0 || Inside(nil, Pt{}) {
		t.Error("an empty loop has something")
	}
}

func TestSelfCrossingKnown(t *testing.T) {
	cases := []struct {
		name string
		pts  []Pt
		want bool
		i, j int
	}{
		{"square", square(10), false, 0, 0},
		{"square with a repeated corner", []Pt{{0, 0}, {10, 0}, {10, 0}, {10, 10}, {0, 10}, {0, 0}}, false, 0, 0},
		{"corner on a straight side", []Pt{{0, 0}, {5, 0}, {10, 0}, {10, 10}, {0, 10}}, false, 0, 0},
		{"bow tie", []Pt{{0, 0}, {10, 10}, {10, 0}, {0, 10}}, true, 0, 2},
		{"corner touching an edge", []Pt{{0, 0}, {10, 0}, {10, 10}, {5, 0}, {0, 10}}, true, 0, 2},
		{"two corners touching", []Pt{{0, 0}, {5, 5}, {10, 0}, {10, 10}, {5, 5}, {0, 10}}, true, 0, 3},
		{"spike", []Pt{{0, 0}, {10, 0}, {10, 10}, {10, 20}, {10, 10}, {0, 10}}, true, 1, 3},
		{"spike at the closing", []Pt{{0, 0}, {10, 0}, {10, 10}, {0, 10}, {0, -5}}, true, 0, 3}, // edge 3 runs through the corner where edge 0 begins
		{"two corners only", []Pt{{0, 0}, {10, 0}}, true, 0, 1},
		{"nothing", nil, false, 0, 0},
	}
	for _, c := range cases {
		p, i, j, found := SelfCrossing(c.pts)
		if found != c.want || found && (i != c.i || j != c.j || !p.Finite()) {
			t.Errorf("%s: found %v at edges %d, %d, %v", c.name, found, i, j, p)
		}
	}
}

// slowCrossing compares every pair with rational orientation.
func slowCrossing(pts []Pt) (int, int, bool) {
	on := func(a, b, p Pt) bool { return orientRat(a, b, p) == 0 && inBox(a, b, p) }
	var e [][3]Pt // ends, and index in X of the third
	for i, a := range pts {
		if b := pts[(i+1)%len(pts)]; a != b {
			e = append(e, [3]Pt{a, b, {float64(i), 0}})
		}
	}
	for i := range e {
		for j := i + 1; j < len(e); j++ {
			a, b, c, d := e[i][0], e[i][1], e[j][0], e[j][1]
			next, wrap := j == i+1, i == 0 && j == len(e)-1
			bad := false
			if next {
				bad = on(a, b, d) || on(c, d, a)
			}
			if wrap {
				bad = bad || on(a, b, c) || on(c, d, b)
			}
			if next && wrap { // two edges only: they lie on each other
				bad = true
			}
			if !next && !wrap {
				bad = on(a, b, c) || on(a, b, d) || on(c, d, a) || on(c, d, b) ||
					orientRat(a, b, c)*orientRat(a, b, d) < 0 && orientRat(c, d, a)*orientRat(c, d, b) < 0
			}
			if bad {
				return int(e[i][2].X), int(e[j][2].X), true
			}
		}
	}
	return 0, 0, false
}

func compareCrossing(t *testing.T, pts []Pt) bool {
	t.Helper()
	_, i, j, found := SelfCrossing(pts)
	si, sj, sfound := slowCrossing(pts)
	if found != sfound || i != si || j != sj {
		t.Fatalf("%v: found %v at %d, %d; pair by pair %v at %d, %d", pts, found, i, j, sfound, si, sj)
	}
	return found
}

func TestSelfCrossingAgainstPairs(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	crossed := 0
	const n = 1000
	for k := range n {
		var pts []Pt
		for range 3 + rng.IntN(6) {
			pts = append(pts, Pt{float64(rng.IntN(6)), float64(rng.IntN(6))})
		}
		if k%2 == 0 {
			pts = blob(rng, 3+rng.IntN(20), 100)
			if k%4 == 0 {
				pts[0] = pts[len(pts)/2].Lerp(pts[len(pts)/2-1], 1.5*rng.Float64())
			}
		}
		if compareCrossing(t, pts) {
			crossed++
		}
	}
	if crossed < n/10 || crossed > n*9/10 {
		t.Errorf("%d of %d loops cross: the mixture tests little", crossed, n)
	}
}

func FuzzSelfCrossing(f *testing.F) {
	f.Add([]byte{0, 0, 9, 9, 9, 0, 0, 9})
	f.Add([]byte{0, 0, 5, 0, 9, 0, 9, 9, 0, 9})
	f.Fuzz(func(t *testing.T, raw []byte) {
		var pts []Pt
		for i := 0; i+1 < len(raw) && i < 40; i += 2 {
			pts = append(pts, Pt{float64(raw[i] % 16), float64(raw[i+1] % 16)})
		}
		compareCrossing(t, pts)
	})
}

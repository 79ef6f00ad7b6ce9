package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestFitKnown(t *testing.T) {
	if c := Fit([]Pt{{1, 1}, {1, 1}}, Pt{}, Pt{}, 0.1); c != nil {
		t.Errorf("one point twice: %v", c)
	}
	if c := Fit([]Pt{{0, 0}, {3, 4}}, Pt{}, Pt{}, 0.1); len(c) != 1 || c.Start() != (Pt{}) || c.End() != (Pt{3, 4}) || math.Abs(c.Length()-5) > 1e-9 {
		t.Errorf("two points: %v", c)
	}
	// Points of one cubic are fitted by one cubic, and it is that cubic.
	s := Cubic(Pt{0, 0}, Pt{40, 60}, Pt{120, 70}, Pt{200, -10})
	c := Fit(sampled(Curve{s}, 60), s.Tangent(0), s.Tangent(1), 0.001)
	if len(c) != 1 {
		t.Fatalf("%d segments for a cubic's points", len(c))
	}
	for k := range 4 {
		near(t, "control point", c[0].P[k].Dist(s.P[k]), 0, 0.1)
	}
	// A quarter circle by one cubic is off by 2.7e-4 of its radius with the usual
	// handles, and by 2e-4 with the best (Goldapp, Approximation of circular arcs
	// by cubic polynomials, Computer Aided Geometric Design 8, 1991, from memory).
	q := sampled(arc(Pt{}, 100, 0, math.Pi/2, 8), 8)
	if c := Fit(q, Pt{0, 1}, Pt{-1, 0}, 0.03); len(c) != 1 {
		t.Errorf("a quarter circle took %d segments", len(c))
	} else {
		near(t, "length of a quarter circle", c.Length(), 50*math.Pi, 0.03)
	}
	if c := Fit(q, Pt{0, 1}, Pt{-1, 0}, 0.01); len(c) < 2 {
		t.Error("one cubic is said to follow a quarter circle within 0.01 mm")
	}
}

// Fit keeps its promises: ends, end directions, distance, smooth joints.
func TestFit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := dice(t)
		c := smoothEdge(r)
		tol := math.Pow(10, between(r, -3, -0.5))
		pts := c.Flatten(0.05)
		var a, b Pt
		if r.IntN(2) == 0 {
			a, b = c.StartTangent().Mul(3), c.EndTangent()
		}
		f := Fit(pts, a, b, tol)
		if f.Start() != pts[0] || f.End() != pts[len(pts)-1] {
			t.Fatal("an end has moved")
		}
		if a != (Pt{}) && (math.Abs(turn(a, f.StartTangent())) > 1e-9 || math.Abs(turn(b, f.EndTangent())) > 1e-9) {
			t.Fatal("an end direction was not kept")
		}
		if k := f.Kinks(1e-6); len(k) > 0 {
			t.Fatalf("kinks at %v", k)
		}
		for _, p := range pts {
			if _, d := f.Nearest(p); d > tol+1e-9 {
				t.Fatalf("a point lies %g from the curve, not %g", d, tol)
			}
		}
		if l, want := f.Length(), c.Length(); math.Abs(l-want) > 0.002*want+2*tol {
			t.Fatalf("%g mm long, the points %g", l, want)
		}
	})
}

// Points that jitter, repeat or turn back must not upset it.
func TestFitOfRoughPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := dice(t)
		var pts []Pt
		for range 2 + r.IntN(20) {
			p := Pt{float64(r.IntN(5)), float64(r.IntN(5))}
			pts = append(pts, p)
			if r.IntN(4) == 0 {
				pts = append(pts, p)
			}
		}
		f := Fit(pts, Pt{}, Pt{}, 0.1)
		if len(distinct(pts)) < 2 {
			if f != nil {
				t.Fatal("a curve through one point")
			}
			return
		}
		if !finite(f) {
			t.Fatalf("not finite: %v", f)
		}
		for _, p := range pts {
			if _, d := f.Nearest(p); d > 0.1+1e-9 {
				t.Fatalf("a point lies %g from the curve", d)
			}
		}
	})
}

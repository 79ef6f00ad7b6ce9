package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// From a point (0, h) the nearest point of y = a·x² is the vertex up to
// h = 1/2a and has y = h - 1/2a above (set the derivative of the squared
// distance to zero).
func TestNearestOnParabola(t *testing.T) {
	const a = 0.01
	c := parabola(a, -20, 200)
	for _, h := range []float64{-30, 0, 20, 49} {
		at, d := c.Nearest(Pt{0, h})
		near(t, "arc length at the vertex", at, parabolaLength(a, 20), 1e-4)
		near(t, "distance", d, math.Abs(h), 1e-9)
	}
	for _, h := range []float64{60, 100, 200} {
		x := math.Sqrt((h - 50) / a)
		at, d := parabola(a, 0, 200).Nearest(Pt{0, h})
		near(t, "arc length", at, parabolaLength(a, x), 1e-5)
		near(t, "distance", d, math.Hypot(x, 50), 1e-9)
	}
}

func TestNearestOnCircleAndLine(t *testing.T) {
	at, d := circle(50).Nearest(Pt{0, 70})
	near(t, "circle arc length", at, math.Pi/2*50, 1e-5)
	near(t, "circle distance", d, 20, 1e-8)
	at, d = Polyline(Pt{0, 0}, Pt{10, 0}, Pt{10, 10}).Nearest(Pt{14, 4})
	near(t, "polyline arc length", at, 14, 1e-12)
	near(t, "polyline distance", d, 4, 1e-12)
	at, d = Curve{Line(Pt{1, 1}, Pt{1, 1})}.Nearest(Pt{4, 5})
	near(t, "point arc length", at, 0, 0)
	near(t, "point distance", d, 5, 1e-12)
}

func TestNearestAgainstBrute(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := dice(t)
		c := smoothEdge(r)
		p := Pt{between(r, -600, 600), between(r, -600, 600)}
		at, d := c.Nearest(p)
		if got := c.At(at).Dist(p); math.Abs(got-d) > 1e-5 {
			t.Fatalf("distance %.8f, at the arc length told %.8f", d, got)
		}
		best := math.Inf(1)
		for _, q := range sampled(c, 2000) {
			best = min(best, q.Dist(p))
		}
		if d > best+1e-9 || d < best-0.1 {
			t.Fatalf("distance %.8f, by sampling %.8f", d, best)
		}
	})
}

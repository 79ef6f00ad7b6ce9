package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// outline draws a closed counter-clockwise curve as pieces have them: up to
// nine corners, their edges straight, bulging, hollow or waved. It is simple,
// or nil.
func outline(r *rand.Rand) Curve {
	pts := blob(r, 3+r.IntN(7), between(r, 40, 400))
	var c Curve
	for i, p := range pts {
		q := pts[(i+1)%len(pts)]
		v := q.Sub(p)
		if r.IntN(3) == 0 {
			c = append(c, Line(p, q))
			continue
		}
		a, b := between(r, -0.8, 0.8), between(r, -0.8, 0.8)
		h := between(r, 0.1, 0.5)
		c = append(c, Cubic(p, p.Add(v.Rot(a).Mul(h)), q.Sub(v.Rot(b).Mul(between(r, 0.1, 0.5))), q))
	}
	fine := sampled(c, 200)
	if _, _, _, crosses := SelfCrossing(fine); crosses || Area(fine) <= 0 {
		return nil
	}
	return c
}

// strays returns how far p lies outside the polygon.
func strays(pts []Pt, p Pt) float64 {
	if Inside(pts, p) {
		return 0
	}
	return bruteDistance(append(pts[:len(pts):len(pts)], pts[0]), p)
}

// Round a circle the polygon runs along tangents: a regular one of n corners
// lies r(1/cos(π/n) - 1) outside.
func TestFlattenOutwardKnown(t *testing.T) {
	for _, tol := range []float64{1, 0.1, 0.01} {
		got := FlattenOutward(circle(100), tol)
		for i, p := range got {
			q := got[(i+1)%len(got)]
			if p.Len() > 100+tol+1e-6 {
				t.Errorf("tolerance %g: a corner lies %g outside", tol, p.Len()-100)
			}
			if d := p.Lerp(q, along(p, q, Pt{})).Len(); d < 100-1e-6 {
				t.Errorf("tolerance %g: a side cuts %g in", tol, 100-d)
			}
		}
	}
	sq := Polyline(append(square(10), Pt{})...)
	if got := FlattenOutward(sq, 0.1); len(got) != 4 || Area(got) != 100 {
		t.Errorf("a square: %v", got)
	}
	if got := FlattenOutward(sq[:3], 0.1); len(got) != 4 || Area(got) != 100 {
		t.Errorf("a square that is not closed: %v", got)
	}
	// A hollow side runs along chords: every corner lies on the curve.
	hollow := Curve{Line(Pt{0, 0}, Pt{100, 0}), Line(Pt{100, 0}, Pt{100, 60}), Cubic(Pt{100, 60}, Pt{70, 20}, Pt{30, 20}, Pt{0, 60}), Line(Pt{0, 60}, Pt{})}
	for _, p := range FlattenOutward(hollow, 0.1) {
		if _, d := hollow.Nearest(p); d > 1e-9 {
			t.Errorf("a corner lies %g from the hollow outline", d)
		}
	}
}

func TestFlattenOutward(t *testing.T) {
	tried, crossed := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		r := dice(t)
		c := outline(r)
		if c == nil {
			return
		}
		tried++
		tol := math.Pow(10, between(r, -2, 0))
		got := FlattenOutward(c, tol)
		for _, p := range sampled(c, 100) {
			if d := strays(got, p); d > 1e-7 {
				t.Fatalf("a point of the outline lies %g outside", d)
			}
		}
		for i, p := range got {
			for k := range 4 {
				q := p.Lerp(got[(i+1)%len(got)], float64(k)/4)
				if _, d := c.Nearest(q); d > tol+1e-9 {
					t.Fatalf("the polygon strays %g from the outline, not %g", d, tol)
				}
			}
		}
		if _, _, _, crosses := SelfCrossing(got); crosses {
			crossed++
		}
	})
	t.Logf("%d tried, %d cross themselves", tried, crossed)
	if tried < 20 {
		t.Errorf("only %d tried", tried)
	}
}

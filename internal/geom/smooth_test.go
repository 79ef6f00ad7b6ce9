package geom

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/interp"
	"pgregory.net/rapid"
)

func TestSmoothKnown(t *testing.T) {
	if c := Smooth([]Pt{{1, 2}}, Pt{}, Pt{}); c != nil {
		t.Errorf("one point: %v", c)
	}
	if c := Smooth([]Pt{{1, 2}, {1, 2}}, Pt{}, Pt{}); c != nil {
		t.Errorf("one point twice: %v", c)
	}
	if c := Smooth([]Pt{{1, 2}, {1, 2}, {4, 6}}, Pt{}, Pt{}); len(c) != 1 || c[0] != Line(Pt{1, 2}, Pt{4, 6}) {
		t.Errorf("two points: %v", c)
	}
	// Points of a line at uneven steps give the line at even pace.
	c := Smooth([]Pt{{0, 0}, {3, 4}, {30, 40}, {33, 44}}, Pt{}, Pt{})
	near(t, "length of a line", c.Length(), 55, 1e-9)
	if !c.Straight(1e-9) {
		t.Error("points in line do not give a line")
	}
	// Through 16 points of a circle it stays within the error of a cubic spline,
	// 5/384·h⁴·f⁗ with h the chord (de Boor, chapter V), doubled for x and y.
	var pts []Pt
	for k := range 17 {
		pts = append(pts, Pt{100, 0}.Rot(2*math.Pi*float64(k)/16))
	}
	h := pts[0].Dist(pts[1])
	bound := 2 * 5.0 / 384 * math.Pow(h, 4) / math.Pow(100, 3)
	for _, q := range sampled(Smooth(pts, Pt{0, 1}, Pt{0, 1}), 50) {
		near(t, "radius", q.Len(), 100, bound)
	}
}

// points returns 3 to 9 points, each 5 to 100 mm from the one before it.
func drawnPoints(t *rapid.T) []Pt {
	r := dice(t)
	pts := []Pt{{between(r, -100, 100), between(r, -100, 100)}}
	a := between(r, -3, 3)
	for range 2 + r.IntN(7) {
		a += between(r, -1, 1)
		pts = append(pts, pts[len(pts)-1].Add(Pt{between(r, 5, 100), 0}.Rot(a)))
	}
	return pts
}

// Each coordinate is the natural or clamped cubic spline over chord length that
// gonum computes.
func TestSmoothAgainstGonum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pts := drawnPoints(t)
		n := len(pts)
		xs, ys, chords := make([]float64, n), make([]float64, n), make([]float64, n)
		for i, p := range pts {
			xs[i], ys[i] = p.X, p.Y
			if i > 0 {
				chords[i] = chords[i-1] + p.Dist(pts[i-1])
			}
		}
		var sx, sy interp.NaturalCubic
		if sx.Fit(chords, xs) != nil || sy.Fit(chords, ys) != nil {
			t.Fatal("gonum gives no spline")
		}
		c := Smooth(pts, Pt{}, Pt{})
		if len(c) != n-1 {
			t.Fatalf("%d segments through %d points", len(c), n)
		}
		for i, s := range c {
			for k := range 11 {
				u := float64(k) / 10
				at := chords[i] + u*(chords[i+1]-chords[i])
				if d := s.At(u).Dist(Pt{sx.Predict(at), sy.Predict(at)}); d > 1e-8 {
					t.Fatalf("segment %d is %g from gonum's spline", i, d)
				}
			}
		}
	})
}

func TestSmooth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pts := drawnPoints(t)
		a, b := Pt{3, 0}.Rot(float64(len(pts))), Pt{0.2, 0}.Rot(pts[1].X)
		c := Smooth(pts, a, b)
		if c.StartTangent().Dist(a.Unit()) > 1e-9 || c.EndTangent().Dist(b.Unit()) > 1e-9 {
			t.Fatal("an end direction was not kept")
		}
		for i := 1; i < len(c); i++ {
			p, q := c[i-1], c[i]
			if p.P[3] != pts[i] || q.P[0] != pts[i] {
				t.Fatal("a point is missed")
			}
			if math.Abs(turn(p.Tangent(1), q.Tangent(0))) > 1e-7 {
				t.Fatal("the direction jumps")
			}
			if k, l := p.Curvature(1), q.Curvature(0); math.Abs(k-l) > 1e-6*(1+math.Abs(k)) {
				t.Fatalf("the curvature jumps from %g to %g", k, l)
			}
		}
		back := Smooth(reversed(pts), b.Mul(-1), a.Mul(-1)).Reverse()
		for i := range c {
			if c[i].At(0.4).Dist(back[i].At(0.4)) > 1e-7 {
				t.Fatal("walked the other way it is another curve")
			}
		}
		nat := Smooth(pts, Pt{}, Pt{})
		if k := nat[0].Curvature(0); math.Abs(k) > 1e-7 {
			t.Fatalf("a natural end has the curvature %g", k)
		}
	})
}

package geom

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"pgregory.net/rapid"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.12g, want %.12g within %g", what, got, want, tol)
	}
}

func TestLengthKnown(t *testing.T) {
	near(t, "line", Polyline(Pt{0, 0}, Pt{3, 4}).Length(), 5, 1e-12)
	near(t, "circle", circle(100).Length(), 2*math.Pi*100, 1e-6)
	for _, a := range []float64{1e-4, 1e-3, 0.01, 0.1} {
		near(t, "parabola", parabola(a, 0, 200).Length(), parabolaLength(a, 200), 1e-6)
		near(t, "parabola both sides", parabola(a, -50, 120).Length(), parabolaLength(a, 50)+parabolaLength(a, 120), 1e-6)
	}
}

// A quarter circle drawn with one cubic is the everyday case; the chord error
// of its flattening must keep within each tolerance of the ladder.
func TestFlattenLadder(t *testing.T) {
	for _, tol := range []float64{1, 0.1, 0.01, 1e-3, 1e-4} {
		for _, c := range []Curve{circle(80), parabola(0.01, -150, 150)} {
			pts := c.Flatten(tol)
			for _, p := range sampled(c, 301) {
				if d := bruteDistance(pts, p); d > tol {
					t.Fatalf("tolerance %g: a point lies %g from the polyline", tol, d)
				}
			}
		}
	}
}

// Length against Gauss-Legendre quadrature of gonum with many nodes.
func TestLengthAgainstGonum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := dice(t)
		s := edgeLike(r)
		want := quad.Fixed(func(u float64) float64 { return s.Deriv(u).Len() }, 0, 1, 400, quad.Legendre{}, 0)
		if got := s.Length(); math.Abs(got-want) > 1e-6 {
			t.Fatalf("length %.9f, by quadrature %.9f", got, want)
		}
	})
}

func TestBetweenSums(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := dice(t)
		c := smoothEdge(r)
		l := c.Length()
		d := between(r, 0.01, 0.99) * l
		a, b := c.Split(d)
		if math.Abs(a.Length()-d) > 1e-5 || math.Abs(a.Length()+b.Length()-l) > 1e-5 {
			t.Fatalf("cut %.6f of %.6f into %.6f and %.6f", d, l, a.Length(), b.Length())
		}
		if a.End() != b.Start() && a.End().Dist(b.Start()) > 1e-9 {
			t.Fatalf("the halves part by %g", a.End().Dist(b.Start()))
		}
		whole := c.Between(0, l)
		if whole.Start() != c.Start() || whole.End().Dist(c.End()) > 1e-6 || math.Abs(whole.Length()-l) > 1e-6 {
			t.Fatal("the part from 0 to the length is not the curve")
		}
	})
}

func TestReverseAndMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := dice(t)
		c := smoothEdge(r)
		back := c.Reverse().Reverse()
		for i := range c {
			if back[i] != c[i] {
				t.Fatal("reversing twice is not the curve itself")
			}
		}
		m := MirrorAbout(Pt{3, 1}, Pt{-20, 33})
		if math.Abs(c.Transform(m).Length()-c.Length()) > 1e-6 {
			t.Fatal("a mirror image has another length")
		}
		pts := c.Flatten(0.1)
		var img []Pt
		for _, p := range pts {
			img = append(img, m.Apply(p))
		}
		if a, b := Area(pts), Area(img); math.Abs(a+b) > 1e-6*(1+math.Abs(a)) {
			t.Fatalf("area %g, of the mirror image %g", a, b)
		}
	})
}

func TestStraight(t *testing.T) {
	loop := Polyline(Pt{0, 0}, Pt{10, 0}, Pt{10, 10}, Pt{0, 0})
	if loop.Straight(0.1) {
		t.Error("a closed triangle counts as straight")
	}
	if back := Polyline(Pt{0, 0}, Pt{10, 0}, Pt{4, 0}); back.Straight(0.1) {
		t.Error("a line that turns back counts as straight")
	}
	if !Polyline(Pt{0, 0}, Pt{10, 0}, Pt{40, 0}).Straight(1e-9) {
		t.Error("two pieces of one line do not count as straight")
	}
}

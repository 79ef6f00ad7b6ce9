package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// apart is the largest distance of a point of either curve from the other.
func apart(a, b Curve) float64 {
	worst := 0.0
	for _, q := range sampled(a, 60) {
		_, d := b.Nearest(q)
		worst = max(worst, d)
	}
	for _, q := range sampled(b, 60) {
		_, d := a.Nearest(q)
		worst = max(worst, d)
	}
	return worst
}

// cutUp splits every segment at random places into as many as five.
func cutUp(r *rand.Rand, c Curve) Curve {
	var out Curve
	for _, s := range c {
		for k := r.IntN(5); k > 0; k-- {
			l, rest := s.Split(between(r, 0.1, 0.9) / float64(k+1))
			out, s = append(out, l), rest
		}
		out = append(out, s)
	}
	return out
}

func TestRefitKnown(t *testing.T) {
	if c := Curve(nil).Refit(0.1); len(c) != 0 {
		t.Errorf("nothing refitted: %v", c)
	}
	l := Polyline(Pt{0, 0}, Pt{3, 0}, Pt{10, 0}, Pt{10, 4}, Pt{10, 9})
	if c := l.Refit(1e-6); len(c) != 2 || c[0] != Line(Pt{0, 0}, Pt{10, 0}) || c[1] != Line(Pt{10, 0}, Pt{10, 9}) {
		t.Errorf("an angle in four pieces: %v", c)
	}
	// Straight and curved parts that meet smoothly stay apart.
	mixed := Curve{Line(Pt{-50, 0}, Pt{}), Cubic(Pt{}, Pt{20, 0}, Pt{50, 10}, Pt{70, 30})}
	if c := mixed.Refit(1); len(c) != 2 || c[0] != mixed[0] || c[1] != mixed[1] {
		t.Errorf("a line and a curve: %v", c)
	}
	if c := circle(100).Refit(0.1); len(c) > 8 {
		t.Errorf("a circle takes %d cubics", len(c))
	} else {
		for _, q := range sampled(c, 100) {
			near(t, "radius", q.Len(), 100, 0.1)
		}
	}
}

func TestRefit(t *testing.T) {
	was, became := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		r := dice(t)
		c := cutUp(r, smoothEdge(r))
		tol := math.Pow(10, between(r, -3, -0.5))
		f := c.Refit(tol)
		was, became = was+len(c), became+len(f)
		if len(f) > len(c) {
			t.Fatalf("%d segments became %d", len(c), len(f))
		}
		if f.Start() != c.Start() || f.End() != c.End() {
			t.Fatal("an end has moved")
		}
		if d := apart(c, f); d > tol*1.02 {
			t.Fatalf("%g from the curve, asked for %g", d, tol)
		}
		if k := f.Kinks(2 * smoothTurn); len(k) > 0 {
			t.Fatalf("kinks at %v", k)
		}
		if again := f.Refit(tol); len(again) > len(f) || apart(f, again) > tol*1.02 {
			t.Fatalf("refitted again, %d segments became %d, %g away", len(f), len(again), apart(f, again))
		}
	})
	t.Logf("%d segments became %d", was, became)
	if became > was*2/3 {
		t.Errorf("%d segments became %d: little was joined", was, became)
	}
}

// A line under y + a·x² is the parabola.
func TestMapPointsKnown(t *testing.T) {
	const a = 0.004
	l := Polyline(Pt{-50, 0}, Pt{0, 0}, Pt{0, 0}, Pt{120, 0})
	c := l.MapPoints(func(p Pt, _ float64) Pt { return Pt{p.X, p.Y + a*p.X*p.X} }, 0.001)
	near(t, "length", c.Length(), parabolaLength(a, 50)+parabolaLength(a, 120), 0.001)
	for _, q := range sampled(c, 100) {
		near(t, "height", q.Y, a*q.X*q.X, 0.002)
	}
	if k := c.Kinks(1e-3); len(k) > 0 {
		t.Errorf("kinks at %v", k)
	}
	// Each point moved along by its arc length: twice as long, still straight.
	c = l.MapPoints(func(p Pt, at float64) Pt { return Pt{p.X + at, p.Y} }, 0.001)
	if len(c) != 2 || c[0] != Line(Pt{-50, 0}, Pt{50, 0}) || c[1] != Line(Pt{50, 0}, Pt{290, 0}) {
		t.Errorf("stretched to twice its length: %v", c)
	}
}

// displacement draws one of the kinds that changes make: a shear growing along
// the edge, a slow wave across the plane, and a turn with a stretch.
func displacement(r *rand.Rand, length float64) func(p Pt, at float64) Pt {
	by := Pt{between(r, -15, 15), between(r, -15, 15)}
	switch r.IntN(3) {
	case 0:
		return func(p Pt, at float64) Pt {
			u := at / length
			return p.Add(by.Mul(u * u * (3 - 2*u)))
		}
	case 1:
		w := between(r, 0.003, 0.01)
		return func(p Pt, _ float64) Pt { return p.Add(by.Mul(math.Sin(w*p.X) * math.Cos(w*p.Y))) }
	}
	m := Turn(between(r, -3, 3), by)
	m.A, m.B = m.A*1.1, m.B*1.1
	return func(p Pt, _ float64) Pt { return m.Apply(p) }
}

func TestMapPoints(t *testing.T) {
	was, became := 0, 0
	check := func(t rapid.TB, r *rand.Rand) {
		c := smoothEdge(r)
		l := c.Length()
		f := displacement(r, l)
		tol := math.Pow(10, between(r, -3, -1))
		m := c.MapPoints(f, tol)
		was, became = was+len(c), became+len(m)
		if len(m) > 16*len(c) {
			t.Fatalf("%d segments became %d", len(c), len(m))
		}
		if m.Start() != f(c.Start(), 0) || m.End().Dist(f(c.End(), l)) > 1e-9 {
			t.Fatal("an end is not where it was sent")
		}
		if k := m.Kinks(1e-4); len(k) > len(c.Kinks(1e-6)) {
			t.Fatalf("kinks at %v", k)
		}
		var at float64
		var image []Pt
		for _, s := range c {
			for k := range 2000 {
				u := float64(k) / 2000
				image = append(image, f(s.At(u), at+s.LengthTo(u)))
			}
			at += s.Length()
		}
		image = append(image, m.End())
		for k := 0; k < len(image); k += 10 {
			if _, d := m.Nearest(image[k]); d > tol*1.02 {
				t.Fatalf("an image point lies %g from the curve, asked for %g", d, tol)
			}
		}
		for _, q := range sampled(m, 20) {
			if d := bruteDistance(image, q); d > tol*1.02+0.0005 { // the polyline's own error
				t.Fatalf("the curve strays %g from the image, asked for %g", d, tol)
			}
		}
	}
	// Once it lay further out between two samples than at them.
	check(t, rand.New(rand.NewPCG(0x3b2e, 7)))
	rapid.Check(t, func(t *rapid.T) { check(t, dice(t)) })
	t.Logf("%d segments became %d", was, became)
	if became > 4*was {
		t.Errorf("%d segments became %d", was, became)
	}
}

// Edges whose pace changes along them, sheared by arc length: where that was
// taken to the first order only, the curvature asked for was wrong and one
// segment became up to 344.
func TestMapPointsByArcLength(t *testing.T) {
	for _, seed := range []uint64{0x49a, 0x4fc, 0x767, 0x7e6, 0x82e, 0x89e} {
		r := rand.New(rand.NewPCG(seed, 7))
		c := smoothEdge(r)
		f := displacement(r, c.Length())
		if m := c.MapPoints(f, 0.01); len(m) > 6*len(c) {
			t.Errorf("%#x: %d segments became %d", seed, len(c), len(m))
		}
	}
}

// A plane map that keeps lines straight gives the curve's own transform.
func TestMapPointsAffine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := dice(t)
		c := smoothEdge(r)
		m := Affine{between(r, 0.5, 2), between(r, -1, 1), between(r, -0.2, 0.2), between(r, 0.5, 2), between(r, -90, 90), 7}
		got := c.MapPoints(func(p Pt, _ float64) Pt { return m.Apply(p) }, 0.01)
		want := c.Transform(m)
		if d := apart(got, want); d > 0.0102 {
			t.Fatalf("%g from the transform", d)
		}
		straight := func(c Curve) (n int) {
			for _, s := range c {
				if s.Straight {
					n++
				}
			}
			return n
		}
		if straight(got) != straight(want) {
			t.Fatal("a straight segment became curved, or the other way round")
		}
	})
}

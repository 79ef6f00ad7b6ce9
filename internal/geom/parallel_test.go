package geom

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestParallelOfCircle(t *testing.T) {
	for _, d := range []float64{10, 90, -15, -200} {
		p, err := circle(100).Parallel(d)
		if err != nil {
			t.Fatalf("%g: %v", d, err)
		}
		near(t, "length", p.Length(), 2*math.Pi*(100-d), 0.02)
		for _, q := range sampled(p, 20) {
			near(t, "radius", q.Len(), 100-d, 0.01)
		}
		if p.Start().Dist(p.End()) > 1e-9 {
			t.Errorf("%g: a closed curve's parallel is open by %g", d, p.Start().Dist(p.End()))
		}
	}
	_, err := circle(100).Parallel(101)
	var fold *FoldError
	if !errors.As(err, &fold) {
		t.Errorf("beyond the centre: %v", err)
	}
}

// The radius of curvature of y = a·x² is least at the vertex: 1/2a.
func TestParallelFoldsAtVertex(t *testing.T) {
	c := parabola(0.01, -60, 100)
	_, err := c.Parallel(52)
	var fold *FoldError
	if !errors.As(err, &fold) {
		t.Fatalf("52 mm inside a radius of 50: %v", err)
	}
	near(t, "place of the fold", fold.At, parabolaLength(0.01, 60), 0.01)
	for _, d := range []float64{48, -52, -500} {
		if _, err := c.Parallel(d); err != nil {
			t.Errorf("%g mm: %v", d, err)
		}
	}
}

func TestParallelOfPolylines(t *testing.T) {
	sq := append(square(100), Pt{0, 0})
	for _, d := range []float64{10, -10, 49} {
		p, err := Polyline(sq...).Parallel(d)
		if err != nil || len(p) != 4 {
			t.Fatalf("%g: %d segments, %v", d, len(p), err)
		}
		near(t, "area", Area(p.Flatten(1)), (100-2*d)*(100-2*d), 1e-8)
		for _, s := range p {
			if !s.Straight {
				t.Error("a straight side came out curved")
			}
		}
		near(t, "start", p.Start().Dist(Pt{d, d}), 0, 1e-9)
	}
	if _, err := Polyline(sq...).Parallel(51); err == nil {
		t.Error("a square vanished without an error")
	}
	l, err := Polyline(Pt{0, 0}, Pt{100, 0}, Pt{100, 100}).Parallel(-10)
	if err != nil || len(l) != 2 || l[0].P[3].Dist(Pt{110, -10}) > 1e-9 || l.Start() != (Pt{0, -10}) {
		t.Errorf("outside of an angle: %v, %v", l, err)
	}
}

// offBy returns how far points of p are from lying exactly d from c, ignoring
// places whose nearest point is an end of c.
func offBy(p, c Curve, d float64) float64 {
	l, worst := c.Length(), 0.0
	for _, q := range sampled(p, 40) {
		at, dist := c.Nearest(q)
		if at > 1e-6 && at < l-1e-6 {
			worst = max(worst, math.Abs(dist-math.Abs(d)))
		}
	}
	return worst
}

func TestParallelDistance(t *testing.T) {
	drawn, folded, segments, parts := 0, 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		drawn++
		r := dice(t)
		c := smoothEdge(r)
		d := between(r, -40, 40)
		p, err := c.Parallel(d)
		if err != nil {
			folded++
			return
		}
		segments, parts = segments+len(c), parts+len(p)
		if k := p.Kinks(2 * smoothTurn); len(k) > 0 {
			t.Fatalf("smooth joints came apart at %v", k)
		}
		for i := 1; i < len(p); i++ {
			if p[i].P[0] != p[i-1].P[3] {
				t.Fatal("segments do not meet")
			}
		}
		// Brute force: a point of the parallel lies d from the finely sampled
		// curve, unless another part of the curve is nearer still.
		fine := sampled(c, 3000)
		for _, q := range sampled(p, 15) {
			if b := bruteDistance(fine, q); b > math.Abs(d)+parallelTol {
				t.Fatalf("a point lies %g from the curve, not %g", b, d)
			}
		}
		// And every offset point, by the definition, lies on the parallel.
		pp := sampled(p, 1000)
		for _, s := range c {
			for k := range 31 {
				u := float64(k) / 30
				q := s.At(u).Add(s.Tangent(u).Left().Mul(d))
				if b := bruteDistance(pp, q); b > parallelTol {
					t.Fatalf("the parallel misses a point by %g", b)
				}
			}
		}
		// The way back is asked for where the parallel kept a radius well above
		// the accuracy of its refit: at a radius of next to nothing the refitted
		// curve has lost the bend that the way back would open again.
		if leastRadius(c, d) < math.Max(20, math.Abs(d)) {
			return
		}
		back, err := p.Parallel(-d)
		if err != nil {
			t.Fatalf("the way back, where a radius of %.2f mm is left: %v", leastRadius(c, d), err)
		}
		for _, q := range sampled(back, 15) {
			if b := bruteDistance(fine, q); b > 0.03 {
				t.Fatalf("there and back is off by %g", b)
			}
		}
		if back.Start().Dist(c.Start()) > 1e-6 || back.End().Dist(c.End()) > 1e-6 {
			t.Fatal("there and back moved an end")
		}
	})
	t.Logf("%d of %d folded; %d segments became %d", folded, drawn, segments, parts)
	if folded > drawn/2 {
		t.Error("nearly all folded: little was tested")
	}
}

func TestParallelSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := dice(t)
		c := smoothEdge(r)
		d := between(r, -20, 20)
		p, dev, err := c.ParallelSame(d)
		if err != nil {
			return
		}
		if len(p) != len(c) {
			t.Fatalf("%d segments became %d", len(c), len(p))
		}
		for i := range c {
			if p[i].Straight != c[i].Straight {
				t.Fatal("kind of segment not kept")
			}
		}
		fine := sampled(p, 1500)
		worst := 0.0
		for _, s := range c {
			for k := range 101 {
				u := float64(k) / 100
				worst = max(worst, bruteDistance(fine, s.At(u).Add(s.Tangent(u).Left().Mul(d))))
			}
		}
		if worst > dev*1.05+1e-3 {
			t.Fatalf("off by %g, told %g", worst, dev)
		}
	})
}

// A corner between two curves: outside it gains a point, inside it is trimmed.
func TestParallelAtCorners(t *testing.T) {
	c := append(arc(Pt{}, 100, -1.2, 0.3, 3), Line(Pt{}, Pt{}))
	p := c[2].P[3]
	c = append(c, Line(p, p.Add(Pt{-80, 20})))
	in, err := c.Parallel(10)
	if err != nil {
		t.Fatal(err)
	}
	out, err := c.Parallel(-10)
	if err != nil {
		t.Fatal(err)
	}
	c = append(c[:3:3], c[4])
	if got := offBy(in, c, 10); got > parallelTol {
		t.Errorf("inside off by %g", got)
	}
	if k := out.Kinks(0.1); len(k) != 1 {
		t.Errorf("outside has corners at %v", k)
	}
	same, _, err := c.ParallelSame(-10)
	if err != nil || len(same) != len(c) {
		t.Fatalf("kept structure: %d of %d, %v", len(same), len(c), err)
	}
	if same.Start() != out.Start() || same.End() != out.End() {
		t.Error("ends differ between the two ways")
	}
}

// A short side between two inner corners is swallowed: an error, not a loop.
func TestParallelSwallows(t *testing.T) {
	c := Polyline(Pt{0, 0}, Pt{100, 0}, Pt{100, 5}, Pt{0, 5})
	if p, err := c.Parallel(10); err == nil {
		t.Errorf("10 mm inside a slot of 5 mm: %v", p)
	}
}

func TestParallelDegenerate(t *testing.T) {
	z := Line(Pt{5, 5}, Pt{5, 5})
	for _, c := range []Curve{nil, {z}, {z, z}, {Line(Pt{}, Pt{5, 5}), z}, {Cubic(Pt{}, Pt{}, Pt{9, 9}, Pt{9, 9})},
		{Cubic(Pt{}, Pt{}, Pt{}, Pt{9, 3})}, {Cubic(Pt{}, Pt{9, 9}, Pt{}, Pt{9, 9})}, {Cubic(Pt{}, Pt{10, 0}, Pt{-10, 0}, Pt{0, 5})}} {
		for _, d := range []float64{0, 3, -3} {
			if p, err := c.Parallel(d); err == nil && !finite(p) {
				t.Errorf("%v at %g: %v", c, d, p)
			}
			if p, dev, err := c.ParallelSame(d); err == nil && (!finite(p) || math.IsNaN(dev) || len(p) != len(c)) {
				t.Errorf("%v at %g keeping structure: %v", c, d, p)
			}
		}
	}
}

func BenchmarkParallel(b *testing.B) {
	c := Curve{Cubic(Pt{0, 0}, Pt{120, 10}, Pt{260, 60}, Pt{380, 150})}
	for b.Loop() {
		if _, err := c.Parallel(-15); err != nil {
			b.Fatal(err)
		}
	}
}

// leastRadius is the smallest radius that the parallel at d keeps where the
// curve bends towards it, in mm.
func leastRadius(c Curve, d float64) float64 {
	least := math.Inf(1)
	for _, s := range c {
		for k := range 401 {
			bend := s.Curvature(math.Min(math.Max(float64(k)/400, 1e-6), 1-1e-6))
			if bend*d > 0 {
				least = math.Min(least, 1/math.Abs(bend)-math.Abs(d))
			}
		}
	}
	return least
}

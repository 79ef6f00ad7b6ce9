package geom

import (
	"math"
	"math/big"
	"sort"
	"testing"

	"pgregory.net/rapid"
)

func TestCrossingsKnown(t *testing.T) {
	// A line y = h crosses y = a·x² at x = ±√(h/a).
	const a = 0.01
	c := parabola(a, -150, 150)
	for _, h := range []float64{0.5, 4, 100, 200} {
		x := math.Sqrt(h / a)
		got := Crossings(c, Polyline(Pt{-200, h}, Pt{200, h}))
		if len(got) != 2 {
			t.Fatalf("height %g: %d crossings", h, len(got))
		}
		near(t, "left", got[0].P.X, -x, 1e-6)
		near(t, "right", got[1].P.X, x, 1e-6)
		near(t, "along the line", got[1].B, 200+x, 1e-6)
		near(t, "along the curve", got[1].A-got[0].A, 2*parabolaLength(a, x), 1e-5)
	}
	// Two circles of radius r whose centres are s apart meet at half s.
	b := circle(50).Transform(Shift(Pt{60, 0}))
	got := Crossings(circle(50), b)
	if len(got) != 2 {
		t.Fatalf("two circles: %d crossings", len(got))
	}
	for _, x := range got {
		near(t, "x of the circles' crossing", x.P.X, 30, 1e-6)
		near(t, "y of the circles' crossing", math.Abs(x.P.Y), 40, 1e-6)
	}
}

func TestCrossingsAtEnds(t *testing.T) {
	l := Polyline(Pt{0, 0}, Pt{100, 0})
	cases := []struct {
		name string
		a, b Curve
		want []float64
	}{
		{"end on the middle", l, Polyline(Pt{30, 0}, Pt{30, 50}), []float64{30}},
		{"end within a micrometre", l, Polyline(Pt{30, 9e-7}, Pt{30, 50}), []float64{30}},
		{"end short by ten", l, Polyline(Pt{30, 1e-5}, Pt{30, 50}), nil},
		{"shared end", l, Polyline(Pt{100, 0}, Pt{100, 50}), []float64{100}},
		{"through a joint", Polyline(Pt{0, 0}, Pt{50, 0}, Pt{100, 0}), Polyline(Pt{50, -5}, Pt{50, 5}), []float64{50}},
		{"corner reaching", l, Polyline(Pt{20, 10}, Pt{30, 0}, Pt{40, 10}), []float64{30}},
		{"shared stretch", l, Polyline(Pt{20, 0}, Pt{70, 0}), []float64{20, 70}},
		{"itself", l, l, []float64{0, 100}},
		{"apart", l, Polyline(Pt{0, 1}, Pt{100, 1}), nil},
		{"closed curve through its start", circle(50), Polyline(Pt{40, 0}, Pt{60, 0}), []float64{0}},
		{"of no length", Curve{Line(Pt{1, 1}, Pt{1, 1})}, l, nil},
		{"point on it", Curve{Line(Pt{1, 0}, Pt{1, 0})}, l, []float64{0}},
	}
	for _, c := range cases {
		got := Crossings(c.a, c.b)
		ok := len(got) == len(c.want)
		for i := range min(len(got), len(c.want)) {
			ok = ok && math.Abs(got[i].A-c.want[i]) < 1e-6
		}
		if !ok {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

// Curves against fine polylines of them, which cross as often.
func TestCrossingsAgainstPolylines(t *testing.T) {
	var total int
	rapid.Check(t, func(t *rapid.T) {
		r := dice(t)
		a, b := smoothEdge(r), smoothEdge(r)
		pa, pb := sampled(a, 400), sampled(b, 400)
		want := 0
		for i := 1; i < len(pa); i++ {
			for j := 1; j < len(pb); j++ {
				if o1, o2 := Orient(pa[i-1], pa[i], pb[j-1]), Orient(pa[i-1], pa[i], pb[j]); o1*o2 < 0 &&
					Orient(pb[j-1], pb[j], pa[i-1])*Orient(pb[j-1], pb[j], pa[i]) < 0 {
					want++
				}
			}
		}
		got := Crossings(a, b)
		total += len(got)
		if len(got) != want {
			for _, x := range got { // ends within the polylines' error may differ
				if min(x.A, x.B, a.Length()-x.A, b.Length()-x.B) < 0.01 {
					return
				}
			}
			t.Fatalf("%d crossings, of polylines %d", len(got), want)
		}
		for _, x := range got {
			if a.At(x.A).Dist(b.At(x.B)) > 1e-6 {
				t.Fatalf("crossing off by %g", a.At(x.A).Dist(b.At(x.B)))
			}
		}
	})
	if total == 0 {
		t.Error("no pair crossed")
	}
}

// exactMeetings lists the points where polylines of whole coordinates meet, by
// rational numbers: crossings of edges that are not parallel, and ends of one
// polyline lying on the other.
func exactMeetings(a, b []Pt) []Pt {
	seen := map[string]Pt{}
	add := func(x, y *big.Rat) {
		fx, _ := x.Float64()
		fy, _ := y.Float64()
		seen[x.RatString()+" "+y.RatString()] = Pt{fx, fy}
	}
	rat := func(x float64) *big.Rat { return new(big.Rat).SetFloat64(x) }
	ends := func(p Pt, q []Pt) {
		for i := 1; i < len(q); i++ {
			if orientRat(q[i-1], q[i], p) == 0 && inBox(q[i-1], q[i], p) {
				add(rat(p.X), rat(p.Y))
			}
		}
	}
	for _, e := range []int{0, len(a) - 1} {
		ends(a[e], b)
	}
	for _, e := range []int{0, len(b) - 1} {
		ends(b[e], a)
	}
	for i := 1; i < len(a); i++ {
		for j := 1; j < len(b); j++ {
			// Whole numbers below 2¹⁰ keep these products exact.
			d, e, g := a[i].Sub(a[i-1]), b[j].Sub(b[j-1]), b[j-1].Sub(a[i-1])
			den := d.Cross(e)
			if den == 0 {
				continue
			}
			t, u := new(big.Rat).Quo(rat(g.Cross(e)), rat(den)), new(big.Rat).Quo(rat(g.Cross(d)), rat(den))
			one := rat(1)
			if t.Sign() < 0 || u.Sign() < 0 || t.Cmp(one) > 0 || u.Cmp(one) > 0 {
				continue
			}
			x, y := new(big.Rat).Mul(t, rat(d.X)), new(big.Rat).Mul(t, rat(d.Y))
			add(x.Add(x, rat(a[i-1].X)), y.Add(y, rat(a[i-1].Y)))
		}
	}
	var out []Pt
	for _, p := range seen {
		out = append(out, p)
	}
	return sortedPts(out)
}

func sortedPts(pts []Pt) []Pt {
	sort.Slice(pts, func(i, j int) bool {
		if math.Abs(pts[i].X-pts[j].X) > 1e-7 {
			return pts[i].X < pts[j].X
		}
		return pts[i].Y < pts[j].Y
	})
	return pts
}

func compareMeetings(t *testing.T, a, b []Pt) int {
	t.Helper()
	var got []Pt
	for _, x := range Crossings(Polyline(a...), Polyline(b...)) {
		if len(got) == 0 || !x.P.Finite() {
			got = append(got, x.P)
			continue
		}
		known := false // one place may be passed more than once
		for _, p := range got {
			known = known || p.Dist(x.P) < 1e-7
		}
		if !known {
			got = append(got, x.P)
		}
	}
	got = sortedPts(got)
	want := exactMeetings(a, b)
	if len(got) != len(want) {
		t.Fatalf("%v and %v meet at %v, exactly %v", a, b, got, want)
	}
	for i := range got {
		if got[i].Dist(want[i]) > 1e-7 {
			t.Fatalf("%v and %v meet at %v, exactly %v", a, b, got, want)
		}
	}
	return len(got)
}

func FuzzCrossings(f *testing.F) {
	f.Add([]byte{0, 0, 9, 9}, []byte{9, 0, 0, 9})
	f.Add([]byte{0, 0, 9, 0, 9, 9}, []byte{3, 0, 7, 0, 12, 5, 9, 9})
	f.Fuzz(func(t *testing.T, ra, rb []byte) {
		line := func(raw []byte) []Pt {
			var pts []Pt
			for i := 0; i+1 < len(raw) && i < 24; i += 2 {
				p := Pt{float64(raw[i] % 32), float64(raw[i+1] % 32)}
				if len(pts) == 0 || pts[len(pts)-1] != p {
					pts = append(pts, p)
				}
			}
			return pts
		}
		if a, b := line(ra), line(rb); len(a) > 1 && len(b) > 1 {
			compareMeetings(t, a, b)
		}
	})
}

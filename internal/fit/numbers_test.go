package fit

import (
	"math"
	"slices"
	"testing"

	"gusset/internal/geom"
	"pgregory.net/rapid"
)

func TestBetweenAndInvert(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 12).Draw(t, "sizes")
		v := make([]float64, n)
		for i := range v {
			v[i] = rapid.Float64Range(-50, 50).Draw(t, "value")
		}
		s := rapid.Float64Range(0, float64(n-1)).Draw(t, "s")
		i := min(int(s), n-2)
		if got := between(v, s); got < min(v[i], v[i+1]) || got > max(v[i], v[i+1]) {
			t.Fatalf("%g at %g overshoots %g..%g", got, s, v[i], v[i+1])
		}
		slices.Sort(v)
		for k := range v {
			v[k] += float64(k) // rising
		}
		if got := invert(v, between(v, s)); math.Abs(between(v, got)-between(v, s)) > 1e-9 {
			t.Fatalf("%g comes back as %g", s, got)
		}
	})
	even := []float64{10, 12, 14, 16, 18}
	for _, s := range []float64{0, 0.3, 1, 2.5, 4} {
		if got := between(even, s); math.Abs(got-10-2*s) > 1e-12 {
			t.Errorf("an even row at %g gives %g", s, got)
		}
	}
}

// A chart and garment widths that grade alike keep one ease at every size
// between, since both are read off the same curve.
func TestEaseIsKeptBetweenSizes(t *testing.T) {
	widths := make([]float64, len(hips))
	for i, h := range hips {
		widths[i] = 1.5 + h/4
	}
	for h := hips[0]; h < hips[len(hips)-1]; h += 0.3 {
		if got := between(widths, invert(hips, h)); math.Abs(got-1.5-h/4) > 1e-9 {
			t.Errorf("hip %g in: width %g, want %g", h, got, 1.5+h/4)
		}
	}
}

// What joins tell a piece without levels: one size is constant, a size that
// rises with the height is a function of it, anything else stays between the
// sizes read.
func TestGatheredSizes(t *testing.T) {
	var up, round []known
	for k := range 41 {
		y := float64(k) * 5
		up = append(up, known{geom.Pt{X: 40, Y: y}, 1 + y/100})
		round = append(round, known{geom.Pt{X: 0, Y: y}, 1}, known{geom.Pt{X: 100, Y: y}, 3})
	}
	f, ok := byHeight(up)
	if !ok {
		t.Fatal("a size that rises with the height is not taken so")
	}
	for _, y := range []float64{-20, 0, 50, 123, 200, 300} {
		want := 1 + min(max(y, 0), 200)/100
		if got := f(geom.Pt{X: -300, Y: y}); math.Abs(got-want) > 0.05 {
			t.Errorf("at %g mm: %g, want %g", y, got, want)
		}
	}
	if _, ok := byHeight(round); ok {
		t.Error("two sizes at one height are taken for a function of it")
	}
	g := scattered(round)
	for x := 0.0; x <= 100; x += 10 {
		if s := g(geom.Pt{X: x, Y: 82}); s < 1 || s > 3 {
			t.Errorf("%g lies outside the sizes read", s)
		}
	}
	if s := g(geom.Pt{X: 100, Y: 100}); math.Abs(s-3) > 1e-3 {
		t.Errorf("on the edge %g, read 3", s)
	}
}

package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// An L-shaped polygon, so that inside points see some corners from behind.
var ell = []Pt{{0, 0}, {90, 0}, {90, 30}, {40, 35}, {40, 120}, {0, 120}}

// Linear precision (Floater 2003, proposition 1): a shift that is linear over
// the plane comes back as it is, inside, outside and on the polygon.
func TestMeanValueLinear(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		f := rapid.Float64Range(-2, 2)
		m := Affine{A: f.Draw(rt, "a"), B: f.Draw(rt, "b"), C: f.Draw(rt, "c"), D: f.Draw(rt, "d"), E: f.Draw(rt, "e"), F: f.Draw(rt, "f")}
		shift := make([]Pt, len(ell))
		for i, p := range ell {
			shift[i] = m.Apply(p)
		}
		q := Pt{rapid.Float64Range(1, 39).Draw(rt, "x"), rapid.Float64Range(1, 119).Draw(rt, "y")}
		if d := MeanValue(ell, shift, q).Dist(m.Apply(q)); d > 1e-9 {
			rt.Fatalf("%v comes out %g away", q, d)
		}
	})
}

// On a side the shift runs evenly between its ends, and nothing jumps there.
func TestMeanValueOnSide(t *testing.T) {
	shift := []Pt{{}, {1, 2}, {3, -1}, {}, {0, 5}, {-4, 0}}
	for i, p := range ell {
		next, u := ell[(i+1)%len(ell)], 0.3
		want := shift[i].Lerp(shift[(i+1)%len(ell)], u)
		q := p.Lerp(next, u)
		if d := MeanValue(ell, shift, q).Dist(want); d > 1e-9 {
			t.Errorf("side %d: %g off", i, d)
		}
		in := q.Add(next.Sub(p).Unit().Left().Mul(1e-4))
		if d := MeanValue(ell, shift, in).Dist(want); math.IsNaN(d) || d > 1e-2 {
			t.Errorf("side %d: jumps by %g", i, d)
		}
	}
}

// Near a side, on either hand of it and at any distance, a linear shift comes back
// as it was given (the coordinates reproduce linear functions), and is a number.
func TestMeanValueNearASide(t *testing.T) {
	ring := []Pt{{0, 0}, {300, 0}, {310, 200}, {150, 260}, {0, 200}}
	linear := func(q Pt) Pt { return Pt{0.01*q.X - 0.002*q.Y + 3, 0.004*q.X + 0.02*q.Y - 1} }
	shift := make([]Pt, len(ring))
	for i, p := range ring {
		shift[i] = linear(p)
	}
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		for _, along := range []float64{0.001, 0.1, 0.5, 0.77, 0.999} {
			for k := 0; k <= 40; k++ {
				off := math.Pow(10, -float64(k)/2.5)
				for _, side := range []float64{1, -1} {
					q := a.Lerp(b, along).Add(b.Sub(a).Unit().Left().Mul(side * off))
					if got, want := MeanValue(ring, shift, q), linear(q); !(got.Dist(want) < 1e-6) && side > 0 && off < 1 {
						t.Fatalf("%g mm inside side %d at %g of it: %v, want %v", off, i, along, got, want)
					} else if !got.Finite() {
						t.Fatalf("%g mm outside side %d: %v", off, i, got)
					}
				}
			}
		}
	}
}

package geom

import (
	"math/big"
	"math/rand/v2"
	"testing"
)

// orientRat decides with rational numbers, sharing nothing with Orient.
func orientRat(a, b, c Pt) int {
	r := func(x float64) *big.Rat { return new(big.Rat).SetFloat64(x) }
	sub := func(x, y float64) *big.Rat { return r(0).Sub(r(x), r(y)) }
	l := r(0).Mul(sub(b.X, a.X), sub(c.Y, a.Y))
	m := r(0).Mul(sub(b.Y, a.Y), sub(c.X, a.X))
	return l.Cmp(m)
}

// Kettner, Mehlhorn, Pion, Schirra and Yap, Classroom Examples of Robustness
// Problems in Geometric Computations, Computational Geometry 40, 2008: points
// one unit in the last place apart near a line, where rounding fails.
func TestOrientNearLine(t *testing.T) {
	wrong := 0
	for i := range 64 {
		for j := range 64 {
			p := Pt{0.5 + float64(i)*0x1p-53, 0.5 + float64(j)*0x1p-53}
			q, r := Pt{12, 12}, Pt{24, 24}
			if Orient(p, q, r) != orientRat(p, q, r) {
				wrong++
			}
		}
	}
	if wrong > 0 {
		t.Errorf("%d of 4096 wrong", wrong)
	}
}

func TestOrientAgainstRational(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	scales := []float64{1e-300, 1e-160, 1e-12, 1, 1e9, 1e150, 1e300}
	for range 20000 {
		k := scales[rng.IntN(len(scales))]
		pt := func() Pt { return Pt{float64(rng.IntN(7)-3) * k, float64(rng.IntN(7)-3) * k} }
		a, b, c := pt(), pt(), pt()
		if rng.IntN(2) == 0 { // nearly in line
			c = a.Lerp(b, rng.Float64())
		}
		if got, want := Orient(a, b, c), orientRat(a, b, c); got != want {
			t.Fatalf("orient %v %v %v = %d, want %d", a, b, c, got, want)
		}
	}
}

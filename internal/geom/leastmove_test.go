package geom

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// Against gonum's QR solution of the same system (its least-norm solution for
// fewer conditions than unknowns), with the weights put into the unknowns.
func TestLeastMove(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(1, 4).Draw(rt, "conditions")
		m := n + rapid.IntRange(1, 6).Draw(rt, "more unknowns")
		num := rapid.Float64Range(-10, 10)
		rows, rhs, ready := make([][]float64, n), make([]float64, n), make([]float64, m)
		for k := range ready {
			ready[k] = rapid.Float64Range(0.1, 20).Draw(rt, "ready")
		}
		a := mat.NewDense(n, m, nil)
		for i := range rows {
			rows[i], rhs[i] = make([]float64, m), num.Draw(rt, "rhs")
			for k := range m {
				rows[i][k] = float64(rapid.IntRange(1, 9).Draw(rt, "row")) * rapid.SampledFrom([]float64{-1, 1}).Draw(rt, "sign")
				a.Set(i, k, rows[i][k]*math.Sqrt(ready[k]))
			}
		}
		var lq mat.LQ
		lq.Factorize(a)
		if lq.Cond() > 1e3 {
			rt.Skip("conditions nearly repeat each other")
		}
		var want mat.VecDense
		if err := lq.SolveVecTo(&want, false, mat.NewVecDense(n, rhs)); err != nil {
			rt.Fatal(err)
		}
		for k, got := range LeastMove(rows, rhs, ready) {
			if w := want.AtVec(k) * math.Sqrt(ready[k]); math.Abs(got-w) > 1e-2*(1+math.Abs(w)) {
				rt.Fatalf("x[%d] = %g, gonum says %g", k, got, w)
			}
		}
	})
}

// Repeated conditions do no harm; an unknown that is not ready stays.
func TestLeastMoveRepeated(t *testing.T) {
	x := LeastMove([][]float64{{1, 1, 1}, {1, 1, 1}}, []float64{6, 6}, []float64{1, 1, 0})
	if math.Abs(x[0]-3) > 1e-6 || math.Abs(x[1]-3) > 1e-6 || x[2] != 0 {
		t.Errorf("got %v, want 3, 3, 0", x)
	}
}

// The least movement against two rows, worked by hand: x+y = 2 moves both by 1;
// with y four times as ready, y takes four fifths; a row said twice changes
// nothing.
func TestLeastMoveByHand(t *testing.T) {
	for _, c := range []struct {
		rows [][]float64
		rhs  []float64
		w    []float64
		want []float64
	}{
		{[][]float64{{1, 1}}, []float64{2}, []float64{1, 1}, []float64{1, 1}},
		{[][]float64{{1, 1}}, []float64{2}, []float64{1, 4}, []float64{0.4, 1.6}},
		{[][]float64{{1, 1}, {1, 1}}, []float64{2, 2}, []float64{1, 1}, []float64{1, 1}},
		{[][]float64{{1, 1}, {1, -1}}, []float64{3, 1}, []float64{1, 1}, []float64{2, 1}},
	} {
		got := LeastMove(c.rows, c.rhs, c.w)
		for i := range got {
			if math.Abs(got[i]-c.want[i]) > 1e-6 {
				t.Errorf("%v: %v, want %v", c.rows, got, c.want)
			}
		}
	}
}

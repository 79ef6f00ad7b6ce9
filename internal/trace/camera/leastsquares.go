package camera

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// leastSquares moves x to where the sum of the squares of f is least (Marquardt,
// An Algorithm for Least-Squares Estimation of Nonlinear Parameters, SIAM
// Journal on Applied Mathematics 11(2), 1963), with derivatives by differences.
// It returns the place and the sum; false when f is no number there.
func leastSquares(x []float64, f func([]float64) []float64) ([]float64, float64, bool) {
	r := f(x)
	cost := sumOfSquares(r)
	damping := 1e-3
	for range 100 {
		jt, g := slopes(x, r, f)
		was := cost
		moved := false
		for range 12 {
			y, ok := damped(x, jt, g, damping)
			if ok {
				if s := f(y); sumOfSquares(s) < cost {
					x, r, cost, moved = y, s, sumOfSquares(s), true
					damping = max(damping/5, 1e-12)
					break
				}
			}
			damping *= 6
		}
		if !moved || was-cost < 1e-10*(1+cost) {
			break
		}
	}
	return x, cost, !math.IsNaN(cost) && !math.IsInf(cost, 0)
}

// slopes returns the normal matrix and the downhill vector at x.
func slopes(x, r []float64, f func([]float64) []float64) (*mat.SymDense, *mat.VecDense) {
	n := len(x)
	j := mat.NewDense(len(r), n, nil)
	for k := range x {
		const h = 1e-4
		y := append([]float64(nil), x...)
		y[k] += h
		up := f(y)
		y[k] = x[k] - h
		down := f(y)
		for i := range r {
			j.Set(i, k, (up[i]-down[i])/(2*h))
		}
	}
	var jt mat.SymDense
	jt.SymOuterK(1, j.T())
	g := mat.NewVecDense(n, nil)
	g.MulVec(j.T(), mat.NewVecDense(len(r), append([]float64(nil), r...)))
	g.ScaleVec(-1, g)
	return &jt, g
}

// damped returns x moved by one damped step.
func damped(x []float64, jt *mat.SymDense, g *mat.VecDense, damping float64) ([]float64, bool) {
	n := len(x)
	a := mat.NewSymDense(n, nil)
	a.CopySym(jt)
	for k := range n {
		d := a.At(k, k)
		a.SetSym(k, k, d*(1+damping)+1e-12)
	}
	var c mat.Cholesky
	if !c.Factorize(a) {
		return nil, false
	}
	var step mat.VecDense
	if err := c.SolveVecTo(&step, g); err != nil {
		return nil, false
	}
	y := make([]float64, n)
	for k := range y {
		y[k] = x[k] + step.AtVec(k)
		if math.IsNaN(y[k]) {
			return nil, false
		}
	}
	return y, true
}

func sumOfSquares(r []float64) float64 {
	var s float64
	for _, v := range r {
		s += v * v
	}
	return s
}

package geom

import "gonum.org/v1/gonum/mat"

// LeastMove returns the smallest movement x with rows · x = rhs, that is, the
// one with the least sum of x²/ready. An unknown with a readiness of zero stays
// where it is. Conditions that contradict each other are met as nearly as can
// be.
//
// It is the weighted least-norm solution x = W Aᵀ (A W Aᵀ)⁻¹ b (Golub and Van
// Loan, Matrix Computations, on underdetermined systems), with a trace added to
// the diagonal so that repeated conditions do no harm.
func LeastMove(rows [][]float64, rhs, ready []float64) []float64 {
	n := len(rows)
	x := make([]float64, len(ready))
	if n == 0 {
		return x
	}
	gram := mat.NewSymDense(n, nil)
	largest := 0.0
	for i := range n {
		for j := range i + 1 {
			v := weighted(rows[i], rows[j], ready)
			gram.SetSym(i, j, v)
			if i == j {
				largest = max(largest, v)
			}
		}
	}
	for i := range n {
		gram.SetSym(i, i, gram.At(i, i)+float64(1e-8*largest)+1e-12)
	}
	var factor mat.Cholesky
	if !factor.Factorize(gram) {
		return x
	}
	y := mat.NewVecDense(n, nil)
	if err := factor.SolveVecTo(y, mat.NewVecDense(n, rhs)); err != nil {
		if _, rough := err.(mat.Condition); !rough { // a poorly conditioned answer is still the best there is
			return x
		}
	}
	for i, row := range rows {
		for k, v := range row {
			x[k] += float64(v * y.AtVec(i) * ready[k])
		}
	}
	return x
}

func weighted(a, b, w []float64) float64 {
	var sum float64
	for i, v := range a {
		sum += float64(v * b[i] * w[i])
	}
	return sum
}

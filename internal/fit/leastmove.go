package fit

import "math"

// leastMove solves rows · x = rhs for the x with the smallest sum of squares,
// each weighed by one over its readiness w: XX
func leastMove(rows [][]float64, rhs, w []float64) []float64 {
	n := len(rows)
	m := make([][]float64, n)
	largest := 0.0
	for i := range m {
		m[i] = make([]float64, n)
		for j := 0; j <= i; j++ {
			m[i][j] = dot(rows[i], rows[j], w)
		}
		largest = math.Max(largest, m[i][i])
	}
	for i := range m {
		m[i][i] += float64(1e-8*largest) + 1e-12
	}
	y := cholesky(m, rhs)
	x := make([]float64, len(rows[0]))
	for i, row := range rows {
		for k, v := range row {
			x[k] += float64(v * y[i] * w[k])
		}
	}
	return x
}

func dot(a, b, w []float64) float64 {
	var sum float64
	for i, v := range a {
		sum += float64(v * b[i] * w[i])
	}
	return sum
}

// cholesky solves the symmetric positive definite system whose lower half is m
// (Golub and Van Loan, Matrix Computations, section 4.2). It overwrites m.
func cholesky(m [][]float64, rhs []float64) []float64 {
	n := len(m)
	for j := range n {
		for i := j; i < n; i++ {
			sum := m[i][j]
			for k := range j {
				sum -= float64(m[i][k] * m[j][k])
			}
			if i == j {
				m[j][j] = math.Sqrt(math.Max(sum, 1e-14))
			} else {
				m[i][j] = sum / m[j][j]
			}
		}
	}
	x := append([]float64(nil), rhs...)
	for i := range n {
		for k := range i {
			x[i] -= float64(m[i][k] * x[k])
		}
		x[i] /= m[i][i]
	}
	for i := n - 1; i >= 0; i-- {
		for k := i + 1; k < n; k++ {
			x[i] -= float64(m[k][i] * x[k])
		}
		x[i] /= m[i][i]
	}
	return x
}

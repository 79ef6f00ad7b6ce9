package body

import "math"

// normal is a multivariate normal distribution over some of our measures.
type normal struct {
	mean []float64
	cov  [][]float64
}

// over returns the distribution of readings of measures in a group: the
// survey's, moved by the offsets and widened by their spread and by the tape's.
func (g group) over(ms []surveyed, waistAt string) normal {
	d := normal{mean: make([]float64, len(ms)), cov: square(len(ms))}
	for i, a := range ms {
		ia, o := g.index[a.key], a.offset(waistAt)
		d.mean[i] = g.mean[ia] + o.mean
		for j, b := range ms {
			d.cov[i][j] = g.cov(ia, g.index[b.key])
		}
		d.cov[i][i] += float64(o.sd*o.sd) + float64(tapeSD*tapeSD)
	}
	return d
}

// leaveOneOut says of every value what the others lead one to expect, with what
// standard deviation. With P the inverse of the covariances and r the
// deviations from the mean, value i is expected at x_i − (P·r)_i / P_ii with
// the variance 1 / P_ii (the conditional normal distribution, written with the
// precision matrix; any textbook of multivariate statistics).
func (d normal) leaveOneOut(x []float64) (expected, sd []float64) {
	p, _ := inverse(d.cov)
	expected, sd = make([]float64, len(x)), make([]float64, len(x))
	for i := range x {
		var pull float64
		for j := range x {
			pull += float64(p[i][j] * (x[j] - d.mean[j]))
		}
		expected[i], sd[i] = x[i]-pull/p[i][i], math.Sqrt(1/p[i][i])
	}
	return expected, sd
}

// logDensity is the logarithm of the density at x, but for a constant that
// depends on the number of values only.
func (d normal) logDensity(x []float64) float64 {
	p, logDet := inverse(d.cov)
	q := logDet
	for i := range x {
		for j := range x {
			q += float64(float64(p[i][j]*(x[i]-d.mean[i])) * (x[j] - d.mean[j]))
		}
	}
	return -q / 2
}

// inverse inverts a positive definite matrix by Cholesky's factorisation, and
// returns the logarithm of its determinant too. The survey's covariances with
// the tape's variance added are positive definite.
func inverse(m [][]float64) (inv [][]float64, logDet float64) {
	n := len(m)
	l := square(n)
	for i := range n {
		for j := 0; j <= i; j++ {
			s := m[i][j]
			for k := range j {
				s -= float64(l[i][k] * l[j][k])
			}
			if i == j {
				l[i][i] = math.Sqrt(s)
				logDet += 2 * math.Log(l[i][i])
			} else {
				l[i][j] = s / l[j][j]
			}
		}
	}
	inv = square(n)
	for c := range n { // solve L·Lᵀ·column = unit vector c
		y := make([]float64, n)
		for i := range n {
			if i == c {
				y[i] = 1
			}
			for k := range i {
				y[i] -= float64(l[i][k] * y[k])
			}
			y[i] /= l[i][i]
		}
		for i := n - 1; i >= 0; i-- {
			for k := i + 1; k < n; k++ {
				y[i] -= float64(l[k][i] * inv[k][c])
			}
			inv[i][c] = y[i] / l[i][i]
		}
	}
	return inv, logDet
}

func square(n int) [][]float64 {
	m := make([][]float64, n)
	for i := range m {
		m[i] = make([]float64, n)
	}
	return m
}

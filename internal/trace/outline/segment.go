package outline

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// class is a sort of surface: what it looks like on average, and how that
// varies.
type class struct {
	mean [3]float64
	cov  *mat.SymDense
	n    float64
}

// least is added to the standard deviation of every look: near an edge colour
// runs from one side to the other, more than it varies elsewhere.
const least = 0.05

// classOf gathers the cells that are taken.
func (g *grid) classOf(take func(k int) bool) class {
	c := class{cov: mat.NewSymDense(3, nil)}
	var sum [3]float64
	var sq [3][3]float64
	for k := range g.look {
		if !take(k) {
			continue
		}
		c.n++
		for i := range sum {
			v := float64(g.look[k][i])
			sum[i] += v
			for j := range i + 1 {
				sq[i][j] += v * float64(g.look[k][j])
			}
		}
	}
	for i := range sum {
		c.mean[i] = sum[i] / max(c.n, 1)
	}
	for i := range sum {
		for j := range i + 1 {
			c.cov.SetSym(i, j, sq[i][j]/max(c.n, 1)-c.mean[i]*c.mean[j])
		}
		c.cov.SetSym(i, i, c.cov.At(i, i)+least*least)
	}
	return c
}

// far returns the squared Mahalanobis distance of a cell's look, for a class.
func (c class) far() func(look [3]float32) float64 {
	var chol mat.Cholesky
	chol.Factorize(c.cov)
	var inv mat.SymDense
	_ = chol.InverseTo(&inv)
	return func(look [3]float32) float64 {
		var d [3]float64
		for i := range d {
			d[i] = float64(look[i]) - c.mean[i]
		}
		var s float64
		for i := range d {
			for j := range d {
				s += d[i] * d[j] * inv.At(i, j)
			}
		}
		return s
	}
}

// tableSeeds returns the class of the table from a ring 6 to 18 mm outside each
// card. Half of a ring may be something else: only what lies near the middle
// value is kept.
func (g *grid) tableSeeds(cards []Card, shot int8) (class, bool) {
	ring := func(k int) bool {
		if g.shot[k] != shot {
			return false
		}
		p := g.middle(k%g.nx, k/g.nx)
		for _, c := range cards {
			if c.covers(p, 18) && !c.covers(p, 6) {
				return true
			}
		}
		return false
	}
	var values [3][]float64
	for k := range g.look {
		if ring(k) {
			for i := range values {
				values[i] = append(values[i], float64(g.look[k][i]))
			}
		}
	}
	if len(values[0]) < 200 {
		return class{}, false
	}
	var mid, spread [3]float64
	for i, v := range values {
		mid[i] = median(v)
		for j := range v {
			v[j] = math.Abs(v[j] - mid[i])
		}
		spread[i] = max(1.4826*median(v), 0.01)
	}
	return g.classOf(func(k int) bool {
		for i := range mid {
			if math.Abs(float64(g.look[k][i])-mid[i]) > 3.5*spread[i] {
				return false
			}
		}
		return ring(k)
	}), true
}

// split tells paper from table in the cells of one photo: what is unlike the
// table to begin with, then three rounds of a linear discriminant (Fisher, The
// Use of Multiple Measurements in Taxonomic Problems, Annals of Eugenics 7,
// 1936). paper is set for cells of paper.
func (g *grid) split(cards []Card, shot int8, paper []bool) bool {
	table, ok := g.tableSeeds(cards, shot)
	if !ok {
		return false
	}
	far := table.far()
	count := 0
	for k := range paper {
		if g.shot[k] == shot {
			paper[k] = far(g.look[k]) > 40
			if paper[k] {
				count++
			}
		}
	}
	for range 3 {
		if count < 200 {
			return false
		}
		a := g.classOf(func(k int) bool { return g.shot[k] == shot && !paper[k] })
		b := g.classOf(func(k int) bool { return g.shot[k] == shot && paper[k] })
		if a.n < 200 || b.n < 200 {
			return false
		}
		w, limit := discriminant(a, b)
		count = 0
		for k := range paper {
			if g.shot[k] != shot {
				continue
			}
			var v float64
			for i := range w {
				v += w[i] * float64(g.look[k][i])
			}
			paper[k] = v > limit
			if paper[k] {
				count++
			}
		}
	}
	return count > 200
}

// discriminant returns the direction that tells b from a best, and the limit
// between them, as far from either in its own standard deviations.
func discriminant(a, b class) (w [3]float64, limit float64) {
	var within mat.SymDense
	within.AddSym(a.cov, b.cov)
	d := mat.NewVecDense(3, []float64{b.mean[0] - a.mean[0], b.mean[1] - a.mean[1], b.mean[2] - a.mean[2]})
	var v mat.VecDense
	if err := v.SolveVec(&within, d); err != nil {
		v.CopyVec(d)
	}
	var ma, mb float64
	for i := range w {
		w[i] = v.AtVec(i)
		ma, mb = ma+w[i]*a.mean[i], mb+w[i]*b.mean[i]
	}
	sa, sb := math.Sqrt(mat.Inner(&v, a.cov, &v)), math.Sqrt(mat.Inner(&v, b.cov, &v))
	// What is wrongly counted to one side makes it look wide: the limit stays in
	// the middle third.
	return w, ma + (mb-ma)*min(max(sa/(sa+sb), 0.35), 0.65)
}

package nest

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// cutUp cuts a rectangle by straight cuts from side to side into n rectangles:
// a problem known to be feasible in a strip a hair wider.
func cutUp(rng *rand.Rand, long, wide float64, n int) [][2]float64 {
	out := [][2]float64{{long, wide}}
	for len(out) < n {
		k := rng.IntN(len(out))
		at := 0.3 + 0.4*rng.Float64()
		r := out[k]
		if r[0] > r[1] {
			out[k] = [2]float64{r[0] * at, r[1]}
			out = append(out, [2]float64{r[0] * (1 - at), r[1]})
		} else {
			out[k] = [2]float64{r[0], r[1] * at}
			out = append(out, [2]float64{r[0], r[1] * (1 - at)})
		}
	}
	return out
}

// Small cut-up rectangles go back together, in whatever order the pieces are
// named, and pieces and container mirrored too: to 3 % of the length known to
// be possible, with a hundredth to spare across.
func TestCutUpAnyOrderMirrored(t *testing.T) {
	for seed := range uint64(8) {
		rng := rand.New(rand.NewPCG(seed, 1))
		var parts, mirrored []Part
		for _, r := range cutUp(rng, 1000, 600, 5) {
			parts = append(parts, still(rect(r[0], r[1])))
		}
		rng.Shuffle(len(parts), func(i, j int) { parts[i], parts[j] = parts[j], parts[i] })
		for _, q := range parts {
			m := Part{Poses: q.Poses}
			for _, v := range q.Shape {
				m.Shape = append(m.Shape, Pt{v.X, -v.Y})
			}
			slices.Reverse(m.Shape)
			mirrored = append(mirrored, m)
		}
		for _, list := range [][]Part{parts, mirrored} {
			l, _ := solve(t, Problem{Containers: []Container{{Width: 606}}, Parts: list}, Budget{Rounds: 1500, Lanes: 1, Seed: 1})
			if l.Length > 1030 {
				t.Errorf("case %d: length %.1f, 1000 is possible", seed, l.Length)
			}
		}
	}
}

package geom

import (
	"math"
	"testing"
)

// An inseam whose best single cubic is not found by the first full step: the
// parallel is within a thousandth of a millimetre when the step is halved.
func TestParallelSameFindsTheFit(t *testing.T) {
	c := Curve{Cubic(Pt{66.1613, -379.7823}, Pt{83.6084, -472.2122}, Pt{95.3198, -550.358}, Pt{93.2699, -664.5558})}
	o, told, err := c.ParallelSame(15)
	if err != nil {
		t.Fatal(err)
	}
	worst := 0.0
	for i := range 200 {
		_, d := c.Nearest(o[0].At(float64(i) / 199))
		worst = math.Max(worst, math.Abs(d-15))
	}
	if worst > 1e-3 || told > 1e-3 {
		t.Errorf("off by %.6f mm, said to be %.6f", worst, told)
	}
}

package geom

import "testing"

// A whole first step leads away from the parallel of this side seam, so that a
// fit which gave up there stayed 0.15 mm off; shorter steps get there.
func TestFitNearest(t *testing.T) {
	side := Curve{Cubic(Pt{400.104, 762.3708}, Pt{375.02, 809.1716}, Pt{358.4042, 858.7503}, Pt{358.7525, 912.8943})}
	for _, d := range []float64{-20, -5, -1, 1, 2, 5, 10, 15, 20} {
		got, off, err := side.ParallelSame(d)
		if err != nil || off > 0.001 {
			t.Errorf("parallel at %g mm: said to be %.4f mm off, %v", d, off, err)
			continue
		}
		for k := range 50 { // measured against the definition
			p := side.At(side.Length() * float64(k) / 49)
			_, dist := got.Nearest(p)
			if miss := dist - max(d, -d); miss > 0.001 || miss < -0.001 {
				t.Errorf("parallel at %g mm: %.4f mm from the seam at point %d", d, dist, k)
			}
		}
	}
}

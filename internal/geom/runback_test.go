package geom

import (
	"math"
	"testing"
)

// TestFitDoesNotRunBack: where points lie almost in line their distance from
// the curve says next to nothing of the handles, yet the curve must not run past
// its end and back: its length must be that of the points. The case is the side
// of a trouser leg, moved along the grain by a ramp that only touches its end.
func TestFitDoesNotRunBack(t *testing.T) {
	for _, by := range []float64{-40, 25, 60, 94} {
		ramp := func(q Pt) Pt {
			u := min(max((601.6-q.Y)/112.5, 0), 1)
			q.Y -= by * u * u * u * (u*(u*6-15) + 10) // smooth from 0 to 1
			return q
		}
		side := Curve{Line(Pt{339.125, 86.634}, Pt{331.625, 505.296})}
		moved := side.MapPoints(func(q Pt, _ float64) Pt { return ramp(q) }, 0.01)
		var want float64
		const n = 4000
		last := ramp(side.Start())
		for i := 1; i <= n; i++ {
			p := ramp(side[0].At(float64(i) / n))
			want += p.Dist(last)
			last = p
		}
		if got := moved.Length(); math.Abs(got-want) > 0.01 {
			t.Errorf("moved by %g mm the side is %.3f mm long, its points %.3f mm", by, got, want)
		}
	}
}

package outline

import (
	"cmp"
	"slices"

	"gusset/internal/geom"
)

func sortPoints(pts []geom.Pt) {
	slices.SortFunc(pts, func(a, b geom.Pt) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
}

func reversePoints(pts []geom.Pt) { slices.Reverse(pts) }

// median returns the middle value; v is sorted by it.
func median(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	slices.Sort(v)
	return v[len(v)/2]
}

// resampled returns points on a closed line at equal distances of about step.
func resampled(loop []geom.Pt, step float64) []geom.Pt {
	n := max(int(geom.Perimeter(loop)/step), 8)
	step = geom.Perimeter(loop) / float64(n)
	out := make([]geom.Pt, 0, n)
	gone := 0.0
	for i, a := range loop {
		b := loop[(i+1)%len(loop)]
		l := a.Dist(b)
		for len(out) < n && float64(len(out))*step <= gone+l {
			t := 0.0
			if l > 0 {
				t = (float64(len(out))*step - gone) / l
			}
			out = append(out, a.Lerp(b, t))
		}
		gone += l
	}
	return out
}

// averaged smooths a closed line by a running mean over reach points to each
// side, done twice.
func averaged(loop []geom.Pt, reach int) []geom.Pt {
	n := len(loop)
	for range 2 {
		out := make([]geom.Pt, n)
		for i := range loop {
			var sum geom.Pt
			for k := -reach; k <= reach; k++ {
				sum = sum.Add(loop[((i+k)%n+n)%n])
			}
			out[i] = sum.Mul(1 / float64(2*reach+1))
		}
		loop = out
	}
	return loop
}

// heading is the direction of a closed line at point i, from reach points
// before to reach after.
func heading(loop []geom.Pt, i, reach int) geom.Pt {
	n := len(loop)
	return loop[(i+reach)%n].Sub(loop[((i-reach)%n+n)%n]).Unit()
}

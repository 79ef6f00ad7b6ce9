package geosref

import (
	"math/rand/v2"

	"github.com/twpayne/go-geos"

	"gusset/internal/geom"
)

func between(r *rand.Rand, lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }

// region builds a GEOS geometry from loops whose holes run clockwise.
func region(loops [][]geom.Pt) *geos.Geom {
	all := geos.NewEmptyPolygon()
	for _, l := range loops {
		if geom.Area(l) > 0 {
			all = all.Union(polygon(l))
		}
	}
	for _, l := range loops {
		if geom.Area(l) < 0 {
			all = all.Difference(polygon(l))
		}
	}
	return all
}

// wall is the boundary of a polygon.
func wall(pts []geom.Pt) *geos.Geom {
	var line [][]float64
	for _, p := range pts {
		line = append(line, []float64{p.X, p.Y})
	}
	return geos.NewLineString(append(line, line[0]))
}

func areaSum(loops [][]geom.Pt) (sum float64) {
	for _, l := range loops {
		sum += geom.Area(l)
	}
	return sum
}

// outline draws a closed counter-clockwise curve as pieces have them: edges
// between the corners of a star straight, bulging, hollow or waved.
func outline(r *rand.Rand) geom.Curve {
	pts := star(r, 3+r.IntN(6), geom.Pt{}, between(r, 80, 400))
	var c geom.Curve
	for i, p := range pts {
		q := pts[(i+1)%len(pts)]
		v := q.Sub(p)
		if r.IntN(3) == 0 {
			c = append(c, geom.Line(p, q))
			continue
		}
		a, b := between(r, -0.8, 0.8), between(r, -0.8, 0.8)
		c = append(c, geom.Cubic(p, p.Add(v.Rot(a).Mul(between(r, 0.15, 0.5))), q.Sub(v.Rot(b).Mul(between(r, 0.15, 0.5))), q))
	}
	return c
}

// pebble draws a closed curve without corners: a spline round a star, joined
// smoothly by going round three times and keeping the middle turn.
func pebble(r *rand.Rand) geom.Curve {
	n := 5 + r.IntN(5)
	pts := star(r, n, geom.Pt{}, between(r, 100, 400))
	for i, p := range pts {
		pts[i] = p.Unit().Mul(60).Add(p)
	}
	var round []geom.Pt
	for range 3 {
		round = append(round, pts...)
	}
	c := geom.Smooth(append(round, pts[0]), geom.Pt{}, geom.Pt{})[n : 2*n]
	return append(geom.Curve(nil), c...)
}

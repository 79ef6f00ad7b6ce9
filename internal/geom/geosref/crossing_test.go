package geosref

import (
	"math/rand/v2"
	"testing"

	"github.com/twpayne/go-geos"

	"gusset/internal/geom"
)

// A loop crosses or touches itself exactly where GEOS says that its ring is not
// simple. Corners on a small lattice make touches and folds common.
func TestSelfCrossingAgainstGEOS(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	crossed := 0
	const n = 10000
	for k := range n {
		var pts []geom.Pt
		if k%2 == 0 {
			for range 3 + r.IntN(6) {
				pts = append(pts, geom.Pt{X: float64(r.IntN(8)), Y: float64(r.IntN(8))})
			}
		} else {
			pts = star(r, 5+r.IntN(40), geom.Pt{}, 100)
			if r.IntN(2) == 0 {
				i, j := r.IntN(len(pts)), r.IntN(len(pts))
				pts[i] = pts[j].Lerp(pts[(j+1)%len(pts)], between(r, -0.5, 1.5))
			}
		}
		if len(different(pts)) < 3 {
			continue
		}
		_, _, _, found := geom.SelfCrossing(pts)
		if found {
			crossed++
		}
		if want := !wall(pts).IsSimple(); found != want {
			t.Fatalf("loop %d %v: crosses itself %v, GEOS says %v", k, pts, found, want)
		}
	}
	t.Logf("%d of %d cross themselves", crossed, n)
}

func different(pts []geom.Pt) map[geom.Pt]bool {
	m := map[geom.Pt]bool{}
	for _, p := range pts {
		m[p] = true
	}
	return m
}

// Inside agrees with GEOS's point in polygon, boundary included.
func TestInsideAgainstGEOS(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	in := 0
	const n = 5000
	for k := range n {
		pts := star(r, 5+r.IntN(40), geom.Pt{}, 100)
		for i, p := range pts {
			pts[i] = geom.Pt{X: float64(int(p.X)), Y: float64(int(p.Y))}
		}
		if _, _, _, crosses := geom.SelfCrossing(pts); crosses {
			continue
		}
		p := geom.Pt{X: float64(r.IntN(160) - 80), Y: float64(r.IntN(160) - 80)}
		got := geom.Inside(pts, p)
		if got {
			in++
		}
		if want := polygon(pts).Covers(geos.NewPoint([]float64{p.X, p.Y})); got != want {
			t.Fatalf("loop %d %v: %v inside %v, GEOS says %v", k, pts, p, got, want)
		}
	}
	t.Logf("%d of %d inside", in, n)
}

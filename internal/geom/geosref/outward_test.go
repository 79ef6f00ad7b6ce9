package geosref

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/twpayne/go-geos"

	"gusset/internal/geom"
)

// chordErr is how far the fine polylines given to GEOS lie from their curves, mm.
const chordErr = 1e-3

// scattered is the points alone.
func scattered(pts []geom.Pt) *geos.Geom {
	var all []*geos.Geom
	for _, p := range pts {
		all = append(all, geos.NewPoint([]float64{p.X, p.Y}))
	}
	return geos.NewCollection(geos.TypeIDMultiPoint, all)
}

// The outward polygon covers finely spread points of its outline, stays within the
// tolerance of it, and is a valid polygon, by GEOS.
func TestFlattenOutwardAgainstGEOS(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	tried := 0
	const n = 3000
	for k := range n {
		c := outline(r)
		if k%3 == 0 {
			c = pebble(r)
		}
		fine := c.Flatten(10 * chordErr)
		inner := polygon(fine)
		if !inner.IsValid() || geom.Area(fine) <= 0 {
			continue
		}
		tried++
		tol := math.Pow(10, between(r, -2, 0))
		out := geom.FlattenOutward(c, tol)
		outer := polygon(out)
		if !outer.IsValid() {
			t.Errorf("shape %d, tolerance %.3f: %s", k, tol, outer.IsValidReason())
			continue
		}
		if !outer.Buffer(1e-7, 4).Prepare().Covers(scattered(fine)) {
			t.Errorf("shape %d, tolerance %.3f: a point lies outside by %g", k, tol, scattered(fine).Difference(outer).HausdorffDistance(outer))
		}
		curve := wall(fine).Prepare()
		for i, p := range out {
			for k := range 3 {
				q := p.Lerp(out[(i+1)%len(out)], float64(k)/3)
				if at := geos.NewPoint([]float64{q.X, q.Y}); !curve.DistanceWithin(at, tol+10*chordErr) {
					t.Fatalf("shape %d, tolerance %.3f: the polygon strays %.4f", k, tol, at.Distance(wall(fine)))
				}
			}
		}
	}
	t.Logf("%d of %d tried", tried, n)
	if tried < n/2 {
		t.Errorf("only %d of %d tried", tried, n)
	}
}

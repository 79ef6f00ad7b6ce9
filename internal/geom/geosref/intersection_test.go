package geosref

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/twpayne/go-geos"

	"gusset/internal/geom"
)

// star draws a simple star-shaped polygon of n corners about c, radii between
// r/4 and r.
func star(r *rand.Rand, n int, c geom.Pt, radius float64) []geom.Pt {
	pts := make([]geom.Pt, n)
	for i := range pts {
		a := 2 * math.Pi * (float64(i) + 0.8*r.Float64()) / float64(n)
		d := radius * (0.25 + 0.75*r.Float64())
		pts[i] = geom.Pt{X: c.X + d*math.Cos(a), Y: c.Y + d*math.Sin(a)}
	}
	return pts
}

func polygon(pts []geom.Pt) *geos.Geom {
	ring := make([][]float64, 0, len(pts)+1)
	for _, p := range pts {
		ring = append(ring, []float64{p.X, p.Y})
	}
	return geos.NewPolygon([][][]float64{append(ring, ring[0])})
}

// Areas and overlaps agree with GEOS (Debian's libgeos, an independent
// general-purpose library) over thousands of random shapes.
func TestAreasAgainstGEOS(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for k := range 3000 {
		a := star(r, 5+r.IntN(60), geom.Pt{X: 100, Y: 100}, 100)
		b := star(r, 5+r.IntN(60), geom.Pt{X: 100 + 150*r.Float64(), Y: 100 + 50*r.Float64()}, 100)
		ga, gb := polygon(a), polygon(b)
		if got, want := geom.Area(a), ga.Area(); math.Abs(got-want) > 1e-6*want {
			t.Fatalf("shape %d: area %.6f, GEOS says %.6f", k, got, want)
		}
		got, want := geom.IntersectionArea(a, b), ga.Intersection(gb).Area()
		if math.Abs(got-want) > 1e-6*ga.Area() {
			t.Fatalf("pair %d: overlap %.6f mm², GEOS says %.6f", k, got, want)
		}
	}
}

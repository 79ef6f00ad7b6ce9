package geosref

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/twpayne/go-geos"

	"gusset/internal/geom"
)

// mitred is GEOS's buffer with pointed corners.
func mitred(pts []geom.Pt, d, limit float64) *geos.Geom {
	return polygon(pts).BufferWithStyle(-d, 8, geos.BufCapStyleFlat, geos.BufJoinStyleMitre, limit)
}

// A polygon moved inward or outward covers what GEOS's mitred buffer covers.
// GEOS drops hollows shallower than a hundredth of the distance first (class
// BufferInputLineSimplifier), so areas may differ by that times the perimeter.
func TestOffsetPolylineAgainstGEOS(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	exact, several, gone := 0, 0, 0
	const n = 4000
	for k := range n {
		pts := star(r, 4+r.IntN(20), geom.Pt{}, between(r, 50, 300))
		d, limit := between(r, -30, 30), between(r, 1.5, 6)
		loops := geom.OffsetPolyline(pts, d, limit)
		want := mitred(pts, d, limit)
		got := region(loops)
		if !got.IsValid() {
			t.Fatalf("shape %d at %.2f: %s", k, d, got.IsValidReason())
		}
		// On a lattice: in floating point GEOS itself takes two nearly equal
		// polygons for disjoint ones at times.
		off := got.SymDifferencePrec(want, 1e-6).Area()
		if off < 1e-6*math.Abs(geom.Area(pts)) {
			exact++
		}
		if len(loops) > 1 {
			several++
		}
		if len(loops) == 0 {
			gone++
		}
		if off > 0.01*math.Abs(d)*geom.Perimeter(pts)+1e-6 {
			t.Errorf("shape %d at %.2f mm, limit %.2f: differs by %.3f mm² of %.1f", k, d, limit, off, want.Area())
		}
	}
	t.Logf("%d of %d to a millionth; %d in several loops, %d gone", exact, n, several, gone)
}

package geosref

import (
	"math"
	"math/rand/v2"
	"testing"

	"gusset/internal/geom"
)

// What is left of one polygon outside another has the area that GEOS gives it,
// holes and separate parts counted, for random shapes and for shapes that share
// corners and edges.
func TestDifferenceAgainstGEOS(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	several, holed := 0, 0
	for k := range 4000 {
		a := star(r, 5+r.IntN(50), geom.Pt{X: 100, Y: 100}, 100)
		b := star(r, 5+r.IntN(50), geom.Pt{X: 100 + 120*r.Float64(), Y: 100 + 60*r.Float64()}, between(r, 15, 120))
		if k%4 == 0 { // shares half of a's corners
			b = append([]geom.Pt{{X: 100, Y: 100}}, a[:len(a)/2]...)
		}
		loops := geom.Difference(a, b)
		want := polygon(a).Difference(polygon(b)).Area()
		if got := areaSum(loops); math.Abs(got-want) > 1e-6*polygon(a).Area() {
			t.Fatalf("pair %d: %.6f mm² left, GEOS says %.6f", k, got, want)
		}
		for _, l := range loops {
			if geom.Area(l) < 0 {
				holed++
				break
			}
		}
		if len(loops) > 1 {
			several++
		}
	}
	t.Logf("%d of 4000 in several loops, %d with holes", several, holed)
}

package referee

import (
	"math/rand/v2"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"

	"gusset/internal/finding"
)

func TestKinds(t *testing.T) {
	seen := map[string]bool{}
	for _, k := range kinds {
		if err := k.Validate(); err != nil || k.Severity != finding.Stop || seen[k.Code] {
			t.Errorf("%s: %v", k.Code, err)
		}
		seen[k.Code] = true
	}
}

func xy(v ...int64) ring {
	var r ring
	for i := 0; i < len(v); i += 2 {
		r = append(r, point{X: v[i], Y: v[i+1]})
	}
	return r
}

func (r ring) shifted(x, y int64) ring { return r.put(false, 0, point{X: x, Y: y}) }

// Plane geometry, by hand.
func TestShareKnown(t *testing.T) {
	square := xy(0, 0, 10, 0, 10, 10, 0, 10)
	notched := xy(0, 0, 30, 0, 30, 10, 20, 10, 20, 5, 10, 5, 10, 10, 0, 10) // a bay 10 wide
	plus := xy(4, 0, 6, 0, 6, 4, 10, 4, 10, 6, 6, 6, 6, 10, 4, 10, 4, 6, 0, 6, 0, 4, 4, 4)
	for _, c := range []struct {
		name string
		a, b ring
		want bool
	}{
		{"the same", square, square, true},
		{"the same, begun elsewhere, with points along it", square, xy(5, 10, 0, 10, 0, 0, 3, 0, 10, 0, 10, 10), true},
		{"side by side along a whole edge", square, square.shifted(10, 0), false},
		{"side by side along half an edge", square, square.shifted(10, 5), false},
		{"corner to corner", square, square.shifted(10, 10), false},
		{"corner in the middle of an edge", square, xy(15, 0, 15, 10, 10, 5), false},
		{"one unit over", square, square.shifted(9, 0), true},
		{"one unit over, corners on edges only", square, square.shifted(9, 9), true},
		{"slid along itself, all crossings at edges", square, square.shifted(5, 0), true},
		{"inside, touching nothing", square, xy(2, 2, 4, 2, 4, 4, 2, 4), true},
		{"inside, corners on the edges", square, xy(5, 0, 10, 5, 5, 10, 0, 5), true},
		{"half of it", square, xy(0, 0, 10, 0, 10, 10), true},
		{"filling the bay exactly", notched, xy(10, 5, 20, 5, 20, 10, 10, 10), false},
		{"filling the bay and proud of it", notched, xy(10, 5, 20, 5, 20, 15, 10, 15), false},
		{"one unit too deep in the bay", notched, xy(10, 4, 20, 4, 20, 10, 10, 10), true},
		{"over the bay without corners in it", notched, xy(0, 8, 30, 8, 30, 20, 0, 20), true},
		{"two crosses through each other's corners", plus, plus.put(false, 0, point{X: 4, Y: 4}), true},
		{"crosses locked without touching area", plus, xy(6, 6, 10, 6, 10, 10, 6, 10), false},
		{"lines through corners only", xy(0, 0, 10, 5, 0, 10), xy(10, 0, 10, 10, 0, 5), true},
		{"boxes meet, outlines far apart", xy(0, 0, 10, 0, 0, 10), xy(10, 10, 4, 10, 10, 4), false},
	} {
		if !c.a.plain() || !c.b.plain() {
			t.Fatalf("%s: outline is not plain", c.name)
		}
		if share(c.a, c.b) != c.want || share(c.b, c.a) != c.want {
			t.Errorf("%s: want %v", c.name, c.want)
		}
	}
}

// The farthest coordinates must not overflow: a triangle of half a kilometre
// and one a micrometre inside or outside its long edge.
func TestShareFar(t *testing.T) {
	const f = farthest
	a := xy(-f, -f, f, -f, f, f)
	outside := xy(-f, -f+1, f-1, f, -f, f)
	if !a.plain() || !outside.plain() || share(a, outside) || !share(a, outside.shifted(1, -1)) {
		t.Error("wrong at the far end of the range")
	}
	if xy(-f, -f, f, -f, f, f+1).plain() {
		t.Error("an outline beyond the range passed")
	}
}

func TestPlain(t *testing.T) {
	for _, c := range []struct {
		name string
		r    ring
		want bool
	}{
		{"square", xy(0, 0, 1, 0, 1, 1, 0, 1), true},
		{"clockwise", xy(0, 0, 0, 1, 1, 1, 1, 0), false},
		{"bow", xy(0, 0, 4, 4, 4, 0, 0, 4), false},
		{"line", xy(0, 0, 4, 4, 2, 2), false},
		{"two points", xy(0, 0, 1, 1), false},
		{"with a point twice and one on an edge", xy(0, 0, 0, 0, 1, 0, 2, 0, 2, 2), true},
	} {
		if c.r.plain() != c.want {
			t.Errorf("%s: want %v", c.name, c.want)
		}
	}
}

func polygon(r ring) sf.Geometry {
	var flat []float64
	for _, p := range append(r[:len(r):len(r)], r[0]) {
		flat = append(flat, float64(p.X), float64(p.Y))
	}
	return sf.NewPolygon([]sf.LineString{sf.NewLineString(sf.NewSequence(flat, sf.DimXY))}).AsGeometry()
}

// randomRing draws points on a lattice and joins them by the shortest plain
// outline that two-opt finds: crossing edges are swapped until none is left.
func randomRing(rng *rand.Rand, size int64, points int) ring {
	for {
		var r ring
		for range points {
			r = append(r, point{X: rng.Int64N(size), Y: rng.Int64N(size)})
		}
		for range 50 {
			if !uncross(r) {
				break
			}
		}
		if r.turns() < 0 {
			r = r.mirrored(size)
		}
		if g := polygon(r); r.plain() && g.Validate() == nil {
			return r
		}
	}
}

func uncross(r ring) bool {
	for i := range r {
		a, b := r.edge(i)
		for j := i + 2; j < len(r); j++ {
			if c, d := r.edge(j); cross(a, b, c, d) {
				for x, y := i+1, j; x < y; x, y = x+1, y-1 {
					r[x], r[y] = r[y], r[x]
				}
				return true
			}
		}
	}
	return false
}

// share against the area of the intersection as a general-purpose geometry
// library (simplefeatures) measures it. On a small lattice most cases touch,
// overlap along edges or pass through corners. The least area two outlines of
// such a lattice can share is above 1e-6, far more than the library's rounding.
func TestShareAgainstArea(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 7))
	var count [2]int
	for range 8000 {
		size := 4 + rng.Int64N(12)
		a := randomRing(rng, size, 3+rng.IntN(6))
		b := randomRing(rng, size, 3+rng.IntN(6)).shifted(rng.Int64N(2*size)-size, rng.Int64N(2*size)-size)
		x, err := sf.Intersection(polygon(a), polygon(b))
		if err != nil {
			t.Fatal(err)
		}
		want := x.Area() > 1e-9
		if want {
			count[1]++
		} else {
			count[0]++
		}
		if got := share(a, b); got != want || share(b, a) != want {
			t.Fatalf("%v and %v: share says %v, the library measures %g", a, b, got, x.Area())
		}
	}
	if count[0] < 1000 || count[1] < 1000 {
		t.Errorf("one-sided sample: %v", count)
	}
}

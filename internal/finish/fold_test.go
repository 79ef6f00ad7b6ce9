package finish

import (
	"math"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"

	"gusset/internal/geom"
)

// Folding a cut hem by other means than it was drawn by: the polygon is cut
// into strips by its depth below the hem line, the turns of cloth are taken
// out, and each strip is laid back on the leg. What is then seen must be the
// leg itself, strip by strip. The areas are those of an outside library.

func region(pts []geom.Pt) sf.Geometry {
	var xy []float64
	for _, p := range append(pts, pts[0]) {
		xy = append(xy, p.X, p.Y)
	}
	ring := sf.NewLineString(sf.NewSequence(xy, sf.DimXY))
	return sf.NewPolygon([]sf.LineString{ring}).AsGeometry()
}

// band is what lies between two heights, in a frame where the hem line is y=0.
func band(t rapid.TB, g sf.Geometry, low, high float64) sf.Geometry {
	t.Helper()
	out, err := sf.Intersection(g, region([]geom.Pt{pt(-5000, low), pt(5000, low), pt(5000, high), pt(-5000, high)}))
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// missed is the area in mm² that one of two regions has and the other has not.
func missed(t rapid.TB, a, b sf.Geometry) float64 {
	t.Helper()
	x, err := sf.SymmetricDifference(a, b)
	if err != nil {
		t.Fatal(err)
	}
	return x.Area()
}

// farthest is how far the farthest corner of one region lies from another, mm.
func farthest(a, b sf.Geometry) float64 {
	worst := 0.0
	seq := a.DumpCoordinates()
	for i := range seq.Length() {
		p := sf.NewPoint(sf.Coordinates{XY: seq.GetXY(i), Type: sf.DimXY}).AsGeometry()
		if d, ok := sf.Distance(p, b); ok {
			worst = math.Max(worst, d)
		}
	}
	return worst
}

// checkFolds folds a cut piece whose hem line runs through a along u.
func checkFolds(t rapid.TB, c Cut, a, u geom.Pt, folds []float64, turn float64) {
	t.Helper()
	var flat []geom.Pt
	for _, m := range c.Outline {
		v := pt(float64(m.X)/1000, float64(m.Y)/1000).Sub(a)
		flat = append(flat, pt(v.Dot(u), v.Dot(u.Left())))
	}
	whole := region(flat)
	lo, _ := geom.BoundsOf(flat)
	depth, height := 0.0, 0.0
	for k, f := range folds {
		depth += turn
		strip := band(t, whole, -depth-f, -depth)
		var laid, under sf.Geometry
		if k%2 == 0 {
			h, d := height, depth
			laid = strip.TransformXY(func(p sf.XY) sf.XY { return sf.XY{X: p.X, Y: h + (-d - p.Y)} })
			under = band(t, whole, height, height+f)
			height += f
		} else {
			h, d := height, depth
			laid = strip.TransformXY(func(p sf.XY) sf.XY { return sf.XY{X: p.X, Y: h + (p.Y + d)} })
			under = band(t, whole, height-f, height)
			height -= f
		}
		// Cut lines flattened to 0.1 mm along two sides of depth f.
		if m := missed(t, laid, under); m > 0.25*f {
			t.Fatalf("strip %d of %v misses the leg by %.2f mm²", k+1, folds, m)
		}
		for _, far := range []float64{farthest(laid, under), farthest(under, laid)} {
			if far > 0.2 {
				t.Fatalf("strip %d of %v lies %.3f mm off the leg", k+1, folds, far)
			}
		}
		depth += f
	}
	if math.Abs(lo.Y+depth) > 0.002 {
		t.Fatalf("the hem is %.3f mm deep, want %.3f", -lo.Y, depth)
	}
}

var hems = []struct {
	method string
	values map[string]float64
	folds  []float64
}{
	{"single-hem", map[string]float64{"depth": 30}, []float64{30}},
	{"double-hem", map[string]float64{"depth": 20, "turn-under": 20}, []float64{20, 20}},
	{"double-hem", map[string]float64{"depth": 22, "turn-under": 8}, []float64{22, 8}},
	{"turn-up", map[string]float64{"depth": 40, "hem": 30}, []float64{40, 40, 30}},
}

// Legs that taper and flare: a hem cut straight down would be too wide or too
// narrow by 2 × depth × slope; folded it must lie on the leg.
func TestHemsFoldOnTheLeg(t *testing.T) {
	for _, slope := range []float64{-0.4, -0.1, 0, 0.1, 0.4} {
		p := quad(15, pt(0, 0), pt(200, 0), pt(200+180*slope, 180), pt(-180*slope, 180))
		for _, h := range hems {
			c := oneCut(t, p, made{methods: map[string]string{"hem": h.method}, values: h.values})
			checkFolds(t, c, pt(0, 0), pt(1, 0), h.folds, math.Pi/2*thick)
		}
	}
}

// The same with a curved side, on a hem line that is not level.
func TestCurvedLegFolds(t *testing.T) {
	p := quad(15, pt(0, 0), pt(200, 0), pt(230, 400), pt(-20, 400))
	p.Edges[1].Curve = geom.Curve{geom.Cubic(pt(200, 0), pt(170, 120), pt(190, 250), pt(230, 400))}
	spin := geom.Turn(0.35, pt(40, 10))
	p = p.Transform(spin)
	a, b := spin.Apply(pt(0, 0)), spin.Apply(pt(1, 0))
	for _, h := range hems {
		c := oneCut(t, p, made{methods: map[string]string{"hem": h.method}, values: h.values})
		checkFolds(t, c, a, b.Sub(a), h.folds, math.Pi/2*thick)
	}
}

func TestAnyLegFolds(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		num := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(r, name) }
		p := quad(num("printed", 5, 25), pt(0, 0), pt(num("hem", 120, 400), num("tilt", -30, 30)),
			pt(num("top right", 150, 450), num("height right", 300, 900)), pt(num("top left", -100, 60), num("height left", 300, 900)))
		h := hems[rapid.IntRange(0, len(hems)-1).Draw(r, "hem kind")]
		cuts, found := finished(t, p, made{methods: map[string]string{"hem": h.method}, values: h.values})
		if len(found) > 0 || len(cuts) != 1 {
			r.Fatalf("%v", found.Codes())
		}
		a, b := p.Edges[0].Curve.Start(), p.Edges[0].Curve.End()
		checkFolds(r, cuts[0], a, b.Sub(a).Unit(), h.folds, math.Pi/2*thick)
	})
}

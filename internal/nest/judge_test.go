package nest

import (
	"math"
	"testing"

	"github.com/peterstace/simplefeatures/geom"
)

// The judge is independent of the package's own collision tests: it puts the
// shapes down through Placement.Apply and measures overlaps with a
// general-purpose geometry library.

func ringOf(pts []Pt) geom.Geometry {
	flat := make([]float64, 0, 2*len(pts)+2)
	for _, p := range append(pts[:len(pts):len(pts)], pts[0]) {
		flat = append(flat, p.X, p.Y)
	}
	ring := geom.NewLineString(geom.NewSequence(flat, geom.DimXY))
	return geom.NewPolygon([]geom.LineString{ring}).AsGeometry()
}

func overlapArea(t testing.TB, a, b []Pt) float64 {
	t.Helper()
	ba, bb := bounds(a), bounds(b)
	if ba.apart(bb, 0) {
		return 0
	}
	x, err := geom.Intersection(ringOf(a), ringOf(b))
	if err != nil {
		t.Fatalf("intersection: %v", err)
	}
	return x.Area()
}

// gap is the least distance between two rings, by all pairs of points and
// edges (the overlap is judged apart).
func gap(a, b []Pt) float64 {
	least := math.Inf(1)
	for _, pair := range [2][2][]Pt{{a, b}, {b, a}} {
		for _, p := range pair[0] {
			for i, q := range pair[1] {
				r := pair[1][(i+1)%len(pair[1])]
				ux, uy := r.X-q.X, r.Y-q.Y
				t := 0.0
				if uu := ux*ux + uy*uy; uu > 0 {
					t = math.Min(1, math.Max(0, ((p.X-q.X)*ux+(p.Y-q.Y)*uy)/uu))
				}
				least = math.Min(least, math.Hypot(p.X-q.X-t*ux, p.Y-q.Y-t*uy))
			}
		}
	}
	return least
}

// judge fails the test when the layout breaks a rule of the problem.
func judge(t testing.TB, p Problem, l Layout) {
	t.Helper()
	seen := make([]int, len(p.Parts))
	lengths := make([]float64, len(p.Containers))
	clear := math.Max(p.Clearance, MinClearance)
	var rings [][]Pt
	for k, pl := range l.Placements {
		seen[pl.Part]++
		ring := pl.Apply(p.Parts[pl.Part].Shape)
		judgeOne(t, p, pl, ring)
		for j := range rings {
			if o := l.Placements[j]; o.Container == pl.Container {
				judgePair(t, rings[j], ring, clear, o.Part, pl.Part)
			}
		}
		for n, h := range p.Hazards {
			if h.Container == pl.Container {
				judgePair(t, h.Shape, ring, clear, -1-n, pl.Part)
			}
		}
		rings = append(rings, ring)
		lengths[pl.Container] = math.Max(lengths[pl.Container], bounds(ring).x1)
		if k > 0 && l.Placements[k-1].Part >= pl.Part {
			t.Errorf("placements are not in order of part")
		}
	}
	for _, i := range l.Unplaced {
		seen[i]++
	}
	for i, n := range seen {
		if n != 1 {
			t.Errorf("part %d is named %d times", i, n)
		}
	}
	var sum float64
	for k, n := range lengths {
		sum += n
		if math.Abs(n-l.Lengths[k]) > 1e-6 {
			t.Errorf("container %d: length %v reported, %v measured", k, l.Lengths[k], n)
		}
	}
	if math.Abs(sum-l.Length) > 1e-6 {
		t.Errorf("length %v reported, %v measured", l.Length, sum)
	}
}

func judgePair(t testing.TB, a, b []Pt, clear float64, i, j int) {
	t.Helper()
	if bounds(a).apart(bounds(b), clear) {
		return
	}
	if v := overlapArea(t, a, b); v > 1e-3 {
		t.Errorf("parts %d and %d overlap by %g mm²", i, j, v)
	}
	if g := gap(a, b); g < clear-1e-7 {
		t.Errorf("parts %d and %d are %g mm apart, less than %g", i, j, g, clear)
	}
}

func judgeOne(t testing.TB, p Problem, pl Placement, ring []Pt) {
	t.Helper()
	part, c := p.Parts[pl.Part], p.Containers[pl.Container]
	b := bounds(ring)
	if len(c.Outline) == 0 {
		limit := c.MaxLength
		if limit == 0 {
			limit = math.Inf(1)
		}
		if b.x0 < -1e-6 || b.y0 < -1e-6 || b.y1 > c.Width+1e-6 || b.x1 > limit+1e-6 {
			t.Errorf("part %d lies outside container %d: %v", pl.Part, pl.Container, b)
		}
	} else if in := overlapArea(t, c.Outline, ring); math.Abs(in-math.Abs(signedArea(ring))) > 1e-2 {
		t.Errorf("part %d lies outside container %d by %g mm²", pl.Part, pl.Container, math.Abs(signedArea(ring))-in)
	}
	allowed := len(part.Containers) == 0
	for _, k := range part.Containers {
		allowed = allowed || k == pl.Container
	}
	if !allowed {
		t.Errorf("part %d must not lie in container %d", pl.Part, pl.Container)
	}
	posed := false
	for _, o := range part.Poses {
		posed = posed || o.Flip == pl.Flip && math.Abs(o.Degrees-pl.Degrees) <= part.Tilt+1e-12
	}
	if !posed {
		t.Errorf("part %d must not lie at %v degrees, flip %v", pl.Part, pl.Degrees, pl.Flip)
	}
	for _, pin := range part.Pins {
		judgePin(t, pin, pl, b)
	}
}

func judgePin(t testing.TB, pin Pin, pl Placement, b box) {
	t.Helper()
	got := map[Axis]map[Ref]float64{
		X: {Low: b.x0, High: b.x1, Origin: pl.At.X},
		Y: {Low: b.y0, High: b.y1, Origin: pl.At.Y},
	}[pin.Axis][pin.Of]
	if math.Abs(got-pin.Value) > 1e-6 {
		t.Errorf("part %d: pin %+v stands at %v", pl.Part, pin, got)
	}
}

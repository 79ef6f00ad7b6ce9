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
	judgeTies(t, p, l)
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

// judgeTies turns every tied point by the sine and cosine itself and asks how
// far it lies from the place its lattice's phase gives it.
func judgeTies(t testing.TB, p Problem, l Layout) {
	t.Helper()
	if len(l.Phases) != len(p.Lattices) {
		t.Fatalf("%d phases for %d lattices", len(l.Phases), len(p.Lattices))
	}
	for g, la := range p.Lattices {
		if ok := len(la.Phases) == 0; !ok && tied(p, l, g) {
			for _, v := range la.Phases {
				ok = ok || astray(v, l.Phases[g], la.Period) < 1e-6
			}
			if !ok {
				t.Errorf("lattice %d stands at %v, not one of %v", g, l.Phases[g], la.Phases)
			}
		}
	}
	for _, pl := range l.Placements {
		for _, tie := range p.Parts[pl.Part].Ties {
			la, origin := p.Lattices[tie.Lattice], p.Containers[pl.Container].Origin
			q := tie.At
			if pl.Flip {
				q.Y = -q.Y
			}
			sin, cos := math.Sincos(pl.Degrees * math.Pi / 180)
			got := q.X*cos - q.Y*sin + pl.At.X + origin.X
			if la.Axis == Y {
				got = q.X*sin + q.Y*cos + pl.At.Y + origin.Y
			}
			if len(tie.Back) > 0 && tie.Back[poseOf(t, p.Parts[pl.Part], pl)] {
				got = -got
			}
			if d := astray(got, l.Phases[tie.Lattice], la.Period); d > 1e-3 {
				t.Errorf("part %d lies %g mm off lattice %d", pl.Part, d, tie.Lattice)
			}
		}
	}
}

func tied(p Problem, l Layout, g int) bool {
	for _, pl := range l.Placements {
		for _, tie := range p.Parts[pl.Part].Ties {
			if tie.Lattice == g {
				return true
			}
		}
	}
	return false
}

// astray is how far two places lie apart up to periods.
func astray(a, b, period float64) float64 { return math.Abs(math.Remainder(a-b, period)) }

func poseOf(t testing.TB, part Part, pl Placement) int {
	t.Helper()
	for k, o := range part.Poses {
		if o.Flip == pl.Flip && math.Abs(o.Degrees-pl.Degrees) <= part.Tilt+1e-12 {
			return k
		}
	}
	t.Fatalf("part %d lies in no pose", pl.Part)
	return 0
}

package exchange

import (
	"math"
	"slices"

	"gusset/internal/geom"
)

// Sizes of a piece must be drawn alike, segment for segment, so that what lies
// between two of them can be drawn. Curves that are not, or that came as short
// straight lines, are drawn again: the same number of cubics in every size, each
// over the same share of the way.

const (
	// fitTol is how far a curve drawn again may pass from the lines it is drawn
	// from, in mm. With what those lines leave out (flatTol) it stays within a
	// hundredth of a millimetre.
	fitTol = 0.004
	// straightTol is within what a run counts as straight, in mm.
	straightTol = 0.003
	// deepest bounds the halvings of a run: 2⁷ cubics.
	deepest = 7
)

// alike draws one edge again in every size. breaks are the places inside at
// which it turns sharply. room is the most that the straight lines that came may
// lie off the curve they stand for, in mm.
func alike(in []Edge, faceted bool) (out []geom.Curve, room float64) {
	out = make([]geom.Curve, len(in))
	same := true
	for i, e := range in {
		out[i] = e.Curve
		same = same && form(e.Curve) == form(in[0].Curve)
	}
	if same && !faceted {
		return out, 0
	}
	runs := make([][][]geom.Pt, len(in)) // by size, by run
	parts := -1
	for i, e := range in {
		pts := e.Curve.Flatten(flatTol)
		breaks := e.Breaks
		if faceted {
			breaks = append(slices.Clone(breaks), longChords(pts)...)
		}
		runs[i] = broken(pts, breaks)
		if parts >= 0 && parts != len(runs[i]) {
			parts = -2
		} else if parts == -1 {
			parts = len(runs[i])
		}
	}
	if parts == -2 { // broken otherwise in some size: taken as one run
		for i := range runs {
			runs[i] = [][]geom.Pt{joined(runs[i])}
		}
		parts = 1
	}
	for i := range out {
		out[i] = nil
	}
	for r := range parts {
		set := make([][]geom.Pt, len(in))
		for i := range set {
			set[i] = runs[i][r]
		}
		f := fitter{tol: fitTol}
		if faceted {
			f.room = roomOf(set)
			room = math.Max(room, f.room)
		}
		if f.room > 2*flatTol { // lines too long to be taken for the curve itself
			f.tol, f.vertices = math.Max(fitTol, f.room/10), true
		}
		from, to := make([]geom.Pt, len(in)), make([]geom.Pt, len(in))
		for i := range set {
			if r > 0 {
				from[i] = runsOn(runs[i][r-1], set[i])
			}
			if r+1 < parts {
				to[i] = runsOn(reversed(runs[i][r+1]), reversed(set[i])).Mul(-1)
			}
		}
		for i, c := range f.fit(set, from, to, 0) {
			out[i] = append(out[i], c...)
		}
	}
	return out, room
}

// longChords are the ends of straight lines among the short ones that stand for a
// curve: many times longer than what comes before or after.
func longChords(pts []geom.Pt) []geom.Pt {
	const least, times = 10, 6 // mm; and times the neighbour's length
	var out []geom.Pt
	step := func(i int) float64 { return pts[i].Dist(pts[i-1]) }
	for i := 1; i < len(pts); i++ {
		l := step(i)
		if l < least {
			continue
		}
		if i > 1 && l > times*step(i-1) {
			out = append(out, pts[i-1])
		}
		if i+1 < len(pts) && l > times*step(i+1) {
			out = append(out, pts[i])
		}
	}
	return out
}

// runsOn is the direction in which a run sets out that follows a straight one
// without a corner; zero where that is not so.
func runsOn(straight, run []geom.Pt) geom.Pt {
	if len(straight) != 2 || len(run) < 3 {
		return geom.Pt{}
	}
	d, e := straight[1].Sub(straight[0]).Unit(), run[1].Sub(run[0]).Unit()
	if math.Abs(math.Atan2(d.Cross(e), d.Dot(e))) > 2*math.Pi/180 {
		return geom.Pt{}
	}
	return d
}

func reversed(pts []geom.Pt) []geom.Pt {
	out := slices.Clone(pts)
	slices.Reverse(out)
	return out
}

// form writes a curve's segments as l (line) and c (curve).
func form(c geom.Curve) string {
	b := make([]byte, len(c))
	for i, s := range c {
		b[i] = 'c'
		if s.Straight {
			b[i] = 'l'
		}
	}
	return string(b)
}

// broken cuts points into runs at the breaks.
func broken(pts []geom.Pt, breaks []geom.Pt) [][]geom.Pt {
	var out [][]geom.Pt
	from := 0
	sharp := gridOf(breaks, labelTol)
	for i := 1; i < len(pts)-1; i++ {
		if sharp.near(pts[i]) {
			out = append(out, pts[from:i+1])
			from = i
		}
	}
	return append(out, pts[from:])
}

func joined(runs [][]geom.Pt) []geom.Pt {
	out := append([]geom.Pt(nil), runs[0]...)
	for _, r := range runs[1:] {
		out = append(out, r[1:]...)
	}
	return out
}

// roomOf estimates how far the chords of runs lie off the curve through their
// ends: a chord of length l that turns by a at its ends is l·a/8 high, as on a
// circle.
func roomOf(set [][]geom.Pt) float64 {
	var worst float64
	for _, pts := range set {
		for i := 1; i+2 < len(pts); i++ {
			d, e, f := pts[i].Sub(pts[i-1]), pts[i+1].Sub(pts[i]), pts[i+2].Sub(pts[i+1])
			a := math.Abs(math.Atan2(d.Cross(e), d.Dot(e)))
			b := math.Abs(math.Atan2(e.Cross(f), e.Dot(f)))
			worst = math.Max(worst, e.Len()*math.Min(a, b)/8)
		}
	}
	return worst
}

// fitter draws runs again.
type fitter struct {
	tol      float64
	room     float64
	vertices bool // only the vertices lie on the curve
}

// fit draws one run in every size with the same segments. from and to are the
// directions at its ends, zero where they are free.
func (f fitter) fit(set [][]geom.Pt, from, to []geom.Pt, depth int) []geom.Curve {
	out := make([]geom.Curve, len(set))
	if allStraight(set) {
		for i, pts := range set {
			out[i] = geom.Curve{geom.Line(pts[0], pts[len(pts)-1])}
		}
		return out
	}
	sound := true
	for i, pts := range set {
		s, miss, ok := geom.FitOne(f.dense(pts), from[i], to[i], f.tol)
		if !ok {
			s = geom.Line(pts[0], pts[len(pts)-1])
			s.Straight = false
		}
		out[i] = geom.Curve{s}
		sound = sound && miss <= f.tol
		if !sound && depth < deepest {
			break
		}
	}
	if sound || depth == deepest {
		return out
	}
	left, right := make([][]geom.Pt, len(set)), make([][]geom.Pt, len(set))
	mid := make([]geom.Pt, len(set))
	for i, pts := range set {
		left[i], right[i], mid[i] = halved(pts)
	}
	a, b := f.fit(left, from, mid, depth+1), f.fit(right, mid, to, depth+1)
	for i := range out {
		out[i] = append(a[i], b[i]...)
	}
	return out
}

// dense adds the middles of chords, which keep a curve from bulging between
// vertices far apart.
func (f fitter) dense(pts []geom.Pt) []geom.Pt {
	if f.vertices {
		return pts
	}
	out := make([]geom.Pt, 0, 2*len(pts))
	for i, p := range pts {
		if i > 0 {
			out = append(out, pts[i-1].Lerp(p, 0.5))
		}
		out = append(out, p)
	}
	return out
}

func allStraight(set [][]geom.Pt) bool {
	for _, pts := range set {
		a, d := pts[0], pts[len(pts)-1].Sub(pts[0]).Unit()
		reached := 0.0
		for _, p := range pts {
			v := p.Sub(a)
			if math.Abs(d.Cross(v)) > straightTol || d.Dot(v) < reached-straightTol {
				return false
			}
			reached = math.Max(reached, d.Dot(v))
		}
	}
	return true
}

// halved cuts a run at the vertex nearest to half its length, or on the chord
// there when no vertex is near, and gives the direction at the cut.
func halved(pts []geom.Pt) (left, right []geom.Pt, dir geom.Pt) {
	var all float64
	for i := 1; i < len(pts); i++ {
		all += pts[i].Dist(pts[i-1])
	}
	run, best, miss := 0.0, -1, math.Inf(1)
	for i := 1; i < len(pts)-1; i++ {
		run += pts[i].Dist(pts[i-1])
		if d := math.Abs(run - all/2); d < miss {
			best, miss = i, d
		}
	}
	if best >= 0 && miss < all/8 {
		return pts[:best+1], pts[best:], through(pts[best-1], pts[best], pts[best+1])
	}
	run = 0
	for i := 1; i < len(pts); i++ {
		step := pts[i].Dist(pts[i-1])
		if run+step >= all/2 || i == len(pts)-1 {
			t := min(max((all/2-run)/step, 0.01), 0.99)
			p := pts[i-1].Lerp(pts[i], t)
			left = append(append([]geom.Pt(nil), pts[:i]...), p)
			right = append([]geom.Pt{p}, pts[i:]...)
			return left, right, pts[i].Sub(pts[i-1]).Unit()
		}
		run += step
	}
	return pts, pts, geom.Pt{}
}

// through is the direction at q of the parabola through p, q and r by chord
// length.
func through(p, q, r geom.Pt) geom.Pt {
	d, e := q.Sub(p), r.Sub(q)
	h, k := d.Len(), e.Len()
	if h == 0 || k == 0 {
		return geom.Pt{}
	}
	return d.Mul(k / h).Add(e.Mul(h / k)).Unit()
}

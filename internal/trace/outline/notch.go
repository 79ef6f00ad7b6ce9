package outline

import (
	"cmp"
	"math"
	"slices"

	"gusset/internal/geom"
)

// Notch is a place at which the edge is cut in, marked with a short line, or
// stands out as a point or a step.
type Notch struct {
	At geom.Pt // on the edge
	// Out says that the paper stands out there.
	Out bool
	// Cut says that the edge is cut open there, as a V; otherwise it is a slit or
	// a short printed line: the light alone does not tell which.
	Cut   bool
	Width float64 // of the opening a millimetre inside the edge, or of the paper as far outside, mm
	index int     // of the nearest point of the edge
	half  float64 // mm of the edge to each side that say nothing of its course
}

// Measures of the search for notches, mm.
const (
	band0, band1, bandStep = 1.2, 3.4, 0.4 // depths that are looked at
	notchStep              = 0.25          // along the edge
	widest                 = 9.0           // a wider gap is no notch
	apartFromCorner        = 8.0
	beyond                 = 13.0 // a line that still goes on here is no notch
)

// notches looks along the inside of the edge for short dark places: gaps through
// which the table shows, slits and printed ticks; and along its outside for short
// light ones, where the paper stands out. The lightness beside them is what they
// are held against.
func notches(shots []Shot, e Edge) []Notch {
	base := baseline(e.Points)
	dense := resampled(base, notchStep)
	axes := axesOf(shots, dense)
	light := make([]float64, len(dense)) // 1 on paper, 0 on the table
	out := make([]float64, len(dense))   // as light, outside the edge and the other way about
	for i := range dense {
		light[i] = inward(shots, dense, axes, i, band0, band1)
		out[i] = 1 - inward(shots, dense, axes, i, -band1, -band0)
	}
	var all []Notch
	for _, d := range dips(out) {
		if n, ok := standing(shots, dense, axes, out, d); ok {
			all = append(all, n)
		}
	}
	stand := len(all)
	for _, d := range dips(light) {
		n, ok := judged(shots, dense, axes, light, d)
		// The edge beneath a notch that stands out is not known well enough to look
		// for another beside it.
		ok = ok && !slices.ContainsFunc(all[:stand], func(o Notch) bool { return o.At.Dist(n.At) < o.half+n.half })
		if ok {
			all = append(all, n)
		}
	}
	for i := range all {
		all[i].index = nearest(e.Points, all[i].At)
	}
	slices.SortStableFunc(all, func(a, b Notch) int { return cmp.Compare(a.index, b.index) })
	return all
}

// baseline is the edge as it would run without notches: each point on a straight
// line fitted over 12 mm to each side, to the points that do not lie inside of
// it by more than the others.
func baseline(pts []geom.Pt) []geom.Pt {
	n := len(pts)
	out := make([]geom.Pt, n)
	const reach = 16
	for i, p := range pts {
		dir := heading(pts, i, reach)
		left := dir.Left()
		weight := make([]float64, 2*reach+1)
		for k := range weight {
			weight[k] = 1
		}
		at := 0.0
		for range 4 {
			var s [5]float64
			var r [3]float64
			for k := -reach; k <= reach; k++ {
				v := pts[((i+k)%n+n)%n].Sub(p)
				x, y, w := v.Dot(dir), v.Dot(left), weight[k+reach]
				for j, f := 0, w; j < 5; j, f = j+1, f*x {
					s[j] += f
				}
				r[0], r[1], r[2] = r[0]+w*y, r[1]+w*x*y, r[2]+w*x*x*y
			}
			c, ok := parabola(s, r)
			if !ok {
				break
			}
			at = c[0]
			for k := -reach; k <= reach; k++ {
				v := pts[((i+k)%n+n)%n].Sub(p)
				x := v.Dot(dir)
				in := v.Dot(left) - (c[0] + c[1]*x + c[2]*x*x)
				weight[k+reach] = 1 / (1 + math.Pow(max(in, -in/3)/0.25, 2))
			}
		}
		if math.Abs(at) > 8 {
			at = 0
		}
		out[i] = p.Add(left.Mul(at))
	}
	return averaged(out, 2)
}

// parabola solves the normal equations of a parabola, given the sums of powers.
func parabola(s [5]float64, r [3]float64) (c [3]float64, ok bool) {
	m := [3][4]float64{{s[0], s[1], s[2], r[0]}, {s[1], s[2], s[3], r[1]}, {s[2], s[3], s[4], r[2]}}
	for i := range 3 {
		if math.Abs(m[i][i]) < 1e-12 {
			return c, false
		}
		for j := i + 1; j < 3; j++ {
			f := m[j][i] / m[i][i]
			for k := i; k < 4; k++ {
				m[j][k] -= f * m[i][k]
			}
		}
	}
	for i := 2; i >= 0; i-- {
		c[i] = m[i][3]
		for j := i + 1; j < 3; j++ {
			c[i] -= m[i][j] * c[j]
		}
		c[i] /= m[i][i]
	}
	return c, !math.IsNaN(c[0])
}

// inward is the mean lightness between two depths inside the edge.
func inward(shots []Shot, loop []geom.Pt, axes [][4]float64, i int, from, to float64) float64 {
	best := BestShot(shots, loop[i])
	if best < 0 {
		return 1
	}
	s, left := shots[best], heading(loop, i, 12).Left()
	var sum, n float64
	for d := from; d <= to+1e-9; d += bandStep {
		sum += value(s.Photo.At(s.View.Pixel(loop[i].Add(left.Mul(d)))), axes[i]) - axes[i][3]
		n++
	}
	return sum / n
}

// gap is a run of dark places: from first to last.
type gap struct {
	from, to int
	deep     float64 // how dark, 0 as the paper beside it .. 1 as the table
}

// dips lists runs that are darker than the paper within 8 mm, by more than its
// own unevenness and by at least a ninth of the way to the table.
func dips(light []float64) []gap {
	n := len(light)
	level, rough := levels(light)
	limit := max(0.11, 5*rough)
	dark := func(i int) bool { i = (i%n + n) % n; return level[i]-light[i] > limit }
	var out []gap
	for i := 0; i < n; i++ {
		if !dark(i) || dark(i-1) {
			continue
		}
		g := gap{from: i, to: i}
		for k := i; k < i+n; k++ {
			if dark(k) {
				g.to = k
				j := k % n
				g.deep = max(g.deep, level[j]-light[j])
			} else if float64(k-g.to)*notchStep > 1 {
				break
			}
		}
		out = append(out, g)
		i = g.to
	}
	return out
}

// levels returns the usual lightness round each place, and how much single
// places differ from it.
func levels(light []float64) (level []float64, rough float64) {
	n := len(light)
	const reach, every = 32, 4
	level = make([]float64, n)
	var off []float64
	for i := 0; i < n; i += every {
		var around []float64
		for k := -reach; k <= reach; k += 2 {
			around = append(around, light[((i+k)%n+n)%n])
		}
		m := median(around)
		for k := i; k < min(i+every, n); k++ {
			level[k] = m
			off = append(off, math.Abs(light[k]-m))
		}
	}
	return level, 1.4826 * median(off)
}

// judged looks at a dip closely: no corner, no line that goes on into the
// piece, and how wide it is a millimetre inside the edge.
func judged(shots []Shot, loop []geom.Pt, axes [][4]float64, light []float64, d gap) (Notch, bool) {
	n := len(loop)
	wide := float64(d.to-d.from+1) * notchStep
	mid, ok := middleOf(light, d)
	if wide > widest || !ok || turns(loop, mid) {
		return Notch{}, false
	}
	open := 0.0
	for k := -24; k <= 24; k++ {
		if inward(shots, loop, axes, ((mid+k)%n+n)%n, 0.9, 1.1) < 0.5 {
			open += notchStep
		}
	}
	cut := open > 1.5
	if !cut && goesOn(shots, loop, axes, mid) {
		return Notch{}, false
	}
	half := max(wide, open)/2 + 2
	return Notch{At: loop[mid], Cut: cut, Width: open, half: half}, true
}

// middleOf is the middle of a dip, by weight.
func middleOf(light []float64, d gap) (int, bool) {
	n := len(light)
	var sum, at float64
	for k := d.from; k <= d.to; k++ {
		w := max(1-light[k%n], 0)
		sum, at = sum+w, at+w*float64(k)
	}
	if sum == 0 {
		return 0, false
	}
	return int(math.Round(at/sum)) % n, true
}

// standing looks at a place where there is light outside the edge: a notch that
// stands out shows as much light as paper a millimetre outside, and none where a
// tab, or something else that lies there, would go on.
func standing(shots []Shot, loop []geom.Pt, axes [][4]float64, out []float64, d gap) (Notch, bool) {
	n := len(loop)
	wide := float64(d.to-d.from+1) * notchStep
	mid, ok := middleOf(out, d)
	if wide > widest || !ok || turns(loop, mid) {
		return Notch{}, false
	}
	open := 0.0
	for k := -24; k <= 24; k++ {
		i := ((mid+k)%n + n) % n
		if inward(shots, loop, axes, i, -1.1, -0.9) > 0.5 {
			open += notchStep
		}
		if inward(shots, loop, axes, i, -beyond, 1-beyond) > 0.5 {
			return Notch{}, false
		}
	}
	if open < 1.5 {
		return Notch{}, false
	}
	return Notch{At: loop[mid], Out: true, Width: open, half: max(wide, open)/2 + 2}, true
}

// turns reports whether the edge itself has a corner there.
func turns(loop []geom.Pt, i int) bool {
	n := len(loop)
	at := func(mm float64) geom.Pt { return loop[((i+int(mm/notchStep))%n+n)%n] }
	before, after := at(-5).Sub(at(-14)), at(14).Sub(at(5))
	return math.Abs(math.Atan2(before.Cross(after), before.Dot(after))) > cornerTurn
}

// goesOn reports whether the dark place goes on into the piece as a printed line
// does: still there between 9 and 13 mm inside, somewhere within 3 mm of where
// the normal leads.
func goesOn(shots []Shot, loop []geom.Pt, axes [][4]float64, i int) bool {
	n := len(loop)
	dark := 0
	for d := beyond - 4; d <= beyond; d++ {
		var around []float64
		least := math.Inf(1)
		for k := -24; k <= 24; k++ {
			v := inward(shots, loop, axes, ((i+k)%n+n)%n, d, d+0.1)
			around = append(around, v)
			if k >= -12 && k <= 12 {
				least = min(least, v)
			}
		}
		if median(around)-least > 0.2 {
			dark++
		}
	}
	return dark >= 4
}

func nearest(pts []geom.Pt, p geom.Pt) int {
	best := 0
	for i, q := range pts {
		if q.Dist(p) < pts[best].Dist(p) {
			best = i
		}
	}
	return best
}

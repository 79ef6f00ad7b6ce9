package outline

import (
	"math"

	"gusset/internal/geom"
)

// Ruled is a straight printed line inside the piece.
type Ruled struct{ A, B geom.Pt }

// Length is that of the line in mm.
func (r Ruled) Length() float64 { return r.A.Dist(r.B) }

// Measures of the search for straight lines, mm.
const (
	inkStep   = 0.5
	inkReach  = 1.6  // how far beside a line the paper is looked at
	fromEdge  = 6.0  // lines nearer to the edge run along it
	gapInLine = 9.0  // dashes may lie this far apart
	leastLine = 60.0 // shorter ones are lettering
	mostLines = 8
)

// Lines proposes straight printed lines inside an outline, the longest first. A
// line ends where its arrowheads begin.
func Lines(shots []Shot, loop []geom.Pt) []Ruled {
	spots := inkSpots(shots, loop)
	var out []Ruled
	for len(out) < mostLines {
		at, dir, ok := strongest(spots)
		if !ok {
			break
		}
		line, rest, sound := takeLine(spots, at, dir)
		if len(rest) == len(spots) {
			break
		}
		if spots = rest; sound {
			out = append(out, line)
		}
	}
	for i := range out { // longest first
		for j := i + 1; j < len(out); j++ {
			if out[j].Length() > out[i].Length() {
				out[i], out[j] = out[j], out[i]
			}
		}
	}
	return out
}

// inkSpots lists the places inside that are darker than the paper on both sides
// of them, along x, along y or slantwise.
func inkSpots(shots []Shot, loop []geom.Pt) []geom.Pt {
	lo, hi := geom.BoundsOf(loop)
	nx, ny := int((hi.X-lo.X)/inkStep)+1, int((hi.Y-lo.Y)/inkStep)+1
	light := make([]float32, nx*ny)
	inside := rasterOf(loop, lo, nx, ny)
	for y := range ny {
		for x := range nx {
			k := y*nx + x
			if !inside[k] {
				continue
			}
			p := lo.Add(geom.Pt{X: float64(x) * inkStep, Y: float64(y) * inkStep})
			if best := BestShot(shots, p); best >= 0 {
				light[k] = float32(shots[best].Photo.Lit(shots[best].View.Pixel(p)))
			}
		}
	}
	r := int(math.Ceil(inkReach / inkStep))
	edge := int(fromEdge / inkStep)
	var out []geom.Pt
	for y := edge; y < ny-edge; y++ {
		for x := edge; x < nx-edge; x++ {
			k := y*nx + x
			if !inside[k] || !inside[k-edge] || !inside[k+edge] || !inside[k-edge*nx] || !inside[k+edge*nx] {
				continue
			}
			if ridge(light, k, [4]int{r, r * nx, r*nx + r, r*nx - r}) {
				out = append(out, lo.Add(geom.Pt{X: float64(x) * inkStep, Y: float64(y) * inkStep}))
			}
		}
	}
	return out
}

// ridge reports whether a place is darker than what lies on both sides of it.
func ridge(light []float32, k int, across [4]int) bool {
	for _, d := range across {
		if a, b := light[k-d], light[k+d]; light[k] < 0.9*min(a, b) && a < 1.15*b && b < 1.15*a {
			return true
		}
	}
	return false
}

// rasterOf marks the places of a grid that lie in a closed line.
func rasterOf(loop []geom.Pt, lo geom.Pt, nx, ny int) []bool {
	in := make([]bool, nx*ny)
	for y := range ny {
		level := lo.Y + float64(y)*inkStep
		var at []float64
		for i, a := range loop {
			b := loop[(i+1)%len(loop)]
			if (a.Y > level) != (b.Y > level) {
				at = append(at, a.X+(b.X-a.X)*(level-a.Y)/(b.Y-a.Y))
			}
		}
		_ = median(at) // sorts
		for i := 0; i+1 < len(at); i += 2 {
			for x := max(int(math.Ceil((at[i]-lo.X)/inkStep)), 0); x < nx && float64(x)*inkStep+lo.X <= at[i+1]; x++ {
				in[y*nx+x] = true
			}
		}
	}
	return in
}

// strongest returns the line that most spots lie on (Duda and Hart, Use of the
// Hough Transformation to Detect Lines and Curves in Pictures, Communications of
// the ACM 15(1), 1972), by half degrees and millimetres.
func strongest(spots []geom.Pt) (at, dir geom.Pt, ok bool) {
	if len(spots) < 40 {
		return at, dir, false
	}
	lo, hi := geom.BoundsOf(spots)
	reach := hi.Dist(lo)
	n := int(2*reach) + 3
	const angles = 360
	votes := make([]int32, angles*n)
	best, bestK := int32(0), 0
	for a := range angles {
		s, c := math.Sincos(float64(a) * math.Pi / angles)
		row := votes[a*n : (a+1)*n]
		for _, p := range spots {
			k := int((p.X-lo.X)*c + (p.Y-lo.Y)*s + reach + 1)
			row[k]++
		}
		for k, v := range row {
			if v > best {
				best, bestK = v, a*n+k
			}
		}
	}
	a := float64(bestK/n) * math.Pi / angles
	normal := geom.Pt{X: 1}.Rot(a)
	return lo.Add(normal.Mul(float64(bestK%n) + 0.5 - reach - 1)), normal.Left(), best >= 40
}

// takeLine fits the line near a first guess, finds its longest run without a
// large gap, and takes its spots away. It is sound where it is long and
// its run is well covered.
func takeLine(spots []geom.Pt, at, dir geom.Pt) (Ruled, []geom.Pt, bool) {
	for _, wide := range []float64{1.8, 1, 0.7} {
		var on []geom.Pt
		for _, p := range spots {
			if math.Abs(dir.Cross(p.Sub(at))) <= wide {
				on = append(on, p)
			}
		}
		if len(on) < 20 {
			break
		}
		from, to := longestRun(on, at, dir)
		var run []geom.Pt
		for _, p := range on {
			if s := p.Sub(at).Dot(dir); s >= from && s <= to {
				run = append(run, p)
			}
		}
		if len(run) < 20 {
			break
		}
		at, dir = lineThrough(run)
	}
	var rest, on []geom.Pt
	for _, p := range spots {
		if math.Abs(dir.Cross(p.Sub(at))) <= 1 {
			on = append(on, p)
		}
	}
	from, to := longestRun(on, at, dir)
	count := 0
	for _, p := range spots {
		s, off := p.Sub(at).Dot(dir), math.Abs(dir.Cross(p.Sub(at)))
		if s >= from && s <= to && off <= 1.5 {
			count++
			continue
		}
		rest = append(rest, p)
	}
	line := Ruled{at.Add(dir.Mul(from)), at.Add(dir.Mul(to))}
	return line, rest, line.Length() >= leastLine && float64(count)*inkStep >= 0.4*line.Length()
}

// longestRun returns where along the line the longest run of spots begins and
// ends.
func longestRun(spots []geom.Pt, at, dir geom.Pt) (from, to float64) {
	along := make([]float64, len(spots))
	for i, p := range spots {
		along[i] = p.Sub(at).Dot(dir)
	}
	_ = median(along) // sorts
	for i := 0; i < len(along); {
		j := i
		for j+1 < len(along) && along[j+1]-along[j] <= gapInLine {
			j++
		}
		if along[j]-along[i] > to-from {
			from, to = along[i], along[j]
		}
		i = j + 1
	}
	return from, to
}

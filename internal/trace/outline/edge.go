package outline

import (
	"math"

	"gusset/internal/geom"
	"gusset/internal/trace/photo"
)

// Measures of the search for the edge, mm.
const (
	spacing   = 0.75 // between points of the edge
	sampleGap = 0.2  // between places along a normal
	edgeBlur  = 0.5  // standard deviation of the smoothing along a normal
	firstLook = 3.0  // how far the edge may lie from the rough border
	nextLook  = 1.5
	around    = 4.0 // how far along a normal the light is looked at for its unevenness
	clear     = 2.0 // where the edge itself no longer counts in that
)

// edgePoint is one measured place of the edge.
type edgePoint struct {
	p      geom.Pt
	signal float64 // how steep the light falls off, in noise of the steepness
	found  bool
}

// measured finds the edge near a rough closed line by where the light falls off
// most steeply along its normals, twice, and takes out what jumps.
func measured(shots []Shot, loop []geom.Pt) []edgePoint {
	loop = averaged(resampled(loop, spacing), 3)
	pts := locate(shots, loop, firstLook)
	settleJumps(pts, loop)
	loop = averaged(resampled(placesOf(pts), spacing), 1)
	pts = locate(shots, loop, nextLook)
	settleJumps(pts, loop)
	return pts
}

func placesOf(pts []edgePoint) []geom.Pt {
	out := make([]geom.Pt, len(pts))
	for i, p := range pts {
		out[i] = p.p
	}
	return out
}

// locate measures every point of a closed line.
func locate(shots []Shot, loop []geom.Pt, look float64) []edgePoint {
	n := len(loop)
	out := make([]edgePoint, n)
	axes := axesOf(shots, loop)
	for i, p := range loop {
		out[i] = edgePoint{p: p}
		best := BestShot(shots, p)
		if best < 0 {
			continue
		}
		dir := heading(loop, i, 3)
		at, signal, ok := steepest(profile(shots[best], p, dir, axes[i]), look)
		if ok {
			out[i] = edgePoint{p.Sub(dir.Left().Mul(at)), signal, true}
		}
	}
	return out
}

// axesOf returns for each point the change of light from table to paper, as the
// weights that turn a colour into one number: 0 on the table and 1 on the
// paper. It is averaged along the edge, so that a printed line that crosses
// does not count.
func axesOf(shots []Shot, loop []geom.Pt) [][4]float64 {
	n := len(loop)
	diff := make([][6]float64, n) // inside and outside
	for i, p := range loop {
		best := BestShot(shots, p)
		if best < 0 {
			continue
		}
		left := heading(loop, i, 3).Left()
		for k, d := range [2]float64{1, -1} {
			for _, r := range [3]float64{2.5, 3.25, 4} {
				c := shots[best].Photo.At(shots[best].View.Pixel(p.Add(left.Mul(d * r))))
				for j := range c {
					diff[i][3*k+j] += float64(c[j]) / 3
				}
			}
		}
	}
	const reach = 20
	out := make([][4]float64, n)
	var sum [6]float64
	add := func(i int, sign float64) {
		for j := range sum {
			sum[j] += sign * diff[((i%n)+n)%n][j] / (2*reach + 1)
		}
	}
	for i := -reach; i <= reach; i++ {
		add(i, 1)
	}
	for i := range out {
		out[i] = axis(sum)
		add(i-reach, -1)
		add(i+reach+1, 1)
	}
	return out
}

// axis turns summed light inside and outside into weights and an offset.
func axis(sum [6]float64) [4]float64 {
	var w [4]float64
	var norm, low float64
	for j := range 3 {
		w[j] = sum[j] - sum[3+j]
		norm += w[j] * w[j]
	}
	if norm == 0 {
		return w
	}
	for j := range 3 {
		w[j] /= norm
	}
	for j := range 3 {
		low += w[j] * sum[3+j]
	}
	w[3] = low
	return w
}

// value is a colour seen along an axis.
func value(c photo.RGB, w [4]float64) float64 {
	return w[0]*float64(c[0]) + w[1]*float64(c[1]) + w[2]*float64(c[2])
}

// profile is the light along the normal of a point, from inside to outside, as
// far as it is looked at and the smoothing further at either end. Three
// neighbouring normals are averaged.
func profile(s Shot, p, dir geom.Pt, w [4]float64) []float64 {
	reach := around + 3*edgeBlur
	n := int(reach / sampleGap)
	out := make([]float64, 2*n+1)
	left := dir.Left()
	for _, side := range [3]float64{-0.4, 0, 0.4} {
		from := p.Add(dir.Mul(side))
		for k := -n; k <= n; k++ {
			q := from.Sub(left.Mul(float64(k) * sampleGap))
			out[k+n] += value(s.Photo.At(s.View.Pixel(q)), w) / 3
		}
	}
	return out
}

// slope are the weights of the derivative of a Gaussian of edgeBlur.
var slope = func() []float64 {
	reach := 3 * edgeBlur / sampleGap
	n := int(reach)
	out := make([]float64, 2*n+1)
	var sum float64
	for k := -n; k <= n; k++ {
		x := float64(k) * sampleGap / edgeBlur
		out[k+n] = x * math.Exp(-x*x/2)
		sum += out[k+n] * float64(k) * sampleGap
	}
	for k := range out {
		out[k] /= sum // a fall of 1 a mm gives 1
	}
	return out
}()

// steepest returns how far outside the middle, within a look to either side, the
// light falls off most steeply, and how steep that is in units of what is usual in the profile elsewhere. Of
// several falls of about the same size the outermost is taken: the others are
// printed lines inside the paper.
func steepest(profile []float64, look float64) (at, signal float64, ok bool) {
	n := len(slope) / 2
	fall := make([]float64, len(profile)-2*n)
	for k := range fall {
		for j, s := range slope {
			fall[k] -= s * profile[k+j]
		}
	}
	middle := len(fall) / 2
	far := min(int(look/sampleGap), middle-1)
	most := 0.0
	for _, f := range fall[middle-far : middle+far+1] {
		most = max(most, f)
	}
	best := -1
	for k := middle + far; k >= middle-far; k-- {
		if fall[k] >= fall[k-1] && fall[k] > fall[k+1] && fall[k] > 0.6*most {
			best = k
			break
		}
	}
	if best < 0 || most <= 0 {
		return 0, 0, false
	}
	a, b, c := fall[best-1], fall[best], fall[best+1]
	shift := 0.0
	if d := a - 2*b + c; d < 0 {
		shift = min(max((a-c)/(2*d), -1), 1)
	}
	return (float64(best-middle) + shift) * sampleGap, b / noiseOf(fall, best), true
}

// noiseOf is the standard deviation of the steepness away from the edge.
func noiseOf(fall []float64, edge int) float64 {
	var rest []float64
	for k, f := range fall {
		if math.Abs(float64(k-edge))*sampleGap > clear {
			rest = append(rest, math.Abs(f))
		}
	}
	return max(1.4826*median(rest), 1e-6)
}

// settleJumps moves points that lie further from the line they were measured
// from than their neighbours do, or were not found, to where the neighbours are.
func settleJumps(pts []edgePoint, loop []geom.Pt) {
	n := len(pts)
	off := make([]float64, n) // outward
	for i := range pts {
		off[i] = -pts[i].p.Sub(loop[i]).Dot(heading(loop, i, 3).Left())
	}
	const reach = 5
	for i := range pts {
		var beside []float64
		for k := -reach; k <= reach; k++ {
			if j := ((i+k)%n + n) % n; k != 0 && pts[j].found {
				beside = append(beside, off[j])
			}
		}
		if len(beside) == 0 {
			continue
		}
		m := median(beside)
		if !pts[i].found || math.Abs(off[i]-m) > 0.6 {
			pts[i].p = loop[i].Sub(heading(loop, i, 3).Left().Mul(m))
		}
	}
}

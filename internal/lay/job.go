package lay

import (
	"math"

	"gusset/internal/finish"
	"gusset/internal/nest"
)

// job is one piece for a section of the cloth.
type job struct {
	cut    finish.Cut
	index  int // of it among the run's cuts
	layers int
	ids    []string // what is cut when it is cut
	poses  []nest.Orientation
	pins   []nest.Pin
	tilt   float64 // degrees it may lie off the grain
}

// jobs are what is laid on each stretch when every cut has its home.
func (w *work) jobs(s scheme, homes []home) [][]job {
	out := make([][]job, len(s.stretches))
	for i, r := range w.cuts {
		h := homes[i]
		if w.hand != nil && w.hand.gone[i] {
			continue
		}
		var j job
		switch {
		case !h.double:
			j = w.single(r)
		case r.cut.OnFold:
			j = w.half(r)
		case i < r.twin:
			j = w.pair(r)
		default:
			continue // cut with its twin
		}
		if j.index = i; w.bound(i) {
			j.tilt = 0
		}
		out[h.stretch] = append(out[h.stretch], j)
	}
	return out
}

// tops are the ways the top of a piece may point.
func (w *work) tops() []float64 {
	if w.cloth.TopsOneWay() {
		return []float64{-90}
	}
	return []float64{-90, 90}
}

func (w *work) single(r ready) job {
	j := job{cut: r.open, layers: 1, ids: []string{r.cut.ID}, tilt: w.opts.OffGrain.tilt(r.cut)}
	for _, d := range w.tops() {
		j.poses = append(j.poses, forSearch(false, d))
	}
	return j
}

// pair is cut through both layers; whichever hand lies on top, the same two
// pieces come out.
func (w *work) pair(r ready) job {
	j := job{cut: r.cut, layers: 2, ids: []string{r.cut.ID, r.cut.Pair}, tilt: w.opts.OffGrain.tilt(r.cut)}
	for _, d := range w.tops() {
		j.poses = append(j.poses, forSearch(false, d), forSearch(true, d))
	}
	return j
}

// half lies with its fold line on the fold and itself above it, which leaves
// one pose for each direction of the top.
func (w *work) half(r ready) job {
	j := job{
		cut: r.cut, layers: 2, ids: []string{r.cut.ID},
		pins: []nest.Pin{{Axis: nest.Y, Of: nest.Low, Value: 0}},
	}
	lo, _ := across(r.cut)
	rightOfFold := lo == r.cut.Fold[0].X
	for _, d := range w.tops() {
		// Turned with its top to +x, what was on the right comes to lie below.
		j.poses = append(j.poses, forSearch(rightOfFold == (d == -90), d))
	}
	return j
}

// forSearch turns a pose on the cloth (flip mirrors x) into the search's (flip
// mirrors y), which is half a turn from it; onCloth turns it back.
func forSearch(flip bool, degrees float64) nest.Orientation {
	if flip {
		degrees += 180
	}
	return nest.Orientation{Degrees: degrees, Flip: flip}
}

func onCloth(o nest.Orientation) (flip bool, degrees float64) {
	degrees = o.Degrees
	if o.Flip {
		degrees -= 180
	}
	return o.Flip, tidyDegrees(degrees)
}

// tidyDegrees drops what binary fractions leave behind the ninth decimal, so that
// a tilt of 2.3 degrees is written as that.
func tidyDegrees(v float64) float64 { return math.Round(v*1e9) / 1e9 }

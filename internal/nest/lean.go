package nest

import (
	"math"
	"math/rand/v2"
	"slices"
	"sync/atomic"
)

// A part that may tilt is laid at any angle within its tilt. Exploring knows
// four leans of each orientation it is given, half the tilt and all of it to
// either side. Compressing draws others near the lean that each part has in the
// best layout, the nearer the later. In the end a part leans no more than it
// must.

const (
	leanStep  = 0.1 // degrees: what a hand lays true to, over a piece's length
	leanTo    = 0.2 // degrees either side of a lean, at the end of compressing
	leanRound = 200 // rounds with the same leans
)

// leans are those of exploring, in parts of the tilt.
var leans = [4]float64{-1, -0.5, 0.5, 1}

// leaning is an orientation, leant by some degrees.
func (o Orientation) leaning(lean float64) Orientation {
	return Orientation{o.Degrees + lean, o.Flip}
}

// tilted adds, to each orientation, its leans.
func tilted(poses []Orientation, tilt float64) []Orientation {
	out := slices.Clone(poses)
	if tilt == 0 {
		return out
	}
	for _, d := range leans {
		for _, o := range poses {
			out = append(out, o.leaning(float64(d*tilt)))
		}
	}
	return out
}

// tilts tells whether item i may tilt.
func (f *field) tilts(i int) bool { return f.problem.Parts[i].Tilt > 0 }

// tilting tells whether any item may.
func (f *field) tilting() bool {
	return slices.ContainsFunc(f.problem.Parts, func(p Part) bool { return p.Tilt > 0 })
}

// upright is the orientation given that pose k of item i is a lean of, and how
// far it leans, degrees.
func (f *field) upright(i, k int) (number int, lean float64) {
	given := f.problem.Parts[i].Poses
	number = k % len(given)
	return number, f.items[i].poses[k].Degrees - given[number].Degrees
}

// relean gives pose k of item i another lean.
func (f *field) relean(i, k int, lean float64) {
	part := &f.problem.Parts[i]
	number := k % len(part.Poses)
	f.items[i].poses[k] = f.newPose(part, part.Poses[number].leaning(lean), number, nil)
}

// adoptLeans has the items know the leans of a layout, so that it can be gone
// on from.
func (f *field) adoptLeans(l *Layout) {
	for _, pl := range l.Placements {
		if pl.Part < 0 || pl.Part >= len(f.items) || !f.tilts(pl.Part) || bad(pl.Degrees) {
			continue
		}
		it, part := &f.items[pl.Part], &f.problem.Parts[pl.Part]
		is := Orientation{pl.Degrees, pl.Flip}
		if slices.ContainsFunc(it.poses, func(ps *pose) bool { return ps.Orientation == is }) {
			continue
		}
		for number, o := range part.Poses {
			if lean := is.Degrees - o.Degrees; o.Flip == is.Flip && math.Abs(lean) <= part.Tilt+slack {
				k := number + len(part.Poses)*(1+nearestLean(lean/part.Tilt))
				it.poses[k] = f.newPose(part, is, number, nil)
				break
			}
		}
	}
}

// nearestLean is the lean of exploring nearest to a part of the tilt.
func nearestLean(share float64) int {
	best := 0
	for n, d := range leans {
		if math.Abs(d-share) < math.Abs(leans[best]-share) {
			best = n
		}
	}
	return best
}

// shortest is a length along X that item i does not go below however it leans.
// From one lean to the next tried no two points of it come nearer along X than
// by its diameter times the angle between.
func (f *field) shortest(i int) float64 {
	part := &f.problem.Parts[i]
	ring := hull(part.Shape)
	diam := f.items[i].poses[0].solid.diam
	n := math.Ceil(2 * part.Tilt / leanStep)
	step := 2 * part.Tilt / n
	least := math.Inf(1)
	for _, o := range part.Poses {
		for k := 0.0; k <= n; k++ {
			t := turnOf(o.leaning(float64(k*step) - part.Tilt))
			lo, hi := math.Inf(1), math.Inf(-1)
			for _, p := range ring {
				x := t.apply(p).X
				lo, hi = min(lo, x), max(hi, x)
			}
			least = min(least, hi-lo)
		}
	}
	return least - float64(diam*step*math.Pi/360)
}

// leanNear draws new leans for compressing, at most a share of half a part's tilt
// from those in spots, in place of the others that the parts' orientations have there. The
// poses in use keep their numbers; another pose of a part that tilts may be
// another one afterwards.
func (f *field) leanNear(spots []spot, share float64, rng *rand.Rand) {
	for i, s := range spots {
		if s.strip < 0 || !f.tilts(i) {
			continue
		}
		part := &f.problem.Parts[i]
		number, now := f.upright(i, s.pose)
		wide := max(leanTo, float64(share*part.Tilt/2))
		for n, d := range leans {
			k := number + len(part.Poses)*(1+n)
			if k == s.pose {
				continue
			}
			lean := now + float64(d*wide*(0.5+float64(0.5*rng.Float64())))
			f.relean(i, k, min(max(roundTo(lean, leanStep), -part.Tilt), part.Tilt))
		}
	}
	f.coverLeans()
}

func roundTo(v, step float64) float64 { return math.Round(v/step) * step }

// coverLeans does for poses with drawn leans what cover does for all. Fences
// between the others stay.
func (f *field) coverLeans() {
	old := len(f.bases)
	f.bases = f.bases[:f.core]
	for i := range f.items {
		for _, ps := range f.items[i].poses {
			if ps.solid.base < 0 || ps.solid.base >= f.core {
				_, by := ps.Orientation.split()
				ps.solid.base, ps.solid.by, ps.solid.back = f.newBase(by.undo(ps.solid.ring())), by, by.back()
			}
		}
	}
	n := len(f.bases)
	fences := make([]atomic.Pointer[fence], n*n*quarterKinds)
	for a := range f.core {
		for b := range f.core * quarterKinds {
			fences[a*n*quarterKinds+b].Store(f.fences[a*old*quarterKinds+b].Load())
		}
	}
	f.fences = fences
}

// straighten turns what leans towards how it was given, as far as it finds room
// beside where it lies, without making the layout longer. It tells whether
// anything was turned.
func (f *field) straighten(spots []spot) bool {
	turned := false
	b := builder{f: f, spots: spots}
	for i, s := range spots {
		if s.strip < 0 || !f.tilts(i) || f.items[i].tied {
			continue
		}
		number, now := f.upright(i, s.pose)
		most := math.Abs(now)
		for lean := 0.0; lean <= most-leanStep; lean += max(straightenBy, most/20) {
			if at, ok := b.straighter(i, number, roundTo(math.Copysign(lean, now), leanStep)); ok {
				spots[i], turned = at, true
				break
			}
		}
	}
	return turned
}

// straightenBy is the least between the leans tried, from none at all on, degrees.
const straightenBy = 0.5

// straighter finds a place for item i with a lesser lean, near where it lies.
func (b *builder) straighter(i, number int, lean float64) (spot, bool) {
	f, was := b.f, b.spots[i]
	it := &f.items[i]
	k := number
	if lean != 0 {
		// Any pose but the one in use; the search is over.
		if k = number + len(f.problem.Parts[i].Poses); k == was.pose {
			k += len(f.problem.Parts[i].Poses)
		}
		f.relean(i, k, lean)
	}
	own, old := it.poses[k].solid.box, it.poses[was.pose].solid.box
	r := it.poses[k].rooms[was.strip]
	hi := min(r.x1, f.lengthOf(was.strip, b.spots)-own.x1)
	x := was.x + (old.x0+old.x1-own.x0-own.x1)/2
	y := was.y + (old.y0+old.y1-own.y0-own.y1)/2
	for n := range 9 {
		by := float64((n + 1) / 2)
		if n%2 == 1 {
			by = -by
		}
		s := spot{was.strip, k, x, min(max(y+float64(by*it.small/16), r.y0), r.y1)}
		b.gather(i, s, false, nil)
		at, ok := b.slide.first(max(r.x0, x-it.small/2), hi, grid{})
		if s.x = at; ok && !r.empty() && f.clearAt(&b.probe, b.spots, i, s) {
			return s, true
		}
	}
	return was, false
}

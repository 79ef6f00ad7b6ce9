package referee

import (
	"math"
	"math/bits"
	"slices"

	"gusset/internal/finish"
	"gusset/internal/lay"
)

// Off the grain, corners do not fall on whole micrometres, so the lay states
// where it cuts, and that is compared with the piece: the distances of every
// corner from three far ones must agree within twice the rounding of a corner,
// and then the outline is the piece, turned somehow. By how much follows from
// its longest line.

// rounding is how much two corners rounded to whole micrometres may change the
// distance between them, micrometres: the diagonal of a square micrometre, up.
const rounding = 2

// farSquared bounds squared distances so that every product below fits.
const farSquared = int64(1e17)

// tilted is the outline of a piece off its grain, as the lay states it.
func (j *judge) tilted(c finish.Cut, p lay.Placed) (ring, int, bool) {
	most := j.permitted(c)
	if most == 0 {
		j.say(grain, c, p.Degrees)
		return nil, 0, false
	}
	cut, lies := ring(p.Cut.Outline), ring(p.Cutting())
	if !congruent(cut, lies) || !soundly(lies, p.Flip) {
		j.say(altered, c)
		return nil, 0, false
	}
	quarters, ok := turnedWithin(cut, lies, p.Flip, most)
	if !ok {
		j.say(tilt, c, p.Degrees, most)
		return nil, 0, false
	}
	if p.Flip {
		slices.Reverse(lies)
	}
	return lies, quarters, true
}

// permitted is by how many degrees a piece may lie off its grain: none but
// small ones that are not seen, or are named, and that only with permission.
func (j *judge) permitted(c finish.Cut) float64 {
	g := j.lay.OffGrain
	b := boxOf(c.Outline...)
	if c.OnFold || !(g.UpTo > 0 && g.UpTo <= 45) || b.hi.Y-b.lo.Y > micron(lay.LargestTilted) {
		return 0
	}
	if !c.Hidden && !slices.Contains(g.Pieces, c.Piece) {
		return 0
	}
	return g.UpTo
}

// soundly tells that an outline runs as one does that is flipped or not.
func soundly(r ring, flip bool) bool {
	if flip {
		r = slices.Clone(r)
		slices.Reverse(r)
	}
	return r.turns() > 0
}

func squared(a, b point) int64 { return (b.X-a.X)*(b.X-a.X) + (b.Y-a.Y)*(b.Y-a.Y) }

// congruent tells whether two outlines agree corner by corner, moved, turned or
// mirrored.
func congruent(a, b ring) bool {
	if len(a) != len(b) {
		return false
	}
	for _, r := range []ring{a, b} {
		for _, p := range r {
			if max(p.X, -p.X, p.Y, -p.Y) > farthest || squared(r[0], p) > farSquared {
				return false
			}
		}
	}
	for _, k := range farCorners(a) {
		for i := range a {
			if !alike(squared(a[k], a[i]), squared(b[k], b[i])) {
				return false
			}
		}
	}
	return true
}

// farCorners are three corners of a: the first, the farthest from it, and the
// farthest from the line through both.
func farCorners(a ring) [3]int {
	far, wide := 0, 0
	for i := range a {
		if squared(a[0], a[i]) > squared(a[0], a[far]) {
			far = i
		}
	}
	off := func(i int) int64 {
		v := (a[far].X-a[0].X)*(a[i].Y-a[0].Y) - (a[far].Y-a[0].Y)*(a[i].X-a[0].X)
		return max(v, -v)
	}
	for i := range a {
		if off(i) > off(wide) {
			wide = i
		}
	}
	return [3]int{0, far, wide}
}

// alike tells from two squared distances whether the distances differ by no
// more than rounding: with d the less of the squares, the other is at most
// d + 2 rounding √d + rounding².
func alike(s, t int64) bool {
	d := min(s, t)
	over := max(s, t) - d - rounding*rounding
	if over <= 0 {
		return true
	}
	if over > math.MaxInt32 { // √d is below 2^29, four times it below 2^31
		return false
	}
	return over*over <= 4*rounding*rounding*d
}

// turnedWithin is the quarter turns that a piece lies nearest to, when it lies
// no more degrees off them.
func turnedWithin(cut, lies ring, flip bool, degrees float64) (quarters int, ok bool) {
	far := farCorners(cut)[1]
	way := point{X: cut[far].X - cut[0].X, Y: cut[far].Y - cut[0].Y}
	if flip {
		way.X = -way.X
	}
	is := point{X: lies[far].X - lies[0].X, Y: lies[far].Y - lies[0].Y}
	for _, q := range []int{1, 3} {
		u := turned(way, q)
		dot := u.X*is.X + u.Y*is.Y
		off := u.X*is.Y - u.Y*is.X
		if dot > 0 {
			return q, below(max(off, -off), dot, degrees)
		}
	}
	return 0, false
}

// below tells whether off/dot is at most the tangent of an angle, give or take
// the rounding of both ends of the line.
func below(off, dot int64, degrees float64) bool {
	const unit = 1_000_000_000
	length := int64(math.Sqrt(float64(dot))) + 1
	off = max(0, off-rounding*length)
	aHi, aLo := bits.Mul64(uint64(off), unit)
	bHi, bLo := bits.Mul64(uint64(dot), uint64(math.Ceil(math.Tan(degrees*math.Pi/180)*unit)))
	return aHi < bHi || aHi == bHi && aLo <= bLo
}

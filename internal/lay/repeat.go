package lay

import (
	"math"
	"slices"

	"gusset/internal/finding"
	"gusset/internal/finish"
	"gusset/internal/nest"
)

// On striped cloth and on plaid, pieces that are sewn together must meet at the
// same point of the repeat: at the named places of their stitching lines the
// stripes run on from one to the other. Seen on the garment, all pieces face up
// and tops up, that is one rule for each way the cloth repeats: the two places
// lie the same distance, up to whole repeats, from a fixed line of the cloth.
// Where the repeat is its own mirror image about known lines, the right hand
// moreover mirrors the left about the garment's centre, so that a seam on the
// centre comes to lie on such a line.
//
// Pieces bound to each other so, however many links lie between them, make a
// group: one of them placed, all others are free to move by whole repeats only.

// group is pieces bound to each other along or across.
type group struct {
	axis    nest.Axis
	period  float64
	phases  []float64 // allowed; nil for any
	members map[int]bond
}

// bond gives a cut's own phase, that of the origin of its coordinates when it
// lies face up with its top to +X: the group's phase, negated when back is set,
// and off more.
type bond struct {
	back bool
	off  float64 // mm
}

// Unmatched is a match that cannot be had beside the others.
type Unmatched struct {
	Match         string
	Along, Across bool    // which repeat does not meet there
	Apart         float64 // by how much it misses, mm
}

// apartMost is how far the repeat may miss at a matched place, mm: half a
// millimetre, as for seams.
const apartMost = 0.5

// binder collects the groups of one way of repeating.
type binder struct {
	axis   nest.Axis
	period float64
	root   []int // by cut
	bond   []bond
	phases map[int][]float64 // by root; a root without an entry is free
	bound  []bool            // cuts that some link holds
}

// groups binds the cuts of a run in every way that its cloth repeats.
func (w *work) groups() (out []group, missed []Unmatched, found finding.List) {
	along, across := w.cloth.Periods()
	for _, way := range []struct {
		axis   nest.Axis
		period float64
	}{{nest.X, along}, {nest.Y, across}} {
		if way.period <= 0 {
			continue
		}
		b := newBinder(way.axis, way.period, len(w.cuts))
		live := w.places(way.axis)
		w.mirror(b, live)
		for _, m := range live {
			apart := b.meet(m)
			if apart <= apartMost {
				continue
			}
			missed = append(missed, Unmatched{Match: m[0].match, Along: way.axis == nest.X, Across: way.axis == nest.Y, Apart: apart})
			found = append(found, unmatched.At(m[0].place, m[0].match, ways[way.axis], w.say(apart)))
		}
		out = append(out, b.groups()...)
	}
	return out, missed, found
}

// imageOf tells how exact mirror images lie to each other: x of the one and of
// the other add up to sum, and y of the other is up more; micrometres.
func imageOf(a, b []finish.Micron) (sum, up int64) {
	low, high := a[0], b[0]
	for _, p := range a {
		low = finish.Micron{X: min(low.X, p.X), Y: min(low.Y, p.Y)}
	}
	y := b[0].Y
	for _, p := range b {
		high.X, y = max(high.X, p.X), min(y, p.Y)
	}
	return low.X + high.X, y - low.Y
}

// ways names the repeats.
var ways = map[nest.Axis]string{nest.X: "along the cloth", nest.Y: "across the cloth"}

// spotOn is a matched place on one cut.
type spotOn struct {
	cut   int
	match string
	at    float64 // on the axis, when the cut lies face up with its top to +X
	place finding.Place
}

// places lists the matches of a way that two places or more of these cuts have
// in common, in the order in which they are written.
func (w *work) places(axis nest.Axis) [][]spotOn {
	var order []string
	by := map[string][]spotOn{}
	for i, r := range w.cuts {
		for _, m := range r.cut.Matched {
			if axis == nest.X && !m.Along || axis == nest.Y && !m.Across {
				continue
			}
			if by[m.Match] == nil {
				order = append(order, m.Match)
			}
			at := float64(m.At.Y) / 1000
			if axis == nest.Y {
				at = -float64(m.At.X) / 1000
			}
			by[m.Match] = append(by[m.Match], spotOn{i, m.Match, at, m.Place})
		}
	}
	slices.SortStableFunc(order, func(a, b string) int { return before(by[a][0].place, by[b][0].place) })
	var out [][]spotOn
	for _, id := range order {
		if len(by[id]) > 1 {
			out = append(out, by[id])
		}
	}
	return out
}

// before orders places of one file.
func before(a, b finding.Place) int { return a.Line - b.Line }

// mirror binds the hands to each other, where both are matched, and the middle
// of a piece cut on the fold to a line of symmetry.
func (w *work) mirror(b *binder, live [][]spotOn) {
	matched := map[int]bool{}
	for _, m := range live {
		for _, s := range m {
			matched[s.cut] = true
		}
	}
	centred := w.cloth.Centred()
	for i, r := range w.cuts {
		switch {
		case !matched[i]:
		case r.cut.OnFold && b.axis == nest.Y && centred:
			fold := float64(r.cut.Fold[0].X) / 1000
			b.link(i, i, true, 2*fold)
		case r.twin > i && matched[r.twin]:
			sum, up := imageOf(r.cut.Outline, w.cuts[r.twin].cut.Outline)
			if b.axis == nest.X {
				b.link(i, r.twin, false, -float64(up)/1000)
			} else if centred {
				b.link(i, r.twin, true, float64(sum)/1000)
			}
		}
	}
}

func newBinder(axis nest.Axis, period float64, n int) *binder {
	b := &binder{axis: axis, period: period, bond: make([]bond, n), bound: make([]bool, n), phases: map[int][]float64{}}
	for i := range n {
		b.root = append(b.root, i)
	}
	return b
}

// meet binds all places of a match to the first; what cannot be bound tells by
// how much the worst of them misses, and stays as it is.
func (b *binder) meet(m []spotOn) (apart float64) {
	for _, s := range m[1:] {
		apart = max(apart, b.link(m[0].cut, s.cut, false, m[0].at-s.at))
	}
	return apart
}

func sign(back bool) float64 {
	if back {
		return -1
	}
	return 1
}

// link states that the phase of j is that of i, negated when back is set, and
// off more. It returns by how much that misses, in mm: 0 as a rule. A link that
// misses by more than is allowed leaves everything as it was.
func (b *binder) link(i, j int, back bool, off float64) (apart float64) {
	bi, bj := b.bond[i], b.bond[j]
	// phase of j = s*A + d, where A is the phase of i's group; and = t*B + e.
	s, d := sign(back)*sign(bi.back), sign(back)*bi.off+off
	t, e := sign(bj.back), bj.off
	var allowed []float64
	if b.root[i] == b.root[j] {
		if s == t {
			if apart = math.Abs(math.Remainder(d-e, b.period)); apart <= apartMost {
				b.bound[i], b.bound[j] = true, true
			}
			return apart
		}
		half := (d - e) / (t - s) // (t-s)*A = d-e up to periods
		allowed, apart = b.common(b.root[i], []float64{half, half + b.period/2})
	} else {
		allowed, apart = b.joined(i, j, s*t, t*(d-e))
	}
	if apart > apartMost {
		return apart
	}
	if allowed != nil {
		b.phases[b.root[i]] = allowed
	}
	b.bound[i], b.bound[j] = true, true
	return apart
}

// joined brings the group of j into that of i, when the phase B of the one is
// s*A + d by the phase A of the other.
func (b *binder) joined(i, j int, s, d float64) (allowed []float64, apart float64) {
	into, from := b.root[i], b.root[j]
	if theirs := b.phases[from]; theirs != nil {
		seen := make([]float64, len(theirs))
		for k, v := range theirs {
			seen[k] = s * (v - d)
		}
		if allowed, apart = b.common(into, seen); apart > apartMost {
			return nil, apart
		}
	}
	for k := range b.root {
		if b.root[k] == from {
			old := b.bond[k]
			b.root[k] = into
			b.bond[k] = bond{back: sign(old.back)*s < 0, off: sign(old.back)*d + old.off}
		}
	}
	delete(b.phases, from)
	return allowed, apart
}

// common is which of the phases a root may have are among those given too, and,
// when none is, how far the nearest miss: counted twice, since a centre seam
// has two sides.
func (b *binder) common(root int, given []float64) (allowed []float64, apart float64) {
	mine, fixed := b.phases[root]
	if !fixed {
		return given, 0
	}
	apart = math.Inf(1)
	for _, v := range mine {
		for _, o := range given {
			miss := 2 * math.Abs(math.Remainder(v-o, b.period))
			apart = min(apart, miss)
			if miss <= apartMost {
				allowed = append(allowed, v)
				break
			}
		}
	}
	return allowed, apart
}

// groups are the bound cuts by their roots, in order of cuts.
func (b *binder) groups() []group {
	var out []group
	at := map[int]int{}
	for i, bound := range b.bound {
		if !bound {
			continue
		}
		r := b.root[i]
		k, known := at[r]
		if !known {
			k = len(out)
			at[r] = k
			out = append(out, group{axis: b.axis, period: b.period, phases: b.phases[r], members: map[int]bond{}})
		}
		out[k].members[i] = b.bond[i]
	}
	return out
}

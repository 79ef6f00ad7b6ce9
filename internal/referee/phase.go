package referee

import (
	"math"

	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/finish"
	"gusset/internal/lay"
)

// Stripes and bars: at the matched places of their stitching lines, pieces show
// the same point of the repeat within half a millimetre, and where the repeat is
// its own mirror image about known lines, the right hand mirrors the left. All
// of it is judged on the cloth unfolded, in nanometres, so that a repeat that is
// no whole number of micrometres does not add up to an error. Places are counted
// from lines of symmetry: along the cloth from the squared line, across it from
// the middle of a bar. A cloth that is folded along its bars is folded on one,
// however near the tape puts the fold.

// within half a millimetre the repeat meets, nanometres.
const meets = 500_000

// onBar is how far a fold may lie from a line of symmetry, micrometres.
const onBar = 1000

// metre is a repeat one way of the cloth.
type metre struct {
	words  string
	period int64                       // nanometres, 0 for none
	of     func(m finish.Matched) bool // asks for this way
	missed func(u lay.Unmatched) bool  // says that it cannot be had
}

func metres(c cloth.Cloth) [2]metre {
	along, across := c.Periods()
	return [2]metre{
		{"along the cloth", nano(along), func(m finish.Matched) bool { return m.Along }, func(u lay.Unmatched) bool { return u.Along }},
		{"across the cloth", nano(across), func(m finish.Matched) bool { return m.Across }, func(u lay.Unmatched) bool { return u.Across }},
	}
}

func nano(mm float64) int64 { return int64(math.Round(mm * 1e6)) }

// seat is where a cut comes to lie: how its points go to the flat cloth.
type seat struct {
	cut    finish.Cut
	p      lay.Placed
	s      lay.Section
	turns  int
	above  bool  // it comes out of the layer above
	mirror bool  // it is cut as the mirror image of what is placed
	sum    int64 // x of a point and of its image add up to this
	up     int64 // the image lies so much higher
}

// phases judges the repeat.
func (j *judge) phases(c cloth.Cloth) {
	if !c.Repeat.Exists() {
		return
	}
	j.folds(c)
	seats := j.seats()
	for axis, m := range metres(c) {
		if m.period > 0 {
			j.meeting(c, axis, m, seats)
		}
	}
}

// seats lists every cut that lies, one for each piece of cloth that comes out.
func (j *judge) seats() []seat {
	var out []seat
	for _, p := range j.lay.Placed {
		c, ok := j.cuts[p.Cut.ID]
		turns, square := quarterTurns(p.Degrees)
		if !ok || !square || turns%2 == 0 || p.Section < 0 || p.Section >= len(j.lay.Sections) || len(c.Outline) == 0 {
			continue // told elsewhere
		}
		st := seat{cut: c, p: p, s: j.lay.Sections[p.Section], turns: turns, above: p.Flip && p.Layers == 2}
		out = append(out, st)
		if other, paired := j.cuts[c.Pair]; p.Layers == 2 && !c.OnFold && paired && len(other.Outline) > 0 {
			st.cut, st.above, st.mirror = other, !st.above, true
			st.sum, st.up = image(c, other)
			out = append(out, st)
		}
	}
	return out
}

// image tells how mirror images lie to each other: x of a point of a and of its
// image in b add up to sum, and the image lies up higher.
func image(a, b finish.Cut) (sum, up int64) {
	x, y := boxOf(a.Outline...), boxOf(b.Outline...)
	return x.lo.X + y.hi.X, y.lo.Y - x.lo.Y
}

// at is where a point of the cut lies, counted from the lines of symmetry, in
// nanometres along and across, each negated when the piece lies end for end: so
// it reads on an even repeat.
func (st seat) at(c cloth.Cloth, q point) [2]int64 {
	if st.mirror {
		q = point{X: st.sum - q.X, Y: q.Y - st.up}
	}
	if st.p.Flip {
		q.X = -q.X
	}
	q = turned(q, st.turns)
	x, y := q.X+st.p.AtX, q.Y+st.p.AtY
	endForEnd := st.turns == 1
	depth := micron(st.s.Depth)
	switch {
	case st.above && st.s.Fold == lay.Along:
		y = -y
	case st.above && st.s.Fold == lay.Across:
		x, endForEnd = 2*micron(st.s.To)-x, !endForEnd
	case st.above && st.s.Fold == lay.Swung:
		x, y = x+micron(st.s.To)-micron(st.s.From), micron(c.UsableWidth())-y
	}
	out := [2]int64{1000 * (x - micron(lay.Squaring)), 1000*(y+depth) - nano(c.Bar())}
	if _, across := c.Periods(); st.s.Fold == lay.Along && across > 0 {
		half := nano(across) / 2
		out[1] = 1000*y + nearest(1000*depth-nano(c.Bar()), half)*half
	}
	if endForEnd {
		out[0], out[1] = -out[0], -out[1]
	}
	return out
}

// nearest is v in whole steps.
func nearest(v, step int64) int64 {
	n := v / step
	for _, k := range []int64{n - 1, n + 1} {
		if size(v-k*step) < size(v-n*step) {
			n = k
		}
	}
	return n
}

func size(v int64) int64 { return max(v, -v) }

// apart is how far two places miss each other in the repeat.
func (m metre) apart(a, b int64) int64 { return size(a - b - nearest(a-b, m.period)*m.period) }

// met is a matched place where it lies.
type met struct {
	seat seat
	at   int64
}

// meeting: the places of each match, and the hands, one way of the cloth.
func (j *judge) meeting(c cloth.Cloth, axis int, m metre, seats []seat) {
	var order []string
	places := map[string][]met{}
	for _, st := range seats {
		for _, k := range st.cut.Matched {
			if m.of(k) {
				if places[k.Match] == nil {
					order = append(order, k.Match)
				}
				places[k.Match] = append(places[k.Match], met{st, st.at(c, k.At)[axis]})
			}
		}
	}
	matched := map[string]bool{}
	for _, name := range order {
		first := places[name][0]
		for _, o := range places[name][1:] {
			matched[first.seat.cut.ID], matched[o.seat.cut.ID] = true, true
			if by := m.apart(first.at, o.at); by > meets && !j.excused(name, m) {
				j.say(phase, first.seat.cut, o.seat.cut.ID, name, float64(by)/1e6, m.words)
			}
		}
	}
	j.hands(c, axis, m, seats, matched)
}

// excused tells that the lay says of a match that it cannot be had.
func (j *judge) excused(name string, m metre) bool {
	for _, u := range j.lay.Unmatched {
		if u.Match == name && m.missed(u) {
			return true
		}
	}
	return false
}

// hands: both hands of a pair show the same, or across the mirror image.
func (j *judge) hands(c cloth.Cloth, axis int, m metre, seats []seat, matched map[string]bool) {
	if axis == 1 && !c.Centred() {
		return
	}
	for i, a := range seats {
		for _, b := range seats[:i] {
			if a.cut.Pair != b.cut.ID || b.cut.Pair != a.cut.ID || !matched[a.cut.ID] || !matched[b.cut.ID] ||
				!same(ring(a.cut.Outline).mirrored(0), ring(b.cut.Outline), true) {
				continue
			}
			sum, up := image(a.cut, b.cut)
			q := a.cut.Outline[0]
			here, there := a.at(c, q)[axis], b.at(c, point{X: sum - q.X, Y: q.Y + up})[axis]
			if axis == 1 {
				there = -there
			}
			if by := m.apart(here, there); by > meets {
				j.say(hands, a.cut, b.cut.ID, float64(by)/1e6, m.words)
			}
		}
	}
}

// folds: layers show the same only when the fold is a line of symmetry.
func (j *judge) folds(c cloth.Cloth) {
	along, across := c.Periods()
	for i, s := range j.lay.Sections {
		wrong := false
		switch s.Fold {
		case lay.Along:
			if half := nano(across) / 2; half > 0 {
				beside := 1000*micron(s.Depth) - nano(c.Bar())
				wrong = !c.Repeat.Even || !c.Repeat.Known || size(beside-nearest(beside, half)*half) > 1000*onBar
			}
		case lay.Across:
			wrong = along > 0
		case lay.Swung:
			wrong = true
		}
		if wrong {
			j.found = append(j.found, barFold.At(finding.Place{}, i+1))
		}
	}
}

package referee

import (
	"gusset/internal/finish"
	"gusset/internal/lay"
)

// piece judges one placement by itself and keeps its outline.
func (j *judge) piece(p lay.Placed) {
	c, ok := j.cuts[p.Cut.ID]
	if !ok {
		j.say(unknown, p.Cut)
		return
	}
	j.times[c.ID]++
	if p.Section < 0 || p.Section >= len(j.lay.Sections) {
		j.say(astray, c, p.Section+1)
		return
	}
	s := j.lay.Sections[p.Section]
	if !j.shown(c, p, s) {
		return
	}
	r, quarters, ok := j.put(c, p)
	if !ok {
		return
	}
	if !r.plain() {
		j.say(outline, c)
		return
	}
	if p.Layers == 2 && s.Fold != lay.Flat {
		j.double(c, p, s, quarters)
	} else {
		j.flat(c, p, s)
	}
	j.within(c, p, s, boxOf(r...))
	j.lying = append(j.lying, lying{cut: c, box: boxOf(r...), flat: j.unfold(s, p.Layers, r, quarters)})
}

// shown tells that the lay shows the outline that is cut: a half piece on a
// lengthwise fold, opened out anywhere else.
func (j *judge) shown(c finish.Cut, p lay.Placed, s lay.Section) bool {
	shape := ring(c.Outline)
	if !shape.plain() {
		j.say(outline, c)
		return false
	}
	if c.OnFold {
		open, ok := whole(c)
		if !ok {
			j.say(halved, c)
			return false
		}
		if s.Fold != lay.Along || p.Layers != 2 && micron(s.Depth) < micron(s.Width) {
			shape = open
		}
	}
	if !same(shape, ring(p.Cut.Outline), false) {
		j.say(altered, c)
		return false
	}
	return true
}

// put is the outline on the cloth, and the quarter turns by which its top
// points there.
func (j *judge) put(c finish.Cut, p lay.Placed) (r ring, quarters int, ok bool) {
	if max(p.AtX, p.AtY) > farthest || min(p.AtX, p.AtY) < -farthest {
		j.say(outline, c)
		return nil, 0, false
	}
	quarters, ok = quarterTurns(p.Degrees)
	if !ok {
		return j.tilted(c, p)
	}
	if quarters%2 == 0 {
		j.say(grain, c, p.Degrees)
		return nil, 0, false
	}
	return ring(p.Cut.Outline).put(p.Flip, quarters, point{X: p.AtX, Y: p.AtY}), quarters, true
}

// quarterTurns is degrees as counter-clockwise quarter turns, 0 to 3.
func quarterTurns(degrees float64) (int, bool) {
	for k := range 4 {
		if d := float64(90 * k); degrees == d || degrees == d-360 {
			return k, true
		}
	}
	return 0, false
}

// flat: on a single layer the cut is what lies there, face up.
func (j *judge) flat(c finish.Cut, p lay.Placed, s lay.Section) {
	switch single := s.Fold == lay.Along && micron(s.Depth) < micron(s.Width); {
	case s.Fold != lay.Flat && !single:
		j.say(layers, c, p.Layers, 2)
	case p.Layers != 1:
		j.say(layers, c, p.Layers, 1)
	}
	if p.Flip {
		j.say(mirror, c)
	}
}

// double: cut through both layers, a piece comes out with its mirror image, or
// as one whole piece when its fold line lies on the fold.
func (j *judge) double(c finish.Cut, p lay.Placed, s lay.Section, quarters int) {
	other, paired := j.cuts[c.Pair]
	switch {
	case c.OnFold && s.Fold != lay.Along:
		j.say(nofold, c)
	case c.OnFold:
		ends := ring(c.Fold[:]).put(p.Flip, quarters, point{X: p.AtX, Y: p.AtY})
		if ends[0].Y != 0 || ends[1].Y != 0 {
			j.say(fold, c, mm(ends[0].Y), mm(ends[1].Y))
		}
	case !paired || other.Pair != c.ID || c.Pair == c.ID:
		j.say(single, c)
	default:
		j.times[other.ID]++
		if !same(ring(c.Outline).mirrored(0), ring(other.Outline), true) {
			j.say(unequal, c, other.ID)
		}
	}
}

// within: inside its section, and beside a part fold on the part where it
// belongs.
func (j *judge) within(c finish.Cut, p lay.Placed, s lay.Section, b box) {
	least, most := int64(0), micron(s.Width)
	low, high, end := "near selvedge", "far selvedge", "end of its section"
	switch {
	case s.Fold == lay.Along && p.Layers == 2:
		most, low, high = micron(s.Depth), "fold", "selvedge of the layer folded over"
	case s.Fold == lay.Along:
		least, low = micron(s.Depth)+j.selvedge, "edge of the layer folded over"
	case s.Fold == lay.Across:
		end = "crosswise fold"
	}
	for _, side := range []struct {
		name string
		by   int64
	}{
		{"beginning of its section", micron(s.From) - b.lo.X},
		{end, b.hi.X - micron(s.To)},
		{low, least - b.lo.Y},
		{high, b.hi.Y - most},
	} {
		if side.by > 0 {
			j.say(beyond, c, mm(side.by), side.name)
		}
	}
}

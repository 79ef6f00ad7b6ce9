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
	shape, ok := j.shape(c, p, s.Folded)
	if !ok {
		return
	}
	quarters, ok := quarterTurns(p.Degrees)
	if !ok || quarters%2 == 0 {
		j.say(grain, c, p.Degrees)
		return
	}
	if max(p.AtX, p.AtY) > farthest || min(p.AtX, p.AtY) < -farthest {
		j.say(outline, c)
		return
	}
	at := point{X: p.AtX, Y: p.AtY}
	r := shape.put(p.Flip, quarters, at)
	lies := lying{cut: c, section: p.Section, quarters: quarters, ring: r, box: boxOf(r...)}
	if !r.plain() {
		j.say(outline, c)
		return
	}
	if s.Folded {
		j.folded(c, p, quarters, at)
	} else {
		j.flat(c, p)
	}
	j.within(lies, s)
	j.lying = append(j.lying, lies)
}

// shape is the outline that is cut: a half piece on the fold, or opened out on
// a single layer. The lay must show the same.
func (j *judge) shape(c finish.Cut, p lay.Placed, folded bool) (ring, bool) {
	shape := ring(c.Outline)
	if !shape.plain() {
		j.say(outline, c)
		return nil, false
	}
	if c.OnFold {
		open, ok := whole(c)
		if !ok {
			j.say(halved, c)
			return nil, false
		}
		if !folded {
			shape = open
		}
	}
	if shown := ring(p.Cut.Outline); !same(shape, shown, false) {
		j.say(altered, c)
		return nil, false
	}
	return shape, true
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
func (j *judge) flat(c finish.Cut, p lay.Placed) {
	if p.Layers != 1 {
		j.say(layers, c, p.Layers, 1)
	}
	if p.Flip {
		j.say(mirror, c)
	}
}

// folded: cut through both layers, a piece comes out with its mirror image, or
// as one whole piece when its fold line lies on the fold.
func (j *judge) folded(c finish.Cut, p lay.Placed, quarters int, at point) {
	switch other, paired := j.cuts[c.Pair]; {
	case p.Layers != 2:
		j.say(layers, c, p.Layers, 2)
	case c.OnFold:
		ends := ring(c.Fold[:]).put(p.Flip, quarters, at)
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

// within: inside its section.
func (j *judge) within(a lying, s lay.Section) {
	low, high := "near selvedge", "far selvedge"
	if s.Folded {
		low, high = "fold", "selvedges"
	}
	for _, side := range []struct {
		name string
		by   int64
	}{
		{"beginning", micron(s.From) - a.box.lo.X},
		{"end", a.box.hi.X - micron(s.To)},
		{low, -a.box.lo.Y},
		{high, a.box.hi.Y - micron(s.Width)},
	} {
		if side.by > 0 {
			j.say(beyond, a.cut, mm(side.by), side.name)
		}
	}
}

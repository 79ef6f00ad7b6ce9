package referee

import (
	"slices"

	"gusset/internal/cloth"
)

// onCloth: no piece lies on a flaw, under either layer of a fold, and on an odd
// remnant every piece lies within it.
func (j *judge) onCloth(c cloth.Cloth) {
	var around ring
	for _, s := range c.Outline {
		around = append(around, spot(c, s))
	}
	if len(around) > 0 && around.turns() < 0 {
		slices.Reverse(around)
	}
	for _, a := range j.lying {
		for _, f := range c.Flaws {
			if sharesCloth(a.flat, []flat{{ring: flawBox(c, f)}}) {
				j.say(flawed, a.cut, f.At.FromEnd, f.At.FromSelvedge)
			}
		}
		for _, f := range a.flat {
			if len(around) > 0 && leaves(f.ring, around) {
				j.say(remnant, a.cut)
				break
			}
		}
	}
}

// spot is a measured spot after washing, from the inner border of the selvedge.
func spot(c cloth.Cloth, s cloth.Spot) point {
	return point{
		X: micron(s.FromEnd.MM() * (1 - c.ShrinkWarp)),
		Y: micron((s.FromSelvedge.MM() - c.Selvedge.MM()) * (1 - c.ShrinkWeft)),
	}
}

// flawBox is the square round a flaw.
func flawBox(c cloth.Cloth, f cloth.Flaw) ring {
	at, r := spot(c, f.At), micron(f.Size.MM()/2)
	return ring{{X: at.X - r, Y: at.Y - r}, {X: at.X + r, Y: at.Y - r}, {X: at.X + r, Y: at.Y + r}, {X: at.X - r, Y: at.Y + r}}
}

// leaves tells whether some of a's area lies outside b; both are plain. As in
// share, a's edges are cut at b's corners: then it does exactly when edges
// cross, or when a stretch of a's border lies outside b, or a stretch of b's
// border inside a.
func leaves(a, b ring) bool {
	a, b = doubled(a), doubled(b)
	for i := range a {
		p, q := a.edge(i)
		for k := range b {
			if r, s := b.edge(k); cross(p, q, r, s) {
				return true
			}
		}
	}
	for i := range a {
		p, q := a.edge(i)
		if strays(stretches(p, q, b), func(mid point) bool { return !inside(mid, b) && !onBorder(mid, b) }) {
			return true
		}
	}
	for i := range b {
		p, q := b.edge(i)
		if strays(stretches(p, q, a), func(mid point) bool { return inside(mid, a) }) {
			return true
		}
	}
	return false
}

// strays tells whether the middle of some stretch is wrong.
func strays(stops []point, wrong func(mid point) bool) bool {
	for k := 1; k < len(stops); k++ {
		s, t := stops[k-1], stops[k]
		if s != t && wrong(point{X: (s.X + t.X) / 2, Y: (s.Y + t.Y) / 2}) {
			return true
		}
	}
	return false
}

func onBorder(p point, b ring) bool {
	for i := range b {
		r, s := b.edge(i)
		if side(r, s, p) == 0 && between(r, s, p) {
			return true
		}
	}
	return false
}

package lay

import (
	"math"

	"gusset/internal/cloth"
	"gusset/internal/finish"
	"gusset/internal/geom"
)

// A written place says where one point of a piece lies: the top of the line it
// is laid by. Both the point and its place are whole micrometres, so that what
// is written down and read again is the same place.

// heldAt is that point, in the piece's own coordinates.
func heldAt(k finish.Cut) finish.Micron {
	if top, _, ok := grainLine(k); ok {
		return finish.Micron{X: micron(top.X), Y: micron(top.Y)}
	}
	lo, hi := across(k)
	top := k.Outline[0].Y
	for _, p := range k.Outline {
		top = max(top, p.Y)
	}
	return finish.Micron{X: (lo + hi) / 2, Y: top}
}

// offset is where the point of the piece as it is turned lies from the
// placement's own place.
func (p Placed) offset() finish.Micron {
	h := heldAt(p.Cut)
	q := p.turned(geom.Pt{X: float64(h.X), Y: float64(h.Y)})
	return finish.Micron{X: int64(math.Round(q.X)), Y: int64(math.Round(q.Y))}
}

// atHeld is where it lies on the cloth.
func (p Placed) atHeld() finish.Micron {
	o := p.offset()
	return finish.Micron{X: p.AtX + o.X, Y: p.AtY + o.Y}
}

// putHeld moves the placement so that it lies there.
func (p *Placed) putHeld(at finish.Micron) {
	o := p.offset()
	p.AtX, p.AtY = at.X-o.X, at.Y-o.Y
}

// border is what lies between the side that distances across are measured from
// and Y = 0 of a section, micrometres.
func border(c cloth.Cloth, s Section) int64 {
	if s.FromFold() {
		return 0
	}
	return micron(c.Selvedge.MM() * (1 - c.ShrinkWeft))
}

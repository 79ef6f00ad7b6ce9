package lay

import (
	"math"

	"gusset/internal/finish"
	"gusset/internal/geom"
)

// Put is where a point of the piece lands on the cloth, in mm. It is exact for
// quarter turns.
func (p Placed) Put(q geom.Pt) geom.Pt {
	q = p.turned(q)
	return geom.Pt{X: q.X + float64(p.AtX)/1000, Y: q.Y + float64(p.AtY)/1000}
}

func (p Placed) turned(q geom.Pt) geom.Pt {
	if p.Flip {
		q.X = -q.X
	}
	switch p.Degrees {
	case 0, 360:
		return q
	case -90, 270:
		return geom.Pt{X: q.Y, Y: -q.X}
	case 90, -270:
		return geom.Pt{X: -q.Y, Y: q.X}
	case 180, -180:
		return geom.Pt{X: -q.X, Y: -q.Y}
	}
	s, c := math.Sincos(p.Degrees * math.Pi / 180)
	return geom.Pt{X: float64(q.X*c) - float64(q.Y*s), Y: float64(q.X*s) + float64(q.Y*c)}
}

// square tells that the piece is turned by quarter turns.
func (p Placed) square() bool { return math.Mod(p.Degrees, 90) == 0 }

// Cutting is the cut line as it is cut, in whole micrometres on the cloth:
// exact for quarter turns, else each corner rounded once. Of a flipped piece it
// runs clockwise.
func (p Placed) Cutting() []finish.Micron {
	out := make([]finish.Micron, len(p.Cut.Outline))
	for i, m := range p.Cut.Outline {
		q := p.turned(geom.Pt{X: float64(m.X), Y: float64(m.Y)})
		out[i] = finish.Micron{X: int64(math.Round(q.X)) + p.AtX, Y: int64(math.Round(q.Y)) + p.AtY}
	}
	return out
}

// Outline is Cutting in mm.
func (p Placed) Outline() []geom.Pt { return millimetres(p.Cutting()) }

// box is the rectangle round Cutting.
func (p Placed) box() (lo, hi finish.Micron) {
	ring := p.Cutting()
	lo, hi = ring[0], ring[0]
	for _, q := range ring {
		lo = finish.Micron{X: min(lo.X, q.X), Y: min(lo.Y, q.Y)}
		hi = finish.Micron{X: max(hi.X, q.X), Y: max(hi.Y, q.Y)}
	}
	return lo, hi
}

package cloth

import (
	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/unit"
)

// Spot is a place on the cloth as a tape finds it, right side up: so far from
// the end that is cut from, so far from the outer edge of the near selvedge.
type Spot struct {
	FromEnd      unit.Length
	FromSelvedge unit.Length
}

// Flaw is a fault in the cloth that no piece may lie on: a slub, a stain, a
// hole, a pulled thread.
type Flaw struct {
	At    Spot        // its middle
	Size  unit.Length // across it, at its widest
	Note  string
	Place finding.Place
}

// On is where a spot lies in mm, after washing: X along the cloth from its end,
// Y across from the inner border of the near selvedge.
func (c Cloth) On(s Spot) geom.Pt {
	return geom.Pt{
		X: s.FromEnd.MM() * (1 - c.ShrinkWarp),
		Y: (s.FromSelvedge.MM() - c.Selvedge.MM()) * (1 - c.ShrinkWeft),
	}
}

// Remnant tells that the cloth is not a plain rectangle.
func (c Cloth) Remnant() bool { return len(c.Outline) > 0 }

// Shape is the outline of a remnant in the coordinates of On,
// counter-clockwise; nothing for a plain length of cloth.
func (c Cloth) Shape() []geom.Pt {
	var out []geom.Pt
	for _, s := range c.Outline {
		out = append(out, c.On(s))
	}
	if geom.Area(out) < 0 {
		for i, j := 0, len(out)-1; i < j; i, j = i+1, j-1 {
			out[i], out[j] = out[j], out[i]
		}
	}
	return out
}

// Box is the least and greatest corner of a flaw as pieces must miss it: a
// square round it, in the coordinates of On.
func (c Cloth) Box(f Flaw) (lo, hi geom.Pt) {
	at, r := c.On(f.At), f.Size.MM()/2
	return at.Sub(geom.Pt{X: r, Y: r}), at.Add(geom.Pt{X: r, Y: r})
}

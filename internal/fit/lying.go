package fit

import (
	"math"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// A waistband is drawn standing, its length along the grain, and sewn to edges
// that run across it: what is height on the drawing is girth on the body. Such a
// piece lies; a size for the lengths alone does not touch it.

// lies reports whether a piece without levels is sewn, by an edge that stands
// on its own drawing, to edges that lie on theirs.
func (d *drawn) lies(js []joint) bool {
	if _, ok := d.base.Line(piece.Level, ""); ok {
		return false
	}
	for _, j := range js {
		for a, side := range j.sides {
			for _, s := range side {
				if s.d != d || s.ref.Inside || !s.stands() {
					continue
				}
				for b, other := range j.sides {
					if a != b && !stand(other) {
						return true
					}
				}
			}
		}
	}
	return false
}

// stands reports whether a stretch runs up its drawing more than across.
func (s stretch) stands() bool { return stand([]stretch{s}) }

// stand reports whether most of a chain does.
func stand(chain []stretch) bool {
	var up, across float64
	for _, s := range chain {
		for _, seg := range s.curve() {
			v := seg.End().Sub(seg.Start())
			up, across = up+math.Abs(v.Y), across+math.Abs(v.X)
		}
	}
	return up > across
}

// curve is the stretch on the base size.
func (s stretch) curve() geom.Curve {
	if s.ref.Inside {
		return s.d.base.Lines[s.edge].Curve
	}
	return s.d.base.Edges[s.edge].Curve.Between(s.from, s.to)
}

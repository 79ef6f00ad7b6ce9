package trace

import (
	"math"

	"gusset/internal/geom"
)

// The table's frame, in which a preview is drawn and places are given: x and y
// as the cards' arrows point, the lower left corner of all cards at (0, 0).

// fromCards returns the map from the frame of the solver, whose origin is one of
// the cards, to the table's frame.
func (t Table) fromCards() geom.Affine {
	var mean geom.Pt // of the arrows
	for _, c := range t.Cards {
		mean = mean.Add(geom.Pt{Y: 1}.Rot(c.Angle))
	}
	m := geom.Turn(math.Pi/2-mean.Angle(), geom.Pt{})
	var corners []geom.Pt
	for _, c := range t.Cards {
		for k := range 4 {
			corners = append(corners, m.Apply(c.At.Add(geom.Pt{X: c.Side / 2, Y: c.Side / 2}.Rot(c.Angle+float64(k)*math.Pi/2))))
		}
	}
	lo, _ := geom.BoundsOf(corners)
	return m.Then(geom.Shift(lo.Mul(-1)))
}

// inverse is the map back; m does not stretch.
func inverse(m geom.Affine) geom.Affine {
	return geom.Affine{A: m.A, B: m.C, C: m.B, D: m.D, E: -(m.A*m.E + m.B*m.F), F: -(m.C*m.E + m.D*m.F)}
}

// size is the width and height of the table as far as it is drawn.
func (t Table) size() geom.Pt {
	m := t.fromCards()
	var pts []geom.Pt
	for _, c := range t.Cards {
		for k := range 4 {
			pts = append(pts, m.Apply(c.At.Add(geom.Pt{X: c.Side / 2, Y: c.Side / 2}.Rot(c.Angle+float64(k)*math.Pi/2))))
		}
	}
	_, hi := geom.BoundsOf(pts)
	return hi
}

// upright returns the map from the frame of the solver to that of a piece file:
// the grain line upright, the way up nearer to the cards' arrows, and the
// outline's box margin mm from the axes.
func (t Traced) upright(grain geom.Pt, margin float64) geom.Affine {
	up := t.Table.fromCards()
	d := up.Apply(grain).Sub(up.Apply(geom.Pt{}))
	if d.Y < 0 {
		d = d.Mul(-1)
	}
	m := up.Then(geom.Turn(math.Pi/2-d.Angle(), geom.Pt{}))
	loop := t.Loop()
	for i, p := range loop {
		loop[i] = m.Apply(p)
	}
	lo, _ := geom.BoundsOf(loop)
	return m.Then(geom.Shift(geom.Pt{X: margin, Y: margin}.Sub(lo)))
}

package reach

import (
	"slices"

	"gusset/internal/construct"
	"gusset/internal/geom"
	"gusset/internal/machine"
	"gusset/internal/method"
)

// Bulk is the thickest place of a line of stitching: where it runs over the end of
// a seam, the allowances of that lie in it too.
type Bulk struct {
	Op        string
	Over      string  // the seam that it runs over
	Plies     int     // under the foot there
	Thickness float64 // mm, not pressed together
	Lift      float64 // mm that the foot of the machine that lifts highest lifts
	Guessed   bool    // no machine file says how high
}

// lifts are how high the feet of machines lift that were not measured, in mm:
// guesses from memory for domestic machines.
var lifts = map[machine.Kind]float64{machine.Lockstitch: 6, machine.Overlocker: 5}

// Bulky lists the lines that run over more cloth than passes under the foot, in
// the order of the operations.
func (s Survey) Bulky() []Bulk {
	var out []Bulk
	for _, l := range s.lines {
		if b, over := s.bulk(l); over && b.Thickness > b.Lift {
			out = append(out, b)
		}
	}
	return out
}

// bulk finds the thickest crossing of a line. On each side the plies that the line
// goes through lie as often as the seam that ends there has plies itself: a hem of
// three plies over a felled seam of four goes through twelve.
func (s Survey) bulk(l line) (Bulk, bool) {
	b := Bulk{Op: l.op.ID}
	if len(l.points) == 0 || l.op.Plies == 0 || l.op.On == "none" {
		return b, false
	}
	sides := along(l.op)
	each := max(l.op.Plies/max(len(sides), 1), 1)
	plies := l.op.Plies
	for _, side := range sides {
		most := 1
		for k := range side {
			before := side[(k+len(side)-1)%len(side)]
			if under := s.between(before, side[k]); under >= 0 && s.across(under) > most {
				most, b.Over = s.across(under), s.surface.seams[under].ID
			}
		}
		plies += each * (most - 1)
	}
	b.Plies, b.Thickness = plies, float64(plies)*l.ply()
	b.Lift, b.Guessed = lift(l)
	return b, b.Over != ""
}

// lift is how high the foot lifts, of several machines the highest.
func lift(l line) (float64, bool) {
	high := 0.0
	for _, m := range l.machines {
		high = max(high, m.Lift)
	}
	if high > 0 {
		return high, false
	}
	return lifts[l.op.Machine], true
}

// between is the seam that ends where one stretch goes on in the next, -1 for
// none.
func (s Survey) between(a, b construct.Stretch) int {
	ends := func(side []construct.Stretch, x construct.Stretch, at geom.Pt) bool {
		return slices.ContainsFunc(side, func(y construct.Stretch) bool {
			near := y.Curve.Start().Dist(at) < matching || y.Curve.End().Dist(at) < matching
			return !y.Inside && y.Piece == x.Piece && y.Copy == x.Copy && near
		})
	}
	out, in := a.Curve.End(), b.Curve.Start()
	return slices.IndexFunc(s.surface.seams, func(m construct.Seam) bool {
		return len(m.Sides) > 1 && (ends(m.Sides[0], a, out) && ends(m.Sides[1], b, in) || ends(m.Sides[0], b, in) && ends(m.Sides[1], a, out))
	})
}

// across is how many plies a finished seam has where another line runs over it: as
// many as its own last stitching goes through, where that comes after the iron;
// pressed to one side and not stitched down a ply and both allowances, pressed open
// a ply and one.
func (s Survey) across(seam int) int {
	m := s.surface.seams[seam]
	stitched := 0
	for _, l := range s.lines {
		if l.op.Seam == m.ID && l.op.Stitch != "" && l.op.Spread && l.op.Machine == machine.Lockstitch {
			stitched = max(stitched, l.op.Plies)
		}
	}
	switch {
	case stitched > 0:
		return stitched
	case m.Method.Corner == method.Mirror: // its opened ends are cut to lie on the seam that crosses
		return 2
	}
	return 3
}

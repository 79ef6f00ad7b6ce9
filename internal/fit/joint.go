package fit

import (
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// A joint is a join seen on the pieces as drawn. Left and right copies are one
// drawing, so a seam sewn for each hand is one joint, and a band that runs from
// the left front round to the right meets the same drawing twice.
type joint struct {
	join  pattern.Join
	sides [][]stretch
}

// stretch is part of a drawn edge or inside line. onward says that the seam
// walks it in the drawn direction.
type stretch struct {
	d        *drawn
	ref      piece.Ref
	edge     int // index of the edge, or of the line where ref.Inside
	onward   bool
	from, to float64 // mm along the base size's edge
}

// joints finds the drawn stretches of every join. A join that cannot be
// resolved is left out: walking reports it.
func joints(v pattern.View, pieces map[string]*drawn) []joint {
	var out []joint
	for _, j := range v.Joins {
		if k, ok := jointOf(j, pieces); ok {
			out = append(out, k)
		}
	}
	return out
}

func jointOf(j pattern.Join, pieces map[string]*drawn) (joint, bool) {
	k := joint{join: j}
	for i, refs := range j.Sides {
		var chain []stretch
		for _, r := range refs {
			d := pieces[r.Piece]
			if d == nil {
				return joint{}, false
			}
			s, ok := d.stretch(r, i > 0)
			if !ok {
				return joint{}, false
			}
			chain = append(chain, s)
		}
		if len(chain) == 0 {
			return joint{}, false
		}
		k.sides = append(k.sides, chain)
	}
	return k, len(k.sides) > 1
}

// stretch finds what a reference means on the drawing. The first side of a
// join runs with the outline of each copy and the others against; the outline
// of a right copy is the mirror image turned round. Inside lines run as drawn.
func (d *drawn) stretch(r piece.Ref, against bool) (stretch, bool) {
	s := stretch{d: d, ref: r, onward: !r.Reversed}
	if r.Inside {
		for i, l := range d.base.Lines {
			if l.Name == r.Edge {
				s.edge, s.to = i, l.Curve.Length()
				return s, s.to > 0
			}
		}
		return s, false
	}
	s.onward = ((r.Copy != piece.Right) != against) != r.Reversed
	s.edge = d.base.Index(r.Edge)
	if s.edge < 0 {
		return s, false
	}
	var ok bool
	s.from, s.to, ok = span(d.base, s.edge, d.edges[s.edge].length(), r)
	return s, ok
}

// span returns where a reference begins and ends on an edge of length l.
func span(p piece.Piece, edge int, l float64, r piece.Ref) (from, to float64, ok bool) {
	if r.From == "" {
		return 0, l, l > 0
	}
	a, okA := corner(p, edge, l, r.From)
	b, okB := corner(p, edge, l, r.To)
	return min(a, b), max(a, b), okA && okB && a != b
}

func corner(p piece.Piece, edge int, l float64, point string) (float64, bool) {
	if m, ok := p.Notch(p.Edges[edge].Name, point); ok {
		return m.At, true
	}
	switch point {
	case p.Before(edge).Name:
		return 0, true
	case p.After(edge).Name:
		return l, true
	}
	return 0, false
}

func (s stretch) length() float64 { return s.to - s.from }

// along turns a distance walked from the stretch's beginning into a distance
// along the base size's edge.
func (s stretch) along(walked float64) float64 {
	if s.onward {
		return s.from + walked
	}
	return s.to - walked
}

// walked is how far a place at a distance along the edge lies from the
// beginning of the stretch, which there reaches from one distance to another.
func (s stretch) walked(from, to, at float64) float64 {
	if s.onward {
		return at - from
	}
	return to - at
}

// size returns the size on the stretch at a distance walked.
func (s stretch) size(walked float64) float64 {
	if s.ref.Inside {
		return s.d.lineSize(s.edge, s.along(walked))
	}
	return s.d.edgeSize(s.edge, s.along(walked))
}

func chainLength(chain []stretch) float64 {
	var sum float64
	for _, s := range chain {
		sum += s.length()
	}
	return sum
}

// sizeAlong returns the size on a chain at a fraction of its length.
func sizeAlong(chain []stretch, u float64) float64 {
	walked := chainLength(chain) * u
	for i, s := range chain {
		if l := s.length(); walked <= l || i == len(chain)-1 {
			return s.size(min(walked, l))
		}
		walked -= s.length()
	}
	return 0
}

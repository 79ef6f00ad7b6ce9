package construct

import (
	"slices"

	"gusset/internal/body"
	"gusset/internal/finding"
	"gusset/internal/method"
	"gusset/internal/piece"
	"gusset/internal/seam"
)

// Opening is an edge that must pass over a part of the body when the garment is
// put on: a waist without a fly over the hips.
type Opening struct {
	Item   string
	Title  string
	Round  float64 // mm, unstretched
	Over   body.Measure
	Method string
	Place  finding.Place
}

// openings lists the edges at the upper end of an opening that is sewn shut:
// what is sewn or turned there has no opening any more.
func (b *builder) openings(methods method.Library) []Opening {
	var out []Opening
	for _, s := range b.garment.View.Shut {
		m, _ := methods.Find(s.Method)
		for _, w := range b.works {
			known := slices.ContainsFunc(out, func(x Opening) bool { return x.Item == w.item.id })
			if m.Over == "" || known || w.item.bastes() || w.item.takes != method.Join && w.item.takes != method.Finish {
				continue
			}
			for i, side := range w.sides {
				if takesEdge(side, s.Edge) {
					out = append(out, Opening{
						Item: w.item.id, Title: lower(w.item.title), Round: b.round(w, i), Over: m.Over, Method: m.Title, Place: s.Place,
					})
					break
				}
			}
		}
	}
	return out
}

// round is the length of a side of a work that closes to a ring, or of those of
// all works of its item that make one up between them.
func (b *builder) round(w *work, side int) float64 {
	if joined(b.glue, w.sides[side]) {
		return seam.ChainLength(w.sides[side])
	}
	var sum float64
	for _, x := range b.worksOf(w.item.id) {
		sum += seam.ChainLength(x.sides[side])
	}
	return sum
}

func takesEdge(side []Stretch, r piece.Ref) bool {
	return slices.ContainsFunc(side, func(s Stretch) bool { return s.Piece == r.Piece && s.Copy == r.Copy && s.Edge == r.Edge })
}

package construct

import (
	"fmt"
	"maps"
	"slices"

	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// placed is the garment with the places of its buttons marked on the pieces: as
// many as the closure's line takes, each where the order of work says. The mark is
// the middle of the button, and so of the button's side of its hole.
func (b *builder) placed() pattern.Garment {
	g := b.drawn
	g.Pieces = maps.Clone(g.Pieces)
	done := map[string]bool{}
	for _, w := range b.works {
		if w.item.takes != method.Closure || w.item.method.Repeat.Spacing == "" || len(w.sides) == 0 || done[w.item.id] {
			continue
		}
		done[w.item.id] = true
		b.placeAlong(g, w)
	}
	return g
}

// placeAlong marks the places of one closure that lies along lines inside pieces.
func (b *builder) placeAlong(g pattern.Garment, w *work) {
	count, gap := b.repeats(w)
	first, _ := w.item.value(w.item.method.Repeat.First)
	before, set := 0.0, 0
	for _, st := range w.sides[0] {
		for at := first + gap*float64(set) - before; set < count && at <= st.Length(); at += gap {
			set++
			if !st.Inside {
				continue
			}
			name, p := st.Piece, st.Curve.At(at)
			if own := st.Piece + "@" + string(st.Copy); g.Pieces[own].Name != "" {
				name = own
			} else if st.Copy == piece.Right { // drawn as its mirror image
				p.X = -p.X
			}
			on := g.Pieces[name]
			on.Marks = append(slices.Clone(on.Marks), piece.Mark{
				Kind: piece.Button, Name: fmt.Sprintf("%s-%d", w.item.id, set), P: p, Place: w.item.place,
			})
			g.Pieces[name] = on
		}
		before += st.Length()
	}
}

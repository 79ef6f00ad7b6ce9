package construct

import (
	"slices"

	"gusset/internal/cloth"
	"gusset/internal/method"
	"gusset/internal/pattern"
)

// Interfacing is the id of the work that every view has which cuts a piece from
// interfacing besides its cloth; a docket chooses another method by it.
const Interfacing = "interfacing"

// usualInterfacing is the method it is made by unless the docket says
// otherwise.
const usualInterfacing = "fuse-interfacing"

// interfaced lists the uses of pieces that are cut from interfacing as well.
func (b *builder) interfaced() []pattern.Use {
	var out []pattern.Use
	for _, u := range b.garment.View.Uses {
		if len(u.Cloths) > 1 && slices.Contains(u.Cloths, cloth.Interfacing) {
			out = append(out, u)
		}
	}
	return out
}

// gatherInterfacing makes one work of every interfaced piece as it is cut.
func (b *builder) gatherInterfacing() {
	it := b.items[Interfacing]
	if it == nil || it.takes != method.Piece || !it.sound {
		return
	}
	for _, u := range b.interfaced() {
		copies := u.CopyList()
		if u.Copies != pattern.Pair {
			copies = copies[:1]
		}
		for _, c := range copies {
			w := &work{item: it, key: copyName(u.Piece, c), sides: [][]Stretch{b.longestOn(it, u.Piece, c)}}
			if u.Copies != pattern.Pair {
				w.key = u.Piece
			}
			w.hand = handOf(w.sides[0])
			b.works = append(b.works, w)
		}
	}
}

// interfacing comes before all that is sewn to its piece (published orders of
// work: interfacing before joining).
func (b *builder) interfacing(w *work) {
	name := w.sides[0][0].Piece
	for _, x := range b.works {
		if x.item.takes != method.Join && x.item.takes != method.Finish {
			continue
		}
		if slices.ContainsFunc(x.all, func(s Stretch) bool {
			return s.Piece == name && b.cutName(name, s.Copy) == b.cutName(name, w.sides[0][0].Copy)
		}) {
			b.before(w.sinks(), b.roots(x), b.because(interfacedFirst, w, x))
		}
	}
}

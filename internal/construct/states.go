package construct

import "slices"

// Reasons for what does not follow from the shape of the garment.
const (
	mustBeMade = "%[2]s needs what %[1]s makes of its pieces"
	atTheStart = "%[1]s comes before everything else"
	sewnFlat   = "%[1]s is sewn flat, before %[2]s closes it to a ring"
)

// states lets operations that need a state of their pieces wait for all that
// make it there, and everything wait for what comes first of all.
func (b *builder) states() {
	for _, maker := range b.works {
		for _, m := range maker.item.method.Operations {
			for _, next := range b.works {
				if next.item == maker.item {
					continue
				}
				for _, n := range next.item.method.Operations {
					switch {
					case m.First && !n.First:
						b.before(maker.ops[m.ID], next.ops[n.ID], b.because(atTheStart, maker, next))
					case slices.ContainsFunc(n.Needs, func(s string) bool { return slices.Contains(m.Makes, s) }):
						b.onSamePieces(maker.ops[m.ID], next.ops[n.ID], b.because(mustBeMade, maker, next))
					}
				}
			}
		}
	}
}

// onSamePieces lets later operations wait for those earlier ones that touch
// one of their pieces.
func (b *builder) onSamePieces(earlier, later []string, why string) {
	for _, l := range later {
		for _, e := range earlier {
			pieces := b.operations[b.index[e]].Pieces
			if slices.ContainsFunc(b.operations[b.index[l]].Pieces, func(p string) bool { return slices.Contains(pieces, p) }) {
				b.before([]string{e}, []string{l}, why)
			}
		}
	}
}

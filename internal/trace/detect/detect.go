package detect

import (
	"cmp"
	"slices"

	"gusset/internal/cards"
	"gusset/internal/geom"
	"gusset/internal/trace/photo"
)

// Found is one card in a photo.
type Found struct {
	Card cards.ID
	Px   [4]geom.Pt // its corner marks, in the order of cards.Corners
	// Module is the shorter side of a module of its symbol in pixels.
	Module float64
}

// Result is what a photo shows of cards.
type Result struct {
	Cards []Found // in the order of their letters
	// Unmeasured are cards that were read, but a corner mark of which could not
	// be measured: it is covered, out of the picture or out of focus.
	Unmeasured []cards.ID
	// Twice are cards of which the photo shows two.
	Twice []cards.ID
	// Mirrored reports that symbols were seen as in a mirror.
	Mirrored bool
}

// Cards looks for all cards in a photo.
func Cards(p *photo.Photo) Result {
	centres := refined(p, candidates(p))
	r := read(p, centres, false)
	if len(r.Cards)+len(r.Unmeasured) == 0 {
		r.Mirrored = len(read(p, centres, true).Unmeasured) > 0
	}
	return r
}

// read tries every triple of finder patterns. Seen in a mirror, the triples turn
// the other way round; nothing is measured then.
func read(p *photo.Photo, centres []centre, mirror bool) Result {
	var r Result
	for _, t := range triples(centres, mirror) {
		if !t.framed(p) {
			continue
		}
		px, ok := [4]geom.Pt{}, false
		if !mirror {
			px, ok = t.measure(p)
		}
		id, isCard := t.decode(p, px, ok)
		if !isCard {
			continue
		}
		f := Found{Card: id, Px: px, Module: t.narrow()}
		switch {
		case !ok:
			if !slices.Contains(r.Unmeasured, id) {
				r.Unmeasured = append(r.Unmeasured, id)
			}
		case slices.ContainsFunc(r.Cards, func(g Found) bool { return g.Card == id && g.Px[0].Dist(f.Px[0]) > 20 }):
			r.Twice = append(r.Twice, id)
		case !slices.ContainsFunc(r.Cards, func(g Found) bool { return g.Card == id }):
			r.Cards = append(r.Cards, f)
		}
	}
	slices.SortFunc(r.Cards, func(a, b Found) int { return cmp.Compare(a.Card, b.Card) })
	r.Unmeasured = slices.DeleteFunc(r.Unmeasured, func(id cards.ID) bool {
		return slices.ContainsFunc(r.Cards, func(f Found) bool { return f.Card == id })
	})
	slices.Sort(r.Unmeasured)
	return r
}

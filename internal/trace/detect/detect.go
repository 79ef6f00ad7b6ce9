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
		return r
	}
	// Cards that are found show where others may have been missed.
	for range 2 {
		s, ok := straightened(p, r.Cards)
		if !ok || !r.add(p, s) {
			break
		}
	}
	return r.sorted()
}

// add takes in what a straightened picture shows besides, and reports whether
// there was a card among it.
func (r *Result) add(p *photo.Photo, s straight) bool {
	had := len(r.Cards)
	more := read(s.picture, refined(s.picture, candidates(s.picture)), false)
	for _, f := range more.Cards {
		if f, ok := s.measured(p, f); ok {
			r.put(f)
		} else {
			r.Unmeasured = append(r.Unmeasured, f.Card)
		}
	}
	r.Unmeasured = append(r.Unmeasured, more.Unmeasured...)
	r.Twice = append(r.Twice, more.Twice...)
	return len(r.Cards) > had
}

// put takes in a card, unless it is one that is there already.
func (r *Result) put(f Found) {
	for _, g := range r.Cards {
		if g.Card == f.Card {
			if g.Px[0].Dist(f.Px[0]) > 20 {
				r.Twice = append(r.Twice, f.Card)
			}
			return
		}
	}
	r.Cards = append(r.Cards, f)
}

// sorted is the result by letters, each card told once.
func (r Result) sorted() Result {
	slices.SortFunc(r.Cards, func(a, b Found) int { return cmp.Compare(a.Card, b.Card) })
	r.Unmeasured = slices.DeleteFunc(r.Unmeasured, func(id cards.ID) bool {
		return slices.ContainsFunc(r.Cards, func(f Found) bool { return f.Card == id })
	})
	for _, ids := range []*[]cards.ID{&r.Unmeasured, &r.Twice} {
		slices.Sort(*ids)
		*ids = slices.Compact(*ids)
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
		if ok {
			r.put(Found{Card: id, Px: px, Module: t.narrow()})
		} else {
			r.Unmeasured = append(r.Unmeasured, id)
		}
	}
	return r.sorted()
}

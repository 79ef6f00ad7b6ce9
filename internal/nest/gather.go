package nest

import (
	"cmp"
	"slices"
)

// Where the length is made by large parts, a search leaves the small ones lying
// about in the gaps: it gains nothing by bringing them together. A last step
// does: what is left then is left in larger pieces.

// gatheredUnder is the share of the largest part's area under which a part is
// gathered.
const gatheredUnder = 0.2

// Gather brings the small parts of a layout together, as far back as they go,
// where that makes it no longer. It is a last step: a search goes on better from
// what it found itself. A layout that is not one of the problem comes back as it
// is.
func Gather(p Problem, l Layout) Layout {
	if p.check() != nil {
		return l
	}
	f := newField(&p)
	f.adoptLeans(&l)
	spots := f.adopt(&l)
	for _, pl := range l.Placements {
		if pl.Part < 0 || pl.Part >= len(spots) || spots[pl.Part].strip < 0 {
			return l
		}
	}
	spots = f.gather(spots)
	f.straighten(spots)
	return f.layout(spots)
}

// gather takes the small items off and puts them down again one after another,
// largest first, each as far back as it goes without leaning. Where that leaves the layout as
// short it is kept; else they are moved back singly.
func (f *field) gather(spots []spot) []spot {
	small := f.gathered(spots)
	if len(small) == 0 {
		return spots
	}
	b := builder{f: f, spots: slices.Clone(spots), phase: f.phases(spots), upright: true}
	for _, i := range small {
		b.spots[i] = nowhere
	}
	for _, i := range small {
		b.spots[i] = b.lowest(i)
	}
	if !f.score(spots).better(f.score(b.spots)) && f.sound(&b.probe, b.spots) {
		return b.spots
	}
	for b.spots = slices.Clone(spots); len(small) > 0; small = small[1:] {
		i := small[0]
		was := b.spots[i]
		b.spots[i] = nowhere
		if s := b.lowest(i); s.strip == was.strip && b.farther(i, was, s) && f.clearAt(&b.probe, b.spots, i, s) {
			was = s
		}
		b.spots[i] = was
	}
	return b.spots
}

// farther tells whether item i reaches farther along at one spot than at another.
func (b *builder) farther(i int, at, than spot) bool {
	it := &b.f.items[i]
	return reachOf(it.poses[at.pose], at) > reachOf(it.poses[than.pose], than)
}

// gathered lists what is gathered: small items that lie, by area and like ones
// together. What is tied to a lattice stays, and what a pin holds.
func (f *field) gathered(spots []spot) []int {
	var largest float64
	for i := range f.items {
		largest = max(largest, f.items[i].area)
	}
	var out []int
	for i, s := range spots {
		it := &f.items[i]
		if s.strip >= 0 && it.area < gatheredUnder*largest && !it.tied && !it.pinned() {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(f.items[b].area, f.items[a].area) })
	return out
}

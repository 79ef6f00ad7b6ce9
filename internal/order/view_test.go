package order

import (
	"testing"

	"pgregory.net/rapid"
)

// What the views say at the start is no more than the best order costs, and a tired
// view says no more than one that is not; the search still ends with a valid order
// and an honest bound.
func TestViewsBoundFromBelow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ops := draw(t, rapid.IntRange(1, 14).Draw(t, "n"))
		g, _ := newGraph(ops)
		need, known := needs(ops)
		fresh, worn := pose(ops, nil, need, g, known, Costs{}), pose(ops, nil, need, g, known, Costs{})
		for _, v := range worn.views {
			v.most = rapid.IntRange(1, 12).Draw(t, "most")
		}
		none := newSet(len(fresh.need))
		high, low := fresh.least(none, setup{}), worn.least(none, setup{})
		want, irons := fewest(ops, Costs{}.weights())
		best := (want+fresh.first())*one + irons
		if low > high || high > best {
			t.Fatalf("tired %d, fresh %d, the best order costs %d", low, high, best)
		}
		f, least, _ := worn.search(patience, maxCost)
		if f.cost != best || least != best {
			t.Fatalf("with tired views %d, at least %d; %d would do", f.cost, least, best)
		}
		if f, least, _ = worn.search(3, maxCost); f.cost < best || least > best {
			t.Fatalf("soon given up %d, at least %d; %d would do", f.cost, least, best)
		}
	})
}

// However narrow, the quick search does everything, with seams that close over
// others as well.
func TestBeamEnds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ops := draw(t, rapid.IntRange(1, 30).Draw(t, "n"))
		g, _ := newGraph(ops)
		need, known := needs(ops)
		p := pose(ops, hinder(t, ops, 8), need, g, known, Costs{})
		f := p.beam(rapid.IntRange(1, 4).Draw(t, "width"), maxCost)
		done := newSet(len(p.need))
		cost, at := 0, setup{}
		for _, by := range f.path {
			cost += p.cost(at, by.to) + p.take(by, done)
			at = by.to
		}
		if done.count() != len(p.need) || cost != f.cost {
			t.Fatalf("%d tasks of %d at %d, told as %d", done.count(), len(p.need), cost, f.cost)
		}
	})
}

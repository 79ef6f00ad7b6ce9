package order

import (
	"slices"
	"testing"

	"gusset/internal/construct"
	"gusset/internal/machine"
	"gusset/internal/reach"
)

// on says which copies an operation works on.
func on(o construct.Operation, pieces ...string) construct.Operation {
	o.Pieces = pieces
	return o
}

func listedIDs(s Steps) []string {
	var out []string
	for _, step := range s.Steps() {
		out = append(out, step.Op.ID)
	}
	return out
}

// The collar's crease can be pressed on either of two trips to the iron, at no
// cost: it is when the collar is worked on next, not when the iron is hot first.
func TestPressedWithItsOwnWork(t *testing.T) {
	ops := []construct.Operation{
		on(op("collar.crease", "collar", machine.Iron), "collar@left"),
		on(op("dart.sew", "dart", machine.Lockstitch), "front@left"),
		on(op("dart.press", "dart", machine.Iron, "dart.sew"), "front@left"),
		on(op("pocket.set", "pocket", machine.Lockstitch, "dart.press"), "front@left", "pocket@left"),
		on(op("pocket.press", "pocket", machine.Iron, "pocket.set"), "front@left", "pocket@left"),
		on(op("collar.fell", "collar", machine.Hand, "collar.crease", "pocket.press"), "collar@left"),
	}
	s, _ := Plan(ops, nil, nil, Costs{})
	want := []string{"dart.sew", "dart.press", "pocket.set", "pocket.press", "collar.crease", "collar.fell"}
	if got := listedIDs(s); !slices.Equal(got, want) || s.Changes() != 4 {
		t.Errorf("%d changes: %v, want %v", s.Changes(), got, want)
	}
}

// Of orders alike in changes and trips to the iron the one that stays on a
// sub-assembly comes out, whatever order the operations are given in. What has been
// joined to a piece belongs to it: after the yoke is on, the back and the
// yoke are one.
func TestStaysOnOneSubAssembly(t *testing.T) {
	ops := []construct.Operation{
		on(op("yoke.sew", "yoke", machine.Lockstitch), "back@left", "yoke@left"),
		on(op("cuff.sew", "cuff", machine.Lockstitch), "cuff@left"),
		on(op("loop.sew", "loop", machine.Lockstitch, "yoke.sew"), "yoke@left", "loop@left"),
		on(op("placket.sew", "placket", machine.Lockstitch), "sleeve@left"),
		on(op("tab.sew", "tab", machine.Lockstitch, "yoke.sew"), "back@left", "tab@left"),
		on(op("cuff.set", "cuff-seam", machine.Lockstitch, "cuff.sew", "placket.sew"), "sleeve@left", "cuff@left"),
	}
	for range len(ops) {
		ops = append(ops[1:len(ops):len(ops)], ops[0])
		s, _ := Plan(ops, nil, nil, Costs{})
		g, _ := newGraph(ops)
		need, _ := needs(ops)
		var order []int
		for _, id := range listedIDs(s) {
			order = append(order, slices.IndexFunc(ops, func(o construct.Operation) bool { return o.ID == id }))
		}
		// Back and yoke with loop and tab, the sleeve, the cuff: three parts until the
		// cuff is set, so one goes over to another twice.
		if m := newGatherer(ops, need, g, nil, Costs{}).merit(order); m.leaps != 2 {
			t.Errorf("%d leaps: %v", m.leaps, listedIDs(s))
		}
	}
}

// A trip to the iron is dearer than any leap, and a change or what is hard to
// reach dearer than both: nothing is gathered at their cost.
func TestGatheredAtNoCost(t *testing.T) {
	ops := []construct.Operation{
		on(op("a.sew", "a", machine.Lockstitch), "front@left"),
		on(op("b.sew", "b", machine.Lockstitch), "back@left"),
		on(op("a.press", "a", machine.Iron, "a.sew"), "front@left"),
		on(op("b.press", "b", machine.Iron, "b.sew"), "back@left"),
	}
	s, _ := Plan(ops, nil, nil, Costs{})
	if s.Changes() != 1 || walks(s) != 1 {
		t.Errorf("%d changes: %v", s.Changes(), listedIDs(s))
	}
	// b.top lies under what a.close closes; by itself it would follow a.close as well.
	ops = []construct.Operation{
		on(op("a.sew", "a", machine.Lockstitch), "front@left"),
		on(op("a.close", "a", machine.Lockstitch, "a.sew"), "front@left"),
		on(op("b.top", "b", machine.Lockstitch), "back@left"),
	}
	c := []reach.Condition{{Op: "b.top", Closers: []string{"a.close"}, When: []reach.Access{{}, {Level: reach.Awkward}}}}
	s, _ = Plan(ops, c, nil, Costs{})
	if got := listedIDs(s); slices.Index(got, "b.top") > slices.Index(got, "a.close") || s.Cost() != 0 {
		t.Errorf("cost %d: %v", s.Cost(), got)
	}
}

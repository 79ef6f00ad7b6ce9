package order

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"gusset/internal/construct"
	"gusset/internal/reach"
)

// cheapest is the slow twin with reach: the lowest cost over every valid order,
// changes of set-up and what each step costs to reach when its turn comes, by
// trying every next operation from every set of finished ones. It uses nothing
// of the search: no free work, no bound, no tasks, costs paid where they arise.
func cheapest(ops []construct.Operation, conditions []reach.Condition, c Costs) int {
	index := map[string]int{}
	for i, o := range ops {
		index[o.ID] = i
	}
	extra := make([]func(done int) int, len(ops))
	for _, k := range conditions {
		low := math.MaxInt
		for _, a := range k.When {
			low = min(low, c.penalty(a.Level))
		}
		extra[index[k.Op]] = func(done int) int {
			at := 0
			for b, id := range k.Closers {
				at |= done >> index[id] & 1 << b
			}
			return c.penalty(k.When[at].Level) - low
		}
	}
	type state struct {
		done int
		at   [parts]string
	}
	layer := map[state]int{{}: 0}
	for range ops {
		next := map[state]int{}
		for s, cost := range layer {
			for i, o := range ops {
				if s.done>>i&1 == 1 || slices.ContainsFunc(o.After, func(id string) bool { return s.done>>index[id]&1 == 0 }) {
					continue
				}
				n, sum := state{s.done | 1<<i, s.at}, cost
				if extra[i] != nil {
					sum += extra[i](s.done)
				}
				for k, word := range asks(o) {
					if word != "" && word != n.at[k] {
						if n.at[k] != "" {
							sum += c.weights()[k]
						}
						n.at[k] = word
					}
				}
				if old, seen := next[n]; !seen || sum < old {
					next[n] = sum
				}
			}
		}
		layer = next
	}
	best := math.MaxInt
	for _, c := range layer {
		best = min(best, c)
	}
	return best
}

// hinder invents conditions: seams that close over some of the operations, and
// in some of them openings that merge, so that it gets easier again.
func hinder(t *rapid.T, ops []construct.Operation, most int) []reach.Condition {
	var list []reach.Condition
	g, _ := newGraph(ops)
	for i, o := range ops {
		if len(list) == most || rapid.IntRange(0, 2).Draw(t, "hindered") > 0 {
			continue
		}
		k := reach.Condition{Op: o.ID}
		for j, other := range ops {
			if i != j && len(k.Closers) < 3 && !g.all[i].has(j) && !g.all[j].has(i) && rapid.IntRange(0, 3).Draw(t, "closes") == 0 {
				k.Closers = append(k.Closers, other.ID)
			}
		}
		if len(k.Closers) == 0 {
			continue
		}
		levels := rapid.SliceOfN(rapid.SampledFrom([]reach.Level{reach.Easy, reach.RoundArm, reach.Awkward, reach.ByHand, reach.Impossible}), 1<<len(k.Closers), 1<<len(k.Closers)).Draw(t, "levels")
		if rapid.Bool().Draw(t, "only closes") {
			for set := range levels {
				for b := range k.Closers {
					if set>>b&1 == 1 {
						levels[set] = max(levels[set], levels[set&^(1<<b)])
					}
				}
			}
		}
		for _, l := range levels {
			k.When = append(k.When, reach.Access{Level: l})
		}
		list = append(list, k)
	}
	return list
}

// closing invents conditions for a larger garment: for each of some operations
// one to three seams that close over it, every fourth opening again at the last.
func closing(ops []construct.Operation, most int, seed uint64) []reach.Condition {
	r := rand.New(rand.NewPCG(seed, 2))
	g, _ := newGraph(ops)
	var list []reach.Condition
	for try := 0; len(list) < most && try < 20*most; try++ {
		i := r.IntN(len(ops))
		k := reach.Condition{Op: ops[i].ID}
		if slices.ContainsFunc(list, func(c reach.Condition) bool { return c.Op == k.Op }) {
			continue
		}
		for range 1 + r.IntN(3) {
			if j := r.IntN(len(ops)); i != j && !g.all[i].has(j) && !g.all[j].has(i) && !slices.Contains(k.Closers, ops[j].ID) {
				k.Closers = append(k.Closers, ops[j].ID)
			}
		}
		if len(k.Closers) == 0 {
			continue
		}
		k.When = make([]reach.Access, 1<<len(k.Closers))
		top := []reach.Level{reach.Awkward, reach.ByHand, reach.Impossible}[r.IntN(3)]
		last := len(k.When) - 1
		k.When[last].Level = top
		if merges := r.IntN(4) == 0 && len(k.Closers) > 1; merges {
			k.When[last].Level = reach.Easy
			for b := range k.Closers {
				k.When[last&^(1<<b)].Level = top
			}
		}
		list = append(list, k)
	}
	return list
}

// On hundreds of small garments with seams that close over others, merging openings
// included, the order found costs what the slow twin finds and says so.
func TestReachAsCheapAsTheTwin(t *testing.T) {
	for range 3 { // a hundred each
		rapid.Check(t, reachAsCheap(14))
	}
}

func FuzzReachAsCheap(f *testing.F) { f.Fuzz(rapid.MakeFuzz(reachAsCheap(10))) }

func reachAsCheap(most int) func(*rapid.T) {
	return func(t *rapid.T) {
		ops := draw(t, rapid.IntRange(1, most).Draw(t, "n"))
		conditions := hinder(t, ops, 5)
		c := Costs{Awkward: rapid.IntRange(0, 4).Draw(t, "awkward"), ByHand: rapid.IntRange(0, 9).Draw(t, "by hand")}
		s, found := Plan(ops, conditions, nil, c)
		if found.Stops() > 0 {
			t.Fatalf("%v", found)
		}
		want := cheapest(ops, conditions, c)
		if s.Cost() != want || s.Least() != want {
			t.Fatalf("cost %d, at least %d; %d would do", s.Cost(), s.Least(), want)
		}
		if got := paid(s, conditions, c); got != want {
			t.Fatalf("the steps cost %d as they stand, not %d", got, want)
		}
	}
}

// With no patience for undecided seams every one of them is decided one way and
// the other: the cost is still what the slow twin finds. Where the search is given up,
// the bound is no higher than that, and some order is found.
func TestDecidedSeamBySeam(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ops := draw(t, rapid.IntRange(1, 9).Draw(t, "n"))
		conditions := hinder(t, ops, 5)
		g, _ := newGraph(ops)
		need, known := needs(ops)
		want := cheapest(ops, conditions, Costs{})
		b := newBranching(ops, conditions, need, known, Costs{})
		b.trial = rapid.IntRange(0, 4).Draw(t, "trial")
		b.down(ops, 0)
		if got := b.total/one - b.first; got != want || b.least < b.total {
			t.Fatalf("cost %d, at least %d of %d; %d would do", got, b.least, b.total, want)
		}
		soon := newBranching(ops, conditions, need, known, Costs{})
		soon.trial, soon.left = b.trial, rapid.IntRange(0, 6).Draw(t, "left")
		soon.down(ops, 0)
		if soon.total < b.total || min(soon.least, soon.total) > b.total || len(soon.order) != len(g.all) {
			t.Fatalf("soon given up: cost %d, at least %d; %d would do", soon.total, soon.least, b.total)
		}
	})
}

// paid counts a list of steps as they stand.
func paid(s Steps, conditions []reach.Condition, c Costs) int {
	var at setup
	sum := 0
	done := map[string]bool{}
	var list []construct.Operation
	for _, step := range s.Steps() {
		list = append(list, step.Op)
	}
	need, _ := needs(list)
	for i, o := range list {
		next := at.with(need[i])
		sum += at.changed(next, c.weights())
		at = next
		for _, k := range conditions {
			if k.Op != o.ID {
				continue
			}
			set, low := 0, math.MaxInt
			for b, id := range k.Closers {
				if done[id] {
					set |= 1 << b
				}
			}
			for _, a := range k.When {
				low = min(low, c.penalty(a.Level))
			}
			sum += c.penalty(k.When[set].Level) - low
		}
		done[o.ID] = true
	}
	return sum
}

// Twenty operations with merging openings: still what the slow twin finds.
func TestReachTwentyOperations(t *testing.T) {
	if testing.Short() {
		t.Skip("the slow twin takes its time")
	}
	for seed := range uint64(12) {
		ops := garment(4, 5, seed)[:20]
		conditions := closing(ops, 6, seed)
		s, _ := Plan(ops, conditions, nil, Costs{})
		if want := cheapest(ops, conditions, Costs{}); s.Cost() != want || s.Least() != want {
			t.Errorf("seed %d: cost %d, at least %d; %d would do", seed, s.Cost(), s.Least(), want)
		}
	}
}

// Garments of up to twenty operations, made by the program's own methods, with
// seams that close over lines and openings that merge: what the slow twin finds.
func TestSewnAsCheapAsTheTwin(t *testing.T) {
	if testing.Short() {
		t.Skip("the slow twin takes its time")
	}
	for seed := range uint64(40) {
		ops := sewn(t, 10+int(seed%11), seed)
		conditions := closed(ops, 5, seed)
		s, _ := Plan(ops, conditions, nil, Costs{})
		if want := cheapest(ops, conditions, Costs{}); s.Cost() != want || s.Least() != want {
			t.Errorf("seed %d, %d operations: cost %d, at least %d; %d would do", seed, len(ops), s.Cost(), s.Least(), want)
		}
		if got := paid(s, conditions, Costs{}); got != s.Cost() {
			t.Errorf("seed %d: the steps cost %d as they stand, not %d", seed, got, s.Cost())
		}
	}
}

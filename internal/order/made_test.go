package order

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"gusset/internal/construct"
	"gusset/internal/machine"
	"gusset/internal/method"
	"gusset/internal/reach"
)

// The methods that a random garment is made by, from those that come with the
// program: parts on the flat panels, the seams that join them, and what comes
// when all is joined.
var (
	onPanels = []string{
		"dart", "dart-topstitched", "patch-pocket", "self-facing", "double-fold-top", "fuse-interfacing", "stay-stitching", "pleat-stitched",
		"slant-pocket", "pocket-bag", "fly-zip", "belt-loops", "tab-edge",
	}
	joining   = []string{"felled-seam", "plain-overlocked", "plain-open", "overlocked-topstitched", "lapped-topstitched", "french-seam", "sleeve-flat"}
	finishing = []string{"waistband", "facing", "double-hem", "band-inside", "button-front", "hand-hem", "bar-tack", "single-hem"}
)

// sewn invents a garment of n operations as garments are made: parts are made on
// every panel, panels are joined two and two until all hang together, and hems,
// bands and fastenings come last. Every operation is one of a method that comes with
// the program. No two are mirror images of each other, which would make it easier.
func sewn(t testing.TB, n int, seed uint64) []construct.Operation {
	library, found := method.Builtin()
	if found.Stops() > 0 {
		t.Fatal(found.Codes())
	}
	r := rand.New(rand.NewPCG(seed, 4))
	var ops []construct.Operation
	items := 0
	// add makes an item by one of the methods after others and gives its
	// operations.
	add := func(from []string, after []string) []string {
		way, ok := library.Find(from[r.IntN(len(from))])
		if !ok {
			t.Fatal("a method is missing")
		}
		items++
		m := made{item: fmt.Sprintf("item%d", items), after: []string{"before"}}
		var ids []string
		for _, o := range way.Operations {
			ops = append(ops, anchor(m, o, "", map[string][]string{"before": after}))
			ids = append(ids, ops[len(ops)-1].ID)
		}
		return ids
	}
	var parts [][]string // what has been done on each connected part
	for len(ops) < n/2 {
		part := add(onPanels, nil)
		for range r.IntN(3) {
			var after []string
			if r.IntN(2) == 0 {
				after = part
			}
			part = append(part, add(onPanels, after)...)
		}
		parts = append(parts, part)
	}
	for len(parts) > 1 && len(ops) < 5*n/6 {
		i, j := 0, 1+r.IntN(len(parts)-1)
		both := append(slices.Clone(parts[i]), parts[j]...)
		parts = append(slices.Delete(slices.Delete(parts, j, j+1), i, i+1), append(both, add(joining, both)...))
	}
	all := slices.Concat(parts...)
	for len(ops) < n {
		last := add(finishing, all)
		if r.IntN(2) == 0 {
			all = append(all, last...)
		}
	}
	return ops[:n]
}

// closed invents conditions of reach for a garment: lines of stitching that one
// to three seams close over, some of which open again at the last. The
// garment can be made: in one order, not told to the planner, nothing is out of
// reach.
func closed(ops []construct.Operation, most int, seed uint64) []reach.Condition {
	r := rand.New(rand.NewPCG(seed, 5))
	g, _ := newGraph(ops)
	at := hidden(g, r)
	var list []reach.Condition
	for try := 0; len(list) < most && try < 200*most; try++ {
		i := r.IntN(len(ops))
		k := reach.Condition{Op: ops[i].ID}
		if ops[i].Machine != machine.Lockstitch || slices.ContainsFunc(list, func(c reach.Condition) bool { return c.Op == k.Op }) {
			continue
		}
		sewn := 0
		for range 1 + r.IntN(3) {
			j := r.IntN(len(ops))
			if i == j || ops[j].Machine != machine.Lockstitch || g.all[i].has(j) || g.all[j].has(i) || slices.Contains(k.Closers, ops[j].ID) {
				continue
			}
			if at[j] < at[i] {
				sewn |= 1 << len(k.Closers)
			}
			k.Closers = append(k.Closers, ops[j].ID)
		}
		if len(k.Closers) == 0 {
			continue
		}
		k.When = make([]reach.Access, 1<<len(k.Closers))
		top := []reach.Level{reach.Awkward, reach.ByHand, reach.Impossible}[r.IntN(3)]
		last := len(k.When) - 1
		k.When[last].Level = top
		if len(k.Closers) > 1 && r.IntN(3) == 0 { // openings that merge
			k.When[last].Level = reach.Easy
			for b := range k.Closers {
				k.When[last&^(1<<b)].Level = top
			}
		}
		if k.When[sewn].Level < reach.Impossible {
			list = append(list, k)
		}
	}
	return list
}

// hidden is some valid order: the place of every operation in it.
func hidden(g graph, r *rand.Rand) []int {
	at := make([]int, len(g.all))
	done := newSet(len(g.all))
	for n := range g.all {
		var ready []int
		for i := range g.all {
			if !done.has(i) && g.all[i].within(done) {
				ready = append(ready, i)
			}
		}
		i := ready[r.IntN(len(ready))]
		at[i] = n
		done.add(i)
	}
	return at
}

package order

import (
	"slices"
	"strings"

	"gusset/internal/construct"
	"gusset/internal/finding"
)

// graph says which operations need which others first, by their index.
type graph struct {
	pred [][]int // directly, ascending
	succ [][]int
	// all holds, for each operation, every one that must come before it,
	// directly or not.
	all []set
	// rank is a valid order: indices sorted so that each comes after what it
	// needs, the given order kept where nothing speaks against it.
	rank []int
}

// newGraph reads the graph from the operations' After. It stops on operations
// of the same name, on names that do not exist and on cycles.
func newGraph(ops []construct.Operation) (graph, finding.List) {
	var out finding.List
	index := make(map[string]int, len(ops))
	for i, o := range ops {
		if _, twice := index[o.ID]; twice {
			out = append(out, operationTwice.At(o.Place, o.ID))
		}
		index[o.ID] = i
	}
	g := graph{pred: make([][]int, len(ops)), succ: make([][]int, len(ops))}
	for i, o := range ops {
		for _, id := range o.After {
			j, ok := index[id]
			if !ok {
				out = append(out, unknownAfter.At(o.Place, o.ID, id))
				continue
			}
			if !slices.Contains(g.pred[i], j) {
				g.pred[i] = append(g.pred[i], j)
				g.succ[j] = append(g.succ[j], i)
			}
		}
		slices.Sort(g.pred[i])
	}
	g.sort()
	if len(g.rank) < len(ops) {
		out = append(out, g.cycle(ops))
	}
	g.close()
	return g, out
}

// sort fills rank; operations on or behind a cycle are left out.
func (g *graph) sort() {
	wait := make([]int, len(g.pred))
	var ready []int
	for i, p := range g.pred {
		wait[i] = len(p)
		if len(p) == 0 {
			ready = append(ready, i)
		}
	}
	for len(ready) > 0 {
		least := slices.Index(ready, slices.Min(ready))
		i := ready[least]
		ready = slices.Delete(ready, least, least+1)
		g.rank = append(g.rank, i)
		for _, j := range g.succ[i] {
			if wait[j]--; wait[j] == 0 {
				ready = append(ready, j)
			}
		}
	}
}

// close fills all, in the order of rank.
func (g *graph) close() {
	g.all = make([]set, len(g.pred))
	for i := range g.all {
		g.all[i] = newSet(len(g.pred))
	}
	for _, i := range g.rank {
		for _, j := range g.pred[i] {
			g.all[i].add(j)
			g.all[i].addAll(g.all[j])
		}
	}
}

// cycle tells of one cycle among the operations that are not ranked.
func (g *graph) cycle(ops []construct.Operation) finding.Finding {
	stuck := func(i int) bool { return !slices.Contains(g.rank, i) }
	at := slices.IndexFunc(ops, func(o construct.Operation) bool {
		return stuck(slices.IndexFunc(ops, func(p construct.Operation) bool { return p.ID == o.ID }))
	})
	var path []int
	for at >= 0 && !slices.Contains(path, at) { // each stuck one has a stuck predecessor
		path = append(path, at)
		next := slices.IndexFunc(g.pred[at], stuck)
		if next < 0 {
			break
		}
		at = g.pred[at][next]
	}
	path = path[max(slices.Index(path, at), 0):]
	var ids, items []string
	for _, i := range path {
		ids = append(ids, ops[i].ID)
		if !slices.Contains(items, ops[i].Item) {
			items = append(items, ops[i].Item)
		}
	}
	f := cyclic.At(ops[path[0]].Place, strings.Join(items, ", "), strings.Join(append(ids, ids[0]), " after "))
	for _, i := range path[1:] {
		f = f.Note(ops[i].Place, "%s is here", ops[i].ID)
	}
	return f
}

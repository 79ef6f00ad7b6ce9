package order

import (
	"maps"
	"slices"

	"gusset/internal/construct"
	"gusset/internal/finding"
)

// follow gives the order of the operations that comes nearest to the printed
// list of items: item by item, each in the order of its method. What needs
// something printed later waits for it; what is not in the list is done when
// it is first needed, and otherwise at the end.
func follow(printed []string, ops []construct.Operation, g graph) []int {
	w := walker{ops: ops, g: g, done: make([]bool, len(ops)), listed: map[string]bool{}}
	for _, item := range printed {
		w.listed[item] = true
	}
	for _, item := range slices.Concat(printed, w.others()) {
		for _, i := range g.rank {
			if ops[i].Item == item {
				w.try(i)
				w.retry()
			}
		}
	}
	return w.order
}

type walker struct {
	ops     []construct.Operation
	g       graph
	done    []bool
	listed  map[string]bool
	waiting []int
	order   []int
}

// others are the items that are not printed, in the order of the operations.
func (w *walker) others() []string {
	var items []string
	for _, o := range w.ops {
		if !w.listed[o.Item] && !slices.Contains(items, o.Item) {
			items = append(items, o.Item)
		}
	}
	return items
}

// try does the operation, and before it what is not printed and needed for it,
// or lets it wait.
func (w *walker) try(i int) {
	if w.done[i] {
		return
	}
	for _, p := range w.g.pred[i] {
		if !w.listed[w.ops[p].Item] {
			w.try(p)
		}
		if !w.done[p] {
			if !slices.Contains(w.waiting, i) {
				w.waiting = append(w.waiting, i)
			}
			return
		}
	}
	w.done[i] = true
	w.order = append(w.order, i)
}

// retry does what has waited and need not any more.
func (w *walker) retry() {
	for n := -1; n != len(w.order); {
		n = len(w.order)
		waiting := w.waiting
		w.waiting = nil
		for _, i := range waiting {
			w.try(i)
		}
	}
}

// late finds printed items that are needed before one printed earlier. Items
// whose operations are woven into each other are let be, since no list of
// items could have them right.
func late(printed []string, ops []construct.Operation, g graph) finding.List {
	at := map[string]int{}
	for i, item := range printed {
		if _, twice := at[item]; !twice {
			at[item] = i
		}
	}
	reach := reachable(ops, g)
	var out finding.List
	told := map[[2]string]bool{}
	for _, i := range g.rank {
		for _, p := range g.pred[i] {
			early, need := ops[i].Item, ops[p].Item
			a, listed := at[early]
			b, listedToo := at[need]
			pair := [2]string{early, need}
			if !listed || !listedToo || b <= a || told[pair] || reach[early][need] {
				continue
			}
			told[pair] = true
			out = append(out, printedLate.At(ops[i].Place, early, need, ops[i].ID, ops[p].ID))
		}
	}
	return out
}

// reachable says for each item which others need it, directly or not, as
// whole items.
func reachable(ops []construct.Operation, g graph) map[string]map[string]bool {
	direct := map[string]map[string]bool{}
	for i, o := range ops {
		for _, s := range g.succ[i] {
			if direct[o.Item] == nil {
				direct[o.Item] = map[string]bool{}
			}
			direct[o.Item][ops[s].Item] = true
		}
	}
	all := map[string]map[string]bool{}
	for item := range direct {
		seen := map[string]bool{}
		for todo := slices.Collect(maps.Keys(direct[item])); len(todo) > 0; {
			next := todo[len(todo)-1]
			todo = todo[:len(todo)-1]
			if !seen[next] {
				seen[next] = true
				todo = slices.AppendSeq(todo, maps.Keys(direct[next]))
			}
		}
		all[item] = seen
	}
	return all
}

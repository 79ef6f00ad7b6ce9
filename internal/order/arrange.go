package order

import (
	"slices"

	"gusset/internal/construct"
)

// runs gives the tasks done in each set-up on the way to a final state.
func runs(end *state, tasks int) [][]int {
	var all [][]int
	for s := end; s.parent != nil; s = s.parent {
		var run []int
		for i := range tasks {
			if s.done.has(i) && !s.parent.done.has(i) {
				run = append(run, i)
			}
		}
		all = append(all, run)
	}
	slices.Reverse(all)
	return all
}

// arrange puts the operations of one run, which all share a set-up, in an
// order that stays on one part of the garment as long as it can: first the
// item just worked on, then one that touches a piece just handled, then the
// given order.
func arrange(run []int, last int, ops []construct.Operation, g graph) []int {
	left := slices.Clone(run)
	slices.Sort(left)
	var out []int
	for len(left) > 0 {
		best, bestLikes := -1, -1
		for k, i := range left {
			waits := slices.ContainsFunc(g.pred[i], func(p int) bool { return slices.Contains(left, p) })
			if likes := kinship(ops, last, i); !waits && likes > bestLikes {
				best, bestLikes = k, likes
			}
		}
		last = left[best]
		out = append(out, last)
		left = slices.Delete(left, best, best+1)
	}
	return out
}

// kinship is 2 for operations on the same item, 1 for a piece in common.
func kinship(ops []construct.Operation, a, b int) int {
	if a < 0 {
		return 0
	}
	if ops[a].Item == ops[b].Item {
		return 2
	}
	for _, p := range ops[a].Pieces {
		if slices.Contains(ops[b].Pieces, p) {
			return 1
		}
	}
	return 0
}

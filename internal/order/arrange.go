package order

import (
	"slices"

	"gusset/internal/construct"
)

// runs gives the tasks done together on a path. What closes over another is a
// run by itself, since it counts that it comes after.
func (p *problem) runs(path []stride) [][]int {
	var all [][]int
	done := newSet(len(p.need))
	for _, by := range path {
		all = append(all, p.settled(done, by.to)...)
		if t := by.task; t >= 0 && !done.has(t) {
			done.add(t)
			all = append(all, []int{t})
			all = append(all, p.settled(done, by.to)...)
		}
	}
	return all
}

// settled does the free work as settle does and gives its runs.
func (p *problem) settled(done set, at setup) [][]int {
	var all [][]int
	var run []int
	end := func() {
		if len(run) > 0 {
			all, run = append(all, run), nil
		}
	}
	for again := true; again; {
		again = false
		for i := range p.need {
			if !p.ready(i, done) || at.with(p.need[i]) != at || !p.free(i, done) {
				continue
			}
			done.add(i)
			again = true
			if len(p.closes[i]) > 0 {
				end()
			}
			run = append(run, i)
			if len(p.closes[i]) > 0 {
				end()
			}
		}
	}
	end()
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

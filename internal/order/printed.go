package order

import (
	"maps"
	"slices"

	"gusset/internal/construct"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// scribe writes a list of steps out as operations, one after the other, as the
// list has them. A step that names an item stands for all its operations that
// the list does not name by themselves, in the order of its method. What is not
// listed is done when it is first needed, and otherwise at the end.
//
// The list is taken at its word: what it puts before something that it needs
// stays there. Only items that are woven into each other are let wait, since no
// list of whole items could have them right: belt loops are caught in the waist
// seam and tacked after it.
type scribe struct {
	ops []construct.Operation
	g   graph
	// line is the line of the list that each operation belongs to, from 0; -1
	// for none. named says that the line names the operation, not the item.
	line    []int
	named   []bool
	needers map[string]map[string]bool
	done    []bool
	waiting []int
	order   []int
}

// write gives the operations in the order of the list, and the line of each.
// The steps that name no operation here are given apart; an item may have none,
// as an edge left raw.
func write(list []pattern.Step, ops []construct.Operation, g graph) (order, line []int, unknown []pattern.Step) {
	s := &scribe{ops: ops, g: g, done: make([]bool, len(ops)), needers: neededBy(ops, g)}
	unknown = s.claim(list)
	for n := range list {
		s.all(n)
	}
	s.all(-1)
	return s.order, s.line, unknown
}

// claim gives every operation its line: the most particular that names it, of
// those the first.
func (s *scribe) claim(list []pattern.Step) (unknown []pattern.Step) {
	s.line, s.named = make([]int, len(s.ops)), make([]bool, len(s.ops))
	particular := make([]int, len(s.ops))
	for i := range s.line {
		s.line[i] = -1
	}
	for n, step := range list {
		found := false
		for i, o := range s.ops {
			p := names(step, o)
			found = found || p > 0
			if p > particular[i] {
				particular[i], s.line[i], s.named[i] = p, n, step.Operation != ""
			}
		}
		if !found && step.Operation != "" {
			unknown = append(unknown, step)
		}
	}
	return unknown
}

// names says how particularly a step names an operation, 0 when it does not.
func names(step pattern.Step, o construct.Operation) int {
	p := 1
	if step.Item != o.Item {
		return 0
	}
	if step.Operation != "" {
		if stem(o.ID) != step.Item+"."+step.Operation {
			return 0
		}
		p += 2
	}
	if step.Hand != piece.Both {
		if o.Copy != step.Hand {
			return 0
		}
		p++
	}
	return p
}

// all does the operations of one line, each on both hands before the next, as
// people do.
func (s *scribe) all(line int) {
	for _, i := range s.g.rank {
		if s.line[i] != line || s.done[i] {
			continue
		}
		for _, j := range s.g.rank {
			if s.line[j] == line && stem(s.ops[j].ID) == stem(s.ops[i].ID) {
				s.try(j, j)
				s.retry()
			}
		}
	}
}

// try does an operation on behalf of another, or of itself, and before it what
// is not listed and needed for it, or lets the other wait.
func (s *scribe) try(i, asker int) {
	if s.done[i] {
		return
	}
	for _, p := range s.g.pred[i] {
		if !s.done[p] && s.line[p] < 0 {
			s.try(p, asker)
		}
		if !s.done[p] && !s.asWritten(asker, p) {
			if !slices.Contains(s.waiting, asker) {
				s.waiting = append(s.waiting, asker)
			}
			return
		}
	}
	s.done[i] = true
	s.order = append(s.order, i)
}

// asWritten reports whether the list itself puts an operation before one that
// it needs.
func (s *scribe) asWritten(i, need int) bool {
	if s.line[i] < 0 || s.line[need] <= s.line[i] {
		return false
	}
	a, b := s.ops[i].Item, s.ops[need].Item
	return a == b || s.named[i] || !s.needers[a][b]
}

// retry does what has waited and need not any more.
func (s *scribe) retry() {
	for n := -1; n != len(s.order); {
		n = len(s.order)
		waiting := s.waiting
		s.waiting = nil
		for _, i := range waiting {
			s.try(i, i)
		}
	}
}

// neededBy says for each item which others need it, directly or not, as
// whole items.
func neededBy(ops []construct.Operation, g graph) map[string]map[string]bool {
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

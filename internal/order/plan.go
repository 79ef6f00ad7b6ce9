package order

import (
	"gusset/internal/construct"
	"gusset/internal/finding"
	"gusset/internal/machine"
	"gusset/internal/reach"
)

// Plan puts the operations in an order with as few changes of set-up as can be
// found, and of those with few walks to the iron. The conditions, which package
// reach finds, say which steps become hard to get at; leaving one too late costs
// as Costs say, so that a change is spent to avoid it where that is cheaper.
//
// Without an order of work (cycles, names that do not exist) the Steps are
// empty and the findings stop.
func Plan(ops []construct.Operation, conditions []reach.Condition, machines []machine.Machine, c Costs) (Steps, finding.List) {
	g, out := newGraph(ops)
	if out.Stops() > 0 || len(ops) == 0 {
		return Steps{}, out
	}
	out = append(out, missing(ops, machines)...)
	need, known := needs(ops)
	p, tasks, leader := pose(ops, conditions, need, g, known, c)
	best, least := p.search(patience)
	order := p.written(best.path, tasks, leader, ops, g)
	s := Steps{
		steps: steps(order, ops, need, known), least: max(least/one-p.first(), 0),
		changes: changes(order, need, Costs{}), cost: changes(order, need, c) + p.reachingOf(best.path),
	}
	return s, out
}

// pose makes the problem that is searched: its tasks, as numbers of operations,
// and which operations follow them directly.
func pose(ops []construct.Operation, conditions []reach.Condition, need []setup, g graph, known values, c Costs) (p *problem, tasks, leader []int) {
	leader = followers(ops, need, g, concerned(conditions, ops))
	for _, i := range g.rank {
		if leader[i] < 0 {
			tasks = append(tasks, i)
		}
	}
	p = newProblem(tasks, need, g, known, c)
	p.setHard(hardships(conditions, ops, tasks, c))
	return p, tasks, leader
}

// written is the order of all operations on a path.
func (p *problem) written(path []stride, tasks, leader []int, ops []construct.Operation, g graph) []int {
	var order []int
	last := -1
	for _, run := range p.runs(path) {
		var members []int
		for _, t := range run {
			members = append(members, tasks[t])
			for r, l := range leader {
				if l == tasks[t] {
					members = append(members, r)
				}
			}
		}
		members = arrange(members, last, ops, g)
		last = members[len(members)-1]
		order = append(order, members...)
	}
	return order
}

// reachingOf is what reaching costs on a path, in changes.
func (p *problem) reachingOf(path []stride) int {
	sum := 0
	done := newSet(len(p.need))
	for _, by := range path {
		sum += p.take(by, done)
	}
	return sum / one
}

// first is what setting every needed part for the first time costs, in whole
// changes; the search counts it, a reader does not.
func (p *problem) first() int {
	var used setup
	for _, n := range p.need {
		used = used.with(n)
	}
	sum := 0
	for k, v := range used {
		if v != 0 {
			sum += p.weight[k]
		}
	}
	return sum
}

// changes weighs the changes of set-up over an order.
func changes(order []int, need []setup, c Costs) int {
	var at setup
	n := 0
	for _, i := range order {
		next := at.with(need[i])
		n += at.changed(next, c.weights())
		at = next
	}
	return n
}

// steps numbers the operations and says what to change before each.
func steps(order []int, ops []construct.Operation, need []setup, known values) []Step {
	var at setup
	list := make([]Step, 0, len(order))
	for _, i := range order {
		next := at.with(need[i])
		list = append(list, Step{Number: len(list) + 1, Op: ops[i], Setup: known.words(at, next)})
		at = next
	}
	return list
}

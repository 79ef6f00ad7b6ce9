package order

import (
	"gusset/internal/construct"
	"gusset/internal/finding"
	"gusset/internal/machine"
)

// Plan puts the operations in an order with as few changes of set-up as can be
// found, and of those with few walks to the iron.
//
// Without an order of work (cycles, names that do not exist) the Steps are
// empty and the findings stop.
func Plan(ops []construct.Operation, machines []machine.Machine, c Costs) (Steps, finding.List) {
	g, out := newGraph(ops)
	if out.Stops() > 0 || len(ops) == 0 {
		return Steps{}, out
	}
	out = append(out, missing(ops, machines)...)
	need, known := needs(ops)
	order, least := best(ops, need, g, known, c)
	s := Steps{
		steps: steps(order, ops, need, known), least: least,
		changes: changes(order, need, Costs{}), cost: changes(order, need, c),
	}
	return s, out
}

// best searches for an order, and gives with it the fewest changes that any
// order can have, as far as that was proved.
func best(ops []construct.Operation, need []setup, g graph, known values, c Costs) ([]int, int) {
	leader := followers(ops, need, g)
	var tasks []int
	for _, i := range g.rank {
		if leader[i] < 0 {
			tasks = append(tasks, i)
		}
	}
	p := newProblem(tasks, need, g, known, c)
	end, bound := p.search(patience)
	var order []int
	last := -1
	for _, run := range runs(end, len(tasks)) {
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
	return order, max(bound/one-p.first(), 0)
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

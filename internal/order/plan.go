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
	b := best(ops, conditions, need, g, known, c)
	s := Steps{
		steps: steps(b.order, ops, need), least: b.least,
		changes: changes(b.order, need, Costs{}), cost: b.cost,
	}
	return s, out
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
func steps(order []int, ops []construct.Operation, need []setup) []Step {
	var at setup
	list := make([]Step, 0, len(order))
	for _, i := range order {
		next := at.with(need[i])
		set := at.set(next, ops[i])
		list = append(list, Step{Number: len(list) + 1, Op: ops[i], Setup: construct.Line(set, "; "), Set: set})
		at = next
	}
	return list
}

package order

import (
	"gusset/internal/construct"
	"gusset/internal/reach"
)

// posed is the search for a garment's order of work: its tasks, as numbers of
// operations, and which operations follow them directly.
type posed struct {
	*problem
	ops           []construct.Operation
	g             graph
	tasks, leader []int
	unavoidable   int // what reaching costs in every order
}

func pose(ops []construct.Operation, conditions []reach.Condition, need []setup, g graph, known values, c Costs) posed {
	p := posed{ops: ops, g: g}
	list, unavoidable := hardships(conditions, ops, g, c)
	p.unavoidable = unavoidable
	p.leader = followers(ops, need, g, concerned(list, len(ops)))
	for _, i := range g.rank {
		if p.leader[i] < 0 {
			p.tasks = append(p.tasks, i)
		}
	}
	p.problem = newProblem(p.tasks, need, g, known, c)
	p.setHard(list, p.tasks)
	return p
}

// answer is an order, what it costs and what any order costs at least, both
// in changes of weight one.
type answer struct {
	order       []int
	cost, least int
}

// best looks for the best order.
func best(ops []construct.Operation, conditions []reach.Condition, need []setup, g graph, known values, c Costs) answer {
	b := newBranching(ops, conditions, need, known, c)
	b.down(ops, 0)
	least := min(b.least, b.total)/one - b.first
	t := newGatherer(ops, need, g, b.charged, c)
	order := t.gather(b.order)
	cost := t.merit(order).cost // where nothing is proved, gathering may have bettered it
	return answer{order, cost, min(max(least, 0), cost)}
}

func relation(ops []construct.Operation) graph {
	g, _ := newGraph(ops)
	return g
}

// written is the order of all operations on a path.
func (p posed) written(path []stride) []int {
	var order []int
	last := -1
	for _, run := range p.runs(path) {
		var members []int
		for _, t := range run {
			members = append(members, p.tasks[t])
			for r, l := range p.leader {
				if l == p.tasks[t] {
					members = append(members, r)
				}
			}
		}
		members = arrange(members, last, p.ops, p.g)
		last = members[len(members)-1]
		order = append(order, members...)
	}
	return order
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

package order

import (
	"slices"

	"gusset/internal/construct"
	"gusset/internal/reach"
)

const (
	// trial is how many states are opened with seams still undecided before one of
	// them is decided.
	trial = 2_000
	// glances is how many states of a view are looked at in the time in which one
	// of the search is opened, about.
	glances = 10
)

// branching decides, one after the other, whether an operation comes before a
// seam that closes over it or after (see the package's text). It holds the best
// order found so far.
type branching struct {
	conditions []reach.Condition
	need       []setup
	known      values
	costs      Costs
	charged    []hard

	order []int
	total int // what it costs
	first int // how much of that is setting up for the first time
	least int // the lowest that any order might cost that was not looked at
	left  int // states that may still be opened
	trial int // of them, before a seam is decided
}

func newBranching(ops []construct.Operation, conditions []reach.Condition, need []setup, known values, c Costs) *branching {
	return &branching{
		conditions: conditions, need: need, known: known, costs: c, charged: charges(conditions, ops, c),
		total: maxCost, least: maxCost, left: patience, trial: trial,
	}
}

// down looks for a better order among those that keep to what the operations
// need, which now says what has been decided. None of them costs less than floor
// besides what it pays for reach.
func (b *branching) down(ops []construct.Operation, floor int) {
	g := relation(ops)
	p := pose(ops, b.conditions, b.need, g, b.known, b.costs)
	if floor+p.unavoidable >= b.total {
		return
	}
	bound, _ := p.above(newSet(len(p.need)), setup{}, b.total-p.unavoidable)
	floor = max(floor, bound)
	b.spent(p.problem)
	if floor+p.unavoidable >= b.total {
		return
	}
	if b.left <= 0 && b.order != nil {
		b.least = min(b.least, floor+p.unavoidable)
		return
	}
	var broken [][]construct.Operation
	for {
		list := ties(b.charged, g, 1)
		if len(list) == 0 {
			break
		}
		t := list[0]
		broken = append(broken, waiting(ops, t.first, t.then))
		ops = waiting(ops, t.then, t.first)
		g = relation(ops)
	}
	if len(broken) > 0 {
		p = pose(ops, b.conditions, b.need, g, b.known, b.costs)
	}
	b.search(p, floor)
	for _, o := range broken {
		b.down(o, floor)
	}
}

// spent takes what the views of a problem were asked from what is left.
func (b *branching) spent(p *problem) {
	for _, v := range p.views {
		b.left -= (len(v.states) - v.told) / glances
		v.told = len(v.states)
	}
}

// search looks for a better order in a problem without ties. Where a few states do
// not settle it, one of the seams that are left is decided either way.
func (b *branching) search(p posed, floor int) {
	some := b.left
	if len(p.hard) > 0 {
		some = min(some, b.trial)
	}
	f, least, opened := p.problem.search(some, b.total-p.unavoidable)
	b.left -= opened
	b.spent(p.problem)
	if f.path != nil {
		b.order, b.total, b.first = p.written(f.path), f.cost+p.unavoidable, p.first()
	}
	if least+p.unavoidable >= b.total {
		return
	}
	if len(p.hard) == 0 {
		if f = p.beam(wide, b.total-p.unavoidable); f.path != nil {
			b.order, b.total = p.written(f.path), f.cost+p.unavoidable
		}
		b.least = min(b.least, least+p.unavoidable)
		return
	}
	h := slices.MaxFunc(p.hard, func(x, y hard) int { return slices.Max(x.extra) - slices.Max(y.extra) })
	task, closer := p.tasks[h.task], p.tasks[h.closers[0]]
	floor = max(floor, least)
	b.down(waiting(p.ops, closer, task), floor)
	b.down(waiting(p.ops, task, closer), floor)
}

// waiting lets one operation wait for another.
func waiting(ops []construct.Operation, then, first int) []construct.Operation {
	ops = slices.Clone(ops)
	ops[then].After = append(slices.Clone(ops[then].After), ops[first].ID)
	return ops
}

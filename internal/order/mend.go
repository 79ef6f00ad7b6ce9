package order

import (
	"fmt"
	"slices"

	"gusset/internal/construct"
	"gusset/internal/pattern"
)

// Late is work that a written order does before something it needs: by the
// time the order comes to that, it is too late.
type Late struct {
	Line, NeedLine int // of the written order, from 1; 0 for what it does not name
	Op, Need       construct.Operation
	Why            string // in trade words
	Move           string // the least move that mends it
	More           int    // changes of set-up that the move costs; less than 0 when it saves some
}

// move is one way of mending: the operations moved, in their order, and what
// the whole order is then.
type move struct {
	moved   []int
	order   []int
	advance bool // what is needed is done earlier; else the other later
}

// mend moves operations until each comes after what it needs. Each move takes
// the fewest operations that it can, and of two alike the one with fewer
// changes of set-up. Every move undoes at least one of the pairs that are the
// wrong way round and makes none, so it ends.
func mend(order []int, ops []construct.Operation, need []setup, g graph) ([]int, []Late) {
	var all []Late
	for {
		i, p, ok := firstLate(order, g)
		if !ok {
			return order, all
		}
		before := changes(order, need, Costs{})
		m := least(moves(order, i, p, g), need)
		late := Late{
			Op: ops[i], Need: ops[p], Why: why(ops[i], ops[p]), Move: m.words(ops[i], ops[p]),
			More: changes(m.order, need, Costs{}) - before,
		}
		order = m.order
		if !told(all, late) {
			all = append(all, late)
		}
	}
}

// firstLate finds the first operation that stands before one it needs.
func firstLate(order []int, g graph) (i, need int, ok bool) {
	at := positions(order)
	for _, i := range order {
		for _, p := range g.pred[i] {
			if at[p] > at[i] {
				return i, p, true
			}
		}
	}
	return 0, 0, false
}

func positions(order []int) []int {
	at := make([]int, len(order))
	for n, i := range order {
		at[i] = n
	}
	return at
}

// moves are the two ways of putting i after p: p earlier, with what it needs
// itself, or i later, with what needs it.
func moves(order []int, i, p int, g graph) [2]move {
	at := positions(order)
	between := order[at[i] : at[p]+1]
	early, late := move{advance: true}, move{}
	for _, j := range between {
		if j == p || g.all[p].has(j) {
			early.moved = append(early.moved, j)
		}
		if j == i || g.all[j].has(i) {
			late.moved = append(late.moved, j)
		}
	}
	put := func(first, second []int) []int {
		return slices.Concat(order[:at[i]], first, second, order[at[p]+1:])
	}
	early.order = put(early.moved, without(between, early.moved))
	late.order = put(without(between, late.moved), late.moved)
	return [2]move{early, late}
}

func without(list, out []int) []int {
	return slices.DeleteFunc(slices.Clone(list), func(i int) bool { return slices.Contains(out, i) })
}

func least(m [2]move, need []setup) move {
	a, b := len(m[0].moved), len(m[1].moved)
	if a == b {
		a, b = changes(m[0].order, need, Costs{}), changes(m[1].order, need, Costs{})
	}
	if a <= b {
		return m[0]
	}
	return m[1]
}

// words says what is moved where.
func (m move) words(op, need construct.Operation) string {
	with := ""
	switch n := len(m.moved) - 1; {
	case n == 1:
		with = " with one step that goes with it"
	case n > 1:
		with = fmt.Sprintf(" with %d steps that go with it", n)
	}
	if m.advance {
		return fmt.Sprintf("move %s%s to before %s", stem(need.ID), with, stem(op.ID))
	}
	return fmt.Sprintf("move %s%s to after %s", stem(op.ID), with, stem(need.ID))
}

// why says why an operation waits for another.
func why(op, need construct.Operation) string {
	if w := op.Why[need.ID]; w != "" {
		return w
	}
	if op.Item == need.Item {
		return "it works on what that leaves"
	}
	return "it needs that done"
}

// told reports whether the same was found on the other hand.
func told(all []Late, l Late) bool {
	return slices.ContainsFunc(all, func(o Late) bool {
		return stem(o.Op.ID) == stem(l.Op.ID) && stem(o.Need.ID) == stem(l.Need.ID)
	})
}

// place is where the written order has the line, or the work itself.
func (l Late) place(list []pattern.Step) (at pattern.Step) {
	if l.Line > 0 {
		return list[l.Line-1]
	}
	return pattern.Step{Place: l.Op.Place}
}

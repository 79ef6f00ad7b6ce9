package order

import (
	"cmp"
	"slices"

	"gusset/internal/construct"
	"gusset/internal/machine"
)

// merit is what orders are compared by: changes of set-up and reach first, then
// trips to the iron, then how often the work goes on on another part of the
// garment. Less is better.
type merit struct {
	cost, trips int
	leaps       int // to another sub-assembly
	items       int // to another item
}

func (a merit) compare(b merit) int {
	return cmp.Or(cmp.Compare(a.cost, b.cost), cmp.Compare(a.trips, b.trips), cmp.Compare(a.leaps, b.leaps), cmp.Compare(a.items, b.items))
}

// gatherer moves work that may as well be done elsewhere to where its
// sub-assembly is at hand, so that the list reads as one would work: the
// collar is pressed when the collar is made, and not the first time that the
// iron is hot. A sub-assembly is what hangs together by then.
type gatherer struct {
	ops     []construct.Operation
	g       graph
	need    []setup
	weight  [parts]int
	charged []hard
	cloth   [][]int // of each operation: what it works on, by number
	many    int     // numbers of cloth
}

func newGatherer(ops []construct.Operation, need []setup, g graph, charged []hard, c Costs) *gatherer {
	t := &gatherer{ops: ops, g: g, need: need, weight: c.weights(), charged: charged}
	number := map[string]int{}
	for _, o := range ops {
		names := o.Pieces
		if len(names) == 0 {
			names = []string{"item " + o.Item}
		}
		var own []int
		for _, n := range names {
			if _, known := number[n]; !known {
				number[n] = len(number)
			}
			own = append(own, number[n])
		}
		t.cloth = append(t.cloth, own)
	}
	t.many = len(number)
	return t
}

// gather moves runs of one item, as long as that makes the order better.
func (t *gatherer) gather(order []int) []int {
	best := t.merit(order)
	for again := true; again; {
		again = false
		for from := 0; from < len(order); from++ {
			for _, n := range t.lengths(order, from) {
				if o, m, ok := t.better(order, best, from, n); ok {
					order, best, again = o, m, true
				}
			}
		}
	}
	return order
}

// lengths are those of the runs that begin at a place: one operation, and all
// that follow on the same item without a change of set-up.
func (t *gatherer) lengths(order []int, from int) []int {
	n := 1
	for from+n < len(order) {
		a, b := order[from+n-1], order[from+n]
		if t.ops[a].Item != t.ops[b].Item || t.need[a] != t.need[b] {
			break
		}
		n++
	}
	if n == 1 {
		return []int{1}
	}
	return []int{n, 1}
}

// better looks for the best place of a run, next to work on the same cloth.
func (t *gatherer) better(order []int, best merit, from, n int) ([]int, merit, bool) {
	var out []int
	run := order[from : from+n]
	rest := slices.Concat(order[:from], order[from+n:])
	low, high := t.between(rest, run, from)
	for to := low; to <= high; to++ {
		near := to > 0 && t.akin(rest[to-1], run[0]) || to < len(rest) && t.akin(run[0], rest[to])
		if to == from || !near {
			continue
		}
		o := slices.Concat(rest[:to], run, rest[to:])
		if m := t.merit(o); m.compare(best) < 0 {
			out, best = o, m
		}
	}
	return out, best, out != nil
}

// between gives the first and the last place in rest where a run may stand that
// stands at from.
func (t *gatherer) between(rest, run []int, from int) (low, high int) {
	needs := func(a, b int) bool { return t.g.all[a].has(b) }
	low, high = from, from
	for low > 0 && !slices.ContainsFunc(run, func(i int) bool { return needs(i, rest[low-1]) }) {
		low--
	}
	for high < len(rest) && !slices.ContainsFunc(run, func(i int) bool { return needs(rest[high], i) }) {
		high++
	}
	return low, high
}

// akin reports whether two operations work on the same item or a common piece.
func (t *gatherer) akin(a, b int) bool {
	return t.ops[a].Item == t.ops[b].Item || slices.ContainsFunc(t.cloth[a], func(c int) bool { return slices.Contains(t.cloth[b], c) })
}

// merit counts an order.
func (t *gatherer) merit(order []int) merit {
	var m merit
	var at setup
	done := newSet(len(t.ops))
	joined := make([]int, t.many) // a forest: what hangs together has one root
	for c := range joined {
		joined[c] = c
	}
	last := -1
	for _, i := range order {
		next := at.with(t.need[i])
		m.cost += at.changed(next, t.weight)
		if next[place] != at[place] && t.ops[i].Machine == machine.Iron {
			m.trips++
		}
		at = next
		if last >= 0 && t.ops[last].Item != t.ops[i].Item {
			m.items++
			if !t.together(joined, last, i) {
				m.leaps++
			}
		}
		for _, c := range t.cloth[i][1:] {
			joined[root(joined, c)] = root(joined, t.cloth[i][0])
		}
		last = i
	}
	m.cost += t.reached(order, done)
	return m
}

// reached is what reaching costs in an order, in changes of weight one.
func (t *gatherer) reached(order []int, done set) int {
	if len(t.charged) == 0 {
		return 0
	}
	sum := 0
	for _, i := range order {
		for _, h := range t.charged {
			if h.task == i {
				sum += h.now(done) / one
			}
		}
		done.add(i)
	}
	return sum
}

func (t *gatherer) together(joined []int, a, b int) bool {
	at := root(joined, t.cloth[a][0])
	return slices.ContainsFunc(t.cloth[b], func(c int) bool { return root(joined, c) == at })
}

func root(joined []int, c int) int {
	for joined[c] != c {
		joined[c] = joined[joined[c]]
		c = joined[c]
	}
	return c
}

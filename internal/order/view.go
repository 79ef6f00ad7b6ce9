package order

import (
	"math/bits"
	"slices"
)

// view is the problem seen in some parts of the set-up only: what asks for
// none of them needs no change and is free. What the changes in those parts cost at
// least, over all that is still to be done, is found exactly, since there are far
// fewer different sets of work done. The parts that different views look at are
// paid for separately, so that what the views say adds up.
type view struct {
	cost   func(a, b setup) int
	parts  []int
	last   []int // the task of the problem that ends each task of the view
	need   []setup
	before []set
	// chain is as the problem's, for each of the parts.
	chain [parts][][]int32
	enter [parts][]int

	// most is how many states are looked at before the view is tired: what it says
	// then is a lower bound, and no longer the lowest cost.
	most  int
	tired bool

	met    *numbers
	states []viewed
	ways   []way
	told   int // states that were counted already
	done   set // room for the state that is made
	all    set // every task
}

// viewed is what is known of a set of work done and a set-up: least is a
// lower bound on the cost of the rest, and the cost itself when exact.
type viewed struct {
	least      int
	exact      bool
	from, many int32 // its ways on; from is -1 when they were not looked for
}

// way is a change that leads to another state.
type way struct {
	cost int
	to   int32
}

// enough is how many states a view looks at: more than garments of 120 operations
// have, less than two seconds' worth.
const enough = 500_000

// newView looks at some parts of a problem.
func (p *problem) newView(ks ...int) *view {
	v := &view{cost: p.cost, parts: ks, most: enough}
	number := make([]int, len(p.need))
	for i, n := range p.need {
		number[i] = -1
		if seen := v.seen(n); seen != (setup{}) {
			number[i] = len(v.last)
			v.last, v.need = append(v.last, i), append(v.need, seen)
		}
	}
	v.link(p, number)
	v.merge()
	v.bounds(p)
	v.met, v.done, v.all = newNumbers(len(v.last)), newSet(len(v.last)), newSet(len(v.last))
	for i := range v.last {
		v.all.add(i)
	}
	return v
}

// seen is what the view sees of a set-up.
func (v *view) seen(s setup) setup {
	var out setup
	for _, k := range v.parts {
		out[k] = s[k]
	}
	return out
}

func (v *view) link(p *problem, number []int) {
	for _, i := range v.last {
		b := newSet(len(v.last))
		for j := range i {
			if n := number[j]; n >= 0 && p.before[i].has(j) {
				b.add(n)
			}
		}
		v.before = append(v.before, b)
	}
}

// merge lets a task wait for another that needs it, where that asks for all that it
// does and nothing else needs it first: it is then free at once. Then the two
// are one.
func (v *view) merge() {
	for i := len(v.last) - 1; i >= 0; i-- {
		if j := v.onlyUse(i); j >= 0 && v.need[j].with(v.need[i]) == v.need[j] {
			v.drop(i)
		}
	}
}

// onlyUse is the task that needs i and that everything else that needs i needs
// as well, -1 for none.
func (v *view) onlyUse(i int) int {
	first := -1
	for j := i + 1; j < len(v.last); j++ {
		if !v.before[j].has(i) {
			continue
		}
		if first < 0 {
			first = j
		} else if !v.before[j].has(first) {
			return -1
		}
	}
	return first
}

// drop takes a task out; what was before it is before whatever it was before.
func (v *view) drop(i int) {
	v.last, v.need, v.before = slices.Delete(v.last, i, i+1), slices.Delete(v.need, i, i+1), slices.Delete(v.before, i, i+1)
	for j, old := range v.before {
		b := newSet(len(v.last))
		for k := range v.last {
			if k < i && old.has(k) || k >= i && old.has(k+1) {
				b.add(k)
			}
		}
		v.before[j] = b
	}
}

func (v *view) bounds(p *problem) {
	for _, k := range v.parts {
		for w := range p.values[k] {
			v.enter[k] = append(v.enter[k], p.enter(k, uint8(w)))
		}
		v.chain[k] = chains(v.need, v.before, k, v.enter[k])
	}
}

// find gives the number of the state with what is done.
func (v *view) find(done set, at setup) int32 {
	clear(v.done)
	for t, i := range v.last {
		if done.has(i) {
			v.done.add(t)
		}
	}
	return v.state(v.seen(at))
}

// settled reports whether no more is to be learnt of a state: least is the lowest
// cost of all that is not done yet, or less when the view is tired.
func (v *view) settled(s int32) bool { return v.states[s].exact || v.tired }

// state gives the number of the state with what is in v.done, after its free
// work.
func (v *view) state(at setup) int32 {
	open := false
	var ready [parts]int
	var wanted [parts][4]uint64
	for word := range v.done { // tasks come after what they need, so one pass does
		for left := v.all[word] &^ v.done[word]; left != 0; left &= left - 1 {
			i := 64*word + bits.TrailingZeros64(left)
			n := v.need[i]
			free := v.before[i].within(v.done)
			if free && at.with(n) == at {
				v.done.add(i)
				continue
			}
			open = true
			for _, k := range v.parts {
				wanted[k][n[k]/64] |= 1 << (n[k] % 64)
				if free {
					ready[k] = max(ready[k], int(v.chain[k][i][at[k]]))
				}
			}
		}
	}
	s, known := v.met.number(v.done, at)
	if !known {
		n := viewed{from: -1, exact: !open}
		for _, k := range v.parts {
			n.least += max(ready[k], v.entered(k, wanted[k], at[k]))
		}
		v.states = append(v.states, n)
	}
	return s
}

// entered is the cost of every value that is still wanted, once.
func (v *view) entered(k int, wanted [4]uint64, at uint8) int {
	sum := 0
	wanted[0] &^= 1
	wanted[at/64] &^= 1 << (at % 64)
	for w, b := range wanted {
		for ; b != 0; b &= b - 1 {
			sum += v.enter[k][64*w+bits.TrailingZeros64(b)]
		}
	}
	return sum
}

// within reports whether a state's cost is no more than some limit, and raises
// what is known of it: depth first, deeper only where the bound allows it
// (Korf, "Depth-first iterative-deepening", Artificial Intelligence 27, 1985,
// with every state's bound kept).
func (v *view) within(s int32, limit int) bool {
	if n := v.states[s]; n.exact || n.least > limit {
		return n.least <= limit
	}
	if v.tired = v.tired || v.states[s].from < 0 && len(v.states) >= v.most; v.tired {
		return false
	}
	v.expand(s)
	next := -1
	for w := v.states[s].from; w < v.states[s].from+v.states[s].many; w++ {
		way := v.ways[w]
		if v.within(way.to, limit-way.cost) {
			v.states[s].least, v.states[s].exact = way.cost+v.states[way.to].least, true
			return true
		}
		if v.tired {
			return false
		}
		if c := way.cost + v.states[way.to].least; next < 0 || c < next {
			next = c
		}
	}
	v.states[s].least = max(v.states[s].least, next)
	return false
}

// expand looks for the ways on from a state.
func (v *view) expand(s int32) {
	if v.states[s].from >= 0 {
		return
	}
	at := v.met.at[s]
	var into []setup
	done := v.met.set(s)
	for word := range done {
		for left := v.all[word] &^ done[word]; left != 0; left &= left - 1 {
			i := 64*word + bits.TrailingZeros64(left)
			if to := at.with(v.need[i]); v.before[i].within(done) && !slices.Contains(into, to) {
				into = append(into, to)
			}
		}
	}
	v.states[s].from, v.states[s].many = int32(len(v.ways)), int32(len(into))
	ways := make([]way, 0, len(into))
	for _, to := range into {
		copy(v.done, v.met.set(s))
		ways = append(ways, way{v.cost(at, to), v.state(to)})
	}
	slices.SortStableFunc(ways, func(a, b way) int { return a.cost + v.states[a.to].least - b.cost - v.states[b.to].least })
	v.ways = append(v.ways, ways...)
}

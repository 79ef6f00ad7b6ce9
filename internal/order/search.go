package order

import (
	"container/heap"
	"slices"
)

const (
	// narrow is how many states the quick search keeps before the exact one, wide
	// when that one gives up.
	narrow, wide = 6, 200
	// patience is how many states the exact search opens in all before it gives up:
	// a few seconds' worth.
	patience = 300_000
)

// node is a set of finished tasks with the set-up that is left behind, reached
// at a cost. Its free work is done.
type node struct {
	set    int32 // number of the set
	at     setup
	cost   int
	least  int   // cost and a bound on what is still to come
	parent int32 // -1 at the start
	by     stride
	other  int32 // another node with the same set, -1 for none
	count  int32 // tasks done
	known  bool  // least is as high as the views say
	shut   bool  // another node of the same set is as good
}

// room holds the nodes of one search.
type room struct {
	p     *problem
	sets  *numbers
	first []int32 // of each set: a node
	nodes []node
	done  set      // room for the set that is made
	into  []stride // and for what leads to it
}

func (p *problem) room() *room {
	r := &room{p: p, sets: newNumbers(len(p.need)), done: newSet(len(p.need))}
	r.add(node{parent: -1, by: stride{task: -1}})
	return r
}

// add keeps a node whose set is in r.done, unless another with that set is as
// good: whatever can be done from here can be done from there, with the
// set-up changed first. It gives -1 then.
func (r *room) add(n node) int32 {
	s, known := r.sets.number(r.done, setup{})
	if !known {
		r.first = append(r.first, -1)
	}
	for i := r.first[s]; i >= 0; i = r.nodes[i].other {
		if o := &r.nodes[i]; !o.shut && o.cost+r.p.cost(o.at, n.at) <= n.cost {
			return -1
		}
	}
	for i := r.first[s]; i >= 0; i = r.nodes[i].other {
		if o := &r.nodes[i]; n.cost+r.p.cost(n.at, o.at) <= o.cost {
			o.shut = true
		}
	}
	n.set, n.other, n.count = s, r.first[s], int32(r.done.count())
	r.first[s] = int32(len(r.nodes))
	r.nodes = append(r.nodes, n)
	return r.first[s]
}

// next makes the node after a stride: the change of set-up, the free work, the
// task that is not free, and what is free after it; -1 where it leads to nothing
// new or costs limit.
func (r *room) next(i int32, by stride, limit int) int32 {
	s := &r.nodes[i]
	n := node{at: by.to, cost: s.cost + r.p.cost(s.at, by.to), parent: i, by: by}
	copy(r.done, r.sets.set(s.set))
	n.cost += r.p.take(by, r.done)
	n.least = max(s.least, n.cost)
	if n.least >= limit {
		return -1
	}
	return r.add(n)
}

// look raises a node's bound by what the views say, until it is above enough or
// they say no more, and reports whether that was new.
func (r *room) look(i int32, enough int) bool {
	n := &r.nodes[i]
	if n.known {
		return false
	}
	sum, known := r.p.above(r.sets.set(n.set), n.at, enough-n.cost)
	n.least, n.known = max(n.least, n.cost+sum), known
	return true
}

func (r *room) moves(i int32) []stride {
	n := &r.nodes[i]
	r.into = r.p.moves(r.into[:0], r.sets.set(n.set), n.at)
	return r.into
}

func (r *room) finished(i int32) bool { return int(r.nodes[i].count) == len(r.p.need) }

// found is a way of doing everything.
type found struct {
	path []stride
	cost int
}

// path is the way to a node.
func (r *room) path(i int32) found {
	f := found{cost: r.nodes[i].cost}
	for ; r.nodes[i].parent >= 0; i = r.nodes[i].parent {
		f.path = append(f.path, r.nodes[i].by)
	}
	slices.Reverse(f.path)
	return f
}

// search gives a way of doing everything that costs less than limit, and a lower
// bound on the cost of any; they are equal when the way is proved to be the best.
// Where there is no such way, or none was found, found costs limit and has no path.
// It opens no more states than patience, and tells how many it did.
func (p *problem) search(patience, limit int) (f found, least, opened int) {
	best := found{cost: limit}
	if limit == maxCost {
		best = p.beam(narrow, limit)
	}
	r := p.room()
	open := queue{r: r, order: []int32{0}}
	for len(open.order) > 0 {
		i := heap.Pop(&open).(int32)
		if r.nodes[i].shut {
			continue
		}
		if r.nodes[i].least >= best.cost {
			break
		}
		if r.look(i, r.nodes[i].least) {
			heap.Push(&open, i)
			continue
		}
		if r.finished(i) {
			return r.path(i), r.nodes[i].cost, opened
		}
		if opened++; opened > patience || opened > patience/5 && p.tired() {
			return best, r.nodes[i].least, opened
		}
		for _, by := range r.moves(i) {
			if n := r.next(i, by, best.cost); n >= 0 {
				heap.Push(&open, n)
			}
		}
	}
	return best, best.cost, opened
}

// tired reports whether a view has seen enough: then a proof is hardly to be had.
func (p *problem) tired() bool {
	return slices.ContainsFunc(p.views, func(v *view) bool { return v.tired })
}

// beam is a quick search that keeps as many of the most promising states of
// each number of changes of set-up as it is wide. It always ends with every task
// done, if that costs less than limit: only states of the same layer stand in for
// each other, since those of earlier ones may lead to nothing that was kept.
func (p *problem) beam(width, limit int) found {
	r := p.room()
	layer := []int32{0}
	best := int32(-1)
	old := 0
	for len(layer) > 0 {
		var wider []int32
		for ; old < len(r.nodes); old++ {
			r.nodes[old].shut = true
		}
		for _, i := range layer {
			if r.finished(i) {
				if r.nodes[i].cost < limit {
					best, limit = i, r.nodes[i].cost
				}
				continue
			}
			for _, by := range r.moves(i) {
				n := r.next(i, by, limit)
				if n < 0 {
					continue
				}
				if r.look(n, limit); r.nodes[n].least < limit {
					wider = append(wider, n)
				}
			}
		}
		wider = slices.DeleteFunc(wider, func(i int32) bool { return r.nodes[i].shut })
		slices.SortStableFunc(wider, r.compare)
		layer = wider[:min(len(wider), width)]
	}
	if best < 0 {
		return found{cost: limit}
	}
	return r.path(best)
}

// compare puts the most promising node first; of equal ones that with more
// done, then the older.
func (r *room) compare(i, j int32) int {
	a, b := &r.nodes[i], &r.nodes[j]
	switch {
	case a.least != b.least:
		return a.least - b.least
	case a.count != b.count:
		return int(b.count - a.count)
	}
	return int(i - j)
}

// queue is a heap of nodes, the most promising first.
type queue struct {
	r     *room
	order []int32
}

func (q *queue) Len() int           { return len(q.order) }
func (q *queue) Swap(i, j int)      { q.order[i], q.order[j] = q.order[j], q.order[i] }
func (q *queue) Less(i, j int) bool { return q.r.compare(q.order[i], q.order[j]) < 0 }
func (q *queue) Push(x any)         { q.order = append(q.order, x.(int32)) }
func (q *queue) Pop() any {
	last := q.order[len(q.order)-1]
	q.order = q.order[:len(q.order)-1]
	return last
}

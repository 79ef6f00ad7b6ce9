package order

import (
	"cmp"
	"container/heap"
	"encoding/binary"
	"slices"
)

const (
	// narrow is how many states the quick search keeps before the exact one, wide
	// when that one gives up.
	narrow, wide = 60, 600
	// patience is how many states the exact search opens before it gives up,
	// less than a second for a garment of usual size.
	patience = 150_000
)

// state is a set of finished tasks with the set-up that is left behind. Its
// free work is done.
type state struct {
	done   set
	at     setup
	cost   int
	least  int // cost and the bound on what is still to come
	count  int
	parent *state
	by     stride // how it came from its parent
	turn   int    // when it was made: breaks ties
}

func (p *problem) start() *state {
	s := &state{done: newSet(len(p.need))}
	s.least = p.least(s.done, s.at)
	return s
}

// next is the state after a stride: the change of set-up, the free work, the
// task that is not free, and what is free after it.
func (p *problem) next(s *state, by stride) *state {
	n := &state{done: slices.Clone(s.done), at: by.to, cost: s.cost + p.cost(s.at, by.to), parent: s, by: by}
	p.settle(n.done, by.to)
	if by.task >= 0 && !n.done.has(by.task) {
		n.cost += p.reaching(by.task, n.done)
		p.settle(n.done, by.to)
	}
	n.count = n.done.count()
	n.least = n.cost + p.least(n.done, by.to)
	return n
}

func (s *state) key() string {
	b := make([]byte, 0, 8*len(s.done)+parts)
	for _, w := range s.done {
		b = binary.LittleEndian.AppendUint64(b, w)
	}
	return string(append(b, s.at[:]...))
}

// search gives a final state and a lower bound on the cost of any; they are
// equal when the state is proved to be the best.
func (p *problem) search(patience int) (*state, int) {
	best := p.beam(narrow)
	open := queue{p.start()}
	cheapest := map[string]int{open[0].key(): 0}
	turn := 0
	for opened := 0; len(open) > 0; {
		s := heap.Pop(&open).(*state)
		if s.least >= best.cost {
			return best, best.cost
		}
		if s.cost > cheapest[s.key()] {
			continue
		}
		if opened++; opened > patience {
			if b := p.beam(wide); b.cost < best.cost {
				best = b
			}
			return best, s.least
		}
		for _, by := range p.moves(s.done, s.at) {
			n := p.next(s, by)
			key := n.key()
			if old, seen := cheapest[key]; n.least >= best.cost || seen && old <= n.cost {
				continue
			}
			if n.count == len(p.need) {
				best = n
			}
			cheapest[key] = n.cost
			turn++
			n.turn = turn
			heap.Push(&open, n)
		}
	}
	return best, best.cost
}

// beam is a quick search that keeps as many of the most promising states of
// each number of changes of set-up as it is wide. It always ends with every task
// done.
func (p *problem) beam(width int) *state {
	layer := []*state{p.start()}
	var best *state
	for len(layer) > 0 {
		var wider []*state
		seen := map[string]int{}
		for _, s := range layer {
			if s.count == len(p.need) {
				if best == nil || s.cost < best.cost {
					best = s
				}
				continue
			}
			for _, by := range p.moves(s.done, s.at) {
				n := p.next(s, by)
				if best != nil && n.least >= best.cost {
					continue
				}
				key := n.key()
				if i, ok := seen[key]; ok {
					if n.cost < wider[i].cost {
						wider[i] = n
					}
					continue
				}
				seen[key] = len(wider)
				wider = append(wider, n)
			}
		}
		slices.SortStableFunc(wider, func(a, b *state) int {
			return cmp.Or(cmp.Compare(a.least, b.least), cmp.Compare(b.count, a.count))
		})
		layer = wider[:min(len(wider), width)]
	}
	return best
}

// queue is a heap of states, the most promising first; of equal ones that with
// more done, then the older.
type queue []*state

func (q queue) Len() int      { return len(q) }
func (q queue) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q queue) Less(i, j int) bool {
	a, b := q[i], q[j]
	return cmp.Or(cmp.Compare(a.least, b.least), cmp.Compare(b.count, a.count), cmp.Compare(a.turn, b.turn)) < 0
}
func (q *queue) Push(x any) { *q = append(*q, x.(*state)) }
func (q *queue) Pop() any {
	last := (*q)[len(*q)-1]
	*q = (*q)[:len(*q)-1]
	return last
}

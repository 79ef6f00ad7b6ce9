package order

import (
	"slices"

	"gusset/internal/construct"
	"gusset/internal/reach"
)

// outOfReach is the cost, in changes, of doing what then cannot be done: so
// much that every order without it is better.
const outOfReach = 1000

// penalty is what a level of access costs, in changes of weight one.
func (c Costs) penalty(l reach.Level) int {
	or := func(n, usual int) int {
		if n == 0 {
			return usual
		}
		return n
	}
	switch l {
	case reach.Awkward:
		return or(c.Awkward, 3)
	case reach.ByHand:
		return or(c.ByHand, 8)
	case reach.Impossible:
		return outOfReach
	}
	return 0
}

// hard is a task that some others, its closers, make harder to reach. extra is
// what it costs more than at best, for every set of closers that is done.
type hard struct {
	task    int
	closers []int
	extra   []int
	// falls says that a closer may make it easier again: then it has to be paid
	// when it is done. Else what a closer adds is paid when the closer is done,
	// which comes to the same.
	falls bool
}

// hardships turns conditions into those of the tasks.
func hardships(conditions []reach.Condition, ops []construct.Operation, tasks []int, c Costs) []hard {
	index := map[string]int{}
	for t, i := range tasks {
		index[ops[i].ID] = t
	}
	var list []hard
	for _, k := range conditions {
		task, known := index[k.Op]
		h := hard{task: task}
		for _, id := range k.Closers {
			t, there := index[id]
			known = known && there
			h.closers = append(h.closers, t)
		}
		for _, a := range k.When {
			h.extra = append(h.extra, c.penalty(a.Level)*one)
		}
		if !known || len(h.extra) == 0 {
			continue
		}
		for low, i := slices.Min(h.extra), 0; i < len(h.extra); i++ {
			h.extra[i] -= low
		}
		h.falls = h.everFalls()
		list = append(list, h)
	}
	return list
}

// everFalls compares the costs, not the levels: costs are the user's to set.
func (h hard) everFalls() bool {
	for set := range h.extra {
		for k := range h.closers {
			if set>>k&1 == 0 && h.extra[set|1<<k] < h.extra[set] {
				return true
			}
		}
	}
	return false
}

// concerned marks the operations that a condition names.
func concerned(conditions []reach.Condition, ops []construct.Operation) []bool {
	named := map[string]bool{}
	for _, k := range conditions {
		named[k.Op] = true
		for _, id := range k.Closers {
			named[id] = true
		}
	}
	out := make([]bool, len(ops))
	for i, o := range ops {
		out[i] = named[o.ID]
	}
	return out
}

// setHard notes for every task which hardships it makes and which it has.
func (p *problem) setHard(list []hard) {
	p.hard = list
	p.closes, p.suffers = make([][]int, len(p.need)), make([][]int, len(p.need))
	for k, h := range list {
		p.suffers[h.task] = append(p.suffers[h.task], k)
		for _, t := range h.closers {
			p.closes[t] = append(p.closes[t], k)
		}
	}
}

// now is what the hard task would cost with what is done.
func (h hard) now(done set) int {
	at := 0
	for k, t := range h.closers {
		if done.has(t) {
			at |= 1 << k
		}
	}
	return h.extra[at]
}

// matters reports whether a closer can still change what the task costs, with
// what is done and whatever else may be.
func (h hard) matters(closer int, done set) bool {
	at, bit := 0, 0
	for k, t := range h.closers {
		if done.has(t) {
			at |= 1 << k
		}
		if t == closer {
			bit = 1 << k
		}
	}
	for set := range h.extra {
		if set&at == at && set&bit == 0 && h.extra[set] != h.extra[set|bit] {
			return true
		}
	}
	return false
}

// free reports whether a task may be done at once wherever it needs no change:
// it changes nothing for what is still to be done, and is not itself waiting for
// something to become easier.
func (p *problem) free(i int, done set) bool {
	for _, k := range p.closes[i] {
		if h := p.hard[k]; !done.has(h.task) && h.matters(i, done) {
			return false
		}
	}
	return !slices.ContainsFunc(p.suffers[i], func(k int) bool { return p.hard[k].falls })
}

// reaching is what it costs in reach to do a task that is not free, and does
// it.
func (p *problem) reaching(i int, done set) int {
	sum := 0
	for _, k := range p.suffers[i] {
		if p.hard[k].falls {
			sum += p.hard[k].now(done)
		}
	}
	for _, k := range p.closes[i] {
		if h := p.hard[k]; !h.falls && !done.has(h.task) {
			sum -= h.now(done)
		}
	}
	done.add(i)
	for _, k := range p.closes[i] {
		if h := p.hard[k]; !h.falls && !done.has(h.task) {
			sum += h.now(done)
		}
	}
	return sum
}

package order

import (
	"slices"

	"gusset/internal/construct"
	"gusset/internal/reach"
)

// outOfReach is the cost, in the dearest changes, of doing what then cannot be
// done: so much that every order without it is better.
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
		w := c.weights()
		return outOfReach * max(1, slices.Max(w[:]))
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

// hardships turns conditions into those of the operations, by number. Seams that
// have their place before or after the operation anyway are left out, and so is
// what every order pays: unavoidable is the sum of it, above what is least for
// each condition by itself.
func hardships(conditions []reach.Condition, ops []construct.Operation, g graph, c Costs) (list []hard, unavoidable int) {
	for _, h := range charges(conditions, ops, c) {
		h = h.open(g)
		low := slices.Min(h.extra)
		unavoidable += low
		for i := range h.extra {
			h.extra[i] -= low
		}
		if slices.Max(h.extra) > 0 {
			h.falls = h.everFalls()
			list = append(list, h)
		}
	}
	return list, unavoidable
}

// charges reads the conditions. Those that name what does not exist are left
// out.
func charges(conditions []reach.Condition, ops []construct.Operation, c Costs) []hard {
	index := map[string]int{}
	for i, o := range ops {
		index[o.ID] = i
	}
	var list []hard
	for _, k := range conditions {
		task, known := index[k.Op]
		h := hard{task: task}
		for _, id := range k.Closers {
			i, there := index[id]
			known = known && there
			h.closers = append(h.closers, i)
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
		list = append(list, h)
	}
	return list
}

// open leaves of the closers those that may come before the task or after it.
// A set that lacks what one of its members needs stands for the set with it.
func (h hard) open(g graph) hard {
	out := hard{task: h.task}
	for _, t := range h.closers {
		if !g.all[h.task].has(t) && !g.all[t].has(h.task) {
			out.closers = append(out.closers, t)
		}
	}
	for some := range 1 << len(out.closers) {
		done := newSet(len(g.all))
		done.addAll(g.all[h.task])
		for k, t := range out.closers {
			if some>>k&1 == 1 {
				done.add(t)
				done.addAll(g.all[t])
			}
		}
		out.extra = append(out.extra, h.now(done))
	}
	return out
}

// concerned marks the operations that a hardship names.
func concerned(list []hard, n int) []bool {
	out := make([]bool, n)
	for _, h := range list {
		out[h.task] = true
		for _, t := range h.closers {
			out[t] = true
		}
	}
	return out
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

// setHard notes for every task which hardships it makes and which it has. The
// hardships are those of the operations in tasks.
func (p *problem) setHard(list []hard, tasks []int) {
	p.closes, p.suffers = make([][]int, len(p.need)), make([][]int, len(p.need))
	for k, h := range list {
		h.task = slices.Index(tasks, h.task)
		h.closers = slices.Clone(h.closers)
		p.suffers[h.task] = append(p.suffers[h.task], k)
		for i, t := range h.closers {
			h.closers[i] = slices.Index(tasks, t)
			p.closes[h.closers[i]] = append(p.closes[h.closers[i]], k)
		}
		p.hard = append(p.hard, h)
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

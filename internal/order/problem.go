package order

import (
	"slices"

	"gusset/internal/machine"
)

// one is the cost of one change of weight one. What is left below it breaks
// ties: one for every walk to the iron.
const one = 1 << 12

// problem is what is searched: tasks numbered so that each comes after what it
// needs.
type problem struct {
	need   []setup
	before []set // all that must be done before the task
	succ   [][]int
	weight [parts]int
	iron   uint8 // value of place, 0 when there is none
	values [parts]int
	chain  [parts][][]int32
}

// newProblem takes the operations in tasks, which is in order of rank and
// closed: what is left out lies directly behind one that is in.
func newProblem(tasks []int, need []setup, g graph, known values, c Costs) *problem {
	p := &problem{
		need: make([]setup, len(tasks)), before: make([]set, len(tasks)), succ: make([][]int, len(tasks)),
		weight: c.weights(),
		iron:   uint8(max(slices.Index(known[place], string(machine.Iron)), 0)),
	}
	for k := range parts {
		p.values[k] = len(known[k])
	}
	for i, op := range tasks {
		p.need[i], p.before[i] = need[op], newSet(len(tasks))
		for j, earlier := range tasks[:i] {
			if g.all[op].has(earlier) {
				p.before[i].add(j)
				p.succ[j] = append(p.succ[j], i)
			}
		}
	}
	for k := range parts {
		p.chain[k] = p.chains(k)
	}
	return p
}

// cost is what it takes to come from s to next. Setting a part for the first
// time costs as much as changing it: every order has to, so it speaks for
// none, and so work done early is never dearer.
func (p *problem) cost(s, next setup) int {
	sum := 0
	for k := range parts {
		if s[k] != next[k] {
			sum += p.enter(k, next[k])
		}
	}
	return sum
}

// enter is the cost of setting part k to v.
func (p *problem) enter(k int, v uint8) int {
	c := p.weight[k] * one
	if k == place && v == p.iron {
		c++
	}
	return c
}

// ready reports whether a task may be done next.
func (p *problem) ready(i int, done set) bool {
	return !done.has(i) && p.before[i].within(done)
}

// settle does everything that needs no change, in one pass, since tasks come
// after what they need.
func (p *problem) settle(done set, at setup) {
	for i := range p.need {
		if p.ready(i, done) && at.with(p.need[i]) == at {
			done.add(i)
		}
	}
}

// moves gives the set-ups from which a task can be done next, each once.
func (p *problem) moves(done set, at setup, into []setup) []setup {
	for i := range p.need {
		if !p.ready(i, done) {
			continue
		}
		if next := at.with(p.need[i]); !slices.Contains(into, next) {
			into = append(into, next)
		}
	}
	return into
}

package order

import (
	"math"
	"slices"

	"gusset/internal/machine"
)

// one is the cost of one change of weight one. What is left below it breaks
// ties: one for every walk to the iron.
const one = 1 << 12

// maxCost is more than any order costs.
const maxCost = math.MaxInt / 2

// problem is what is searched: tasks numbered so that each comes after what it
// needs.
type problem struct {
	need   []setup
	before []set // all that must be done before the task
	weight [parts]int
	iron   uint8 // value of place, 0 when there is none
	values [parts]int
	views  []*view
	// What reaching costs: the hard tasks, and for every task those that it makes
	// harder and those that it is.
	hard            []hard
	closes, suffers [][]int
}

// newProblem takes the operations in tasks, which is in order of rank and
// closed: what is left out lies directly behind one that is in.
func newProblem(tasks []int, need []setup, g graph, known values, c Costs) *problem {
	p := &problem{
		need: make([]setup, len(tasks)), before: make([]set, len(tasks)),
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
			}
		}
	}
	p.views = []*view{p.newView(place), p.newView(threaded, stitch, foot), p.newView(overlock)}
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

// settle does everything free that needs no change. Tasks come after what they
// need, so one pass does, unless a task becomes free by a later one.
func (p *problem) settle(done set, at setup) {
	for again := true; again; {
		again = false
		for i := range p.need {
			if p.ready(i, done) && at.with(p.need[i]) == at && p.free(i, done) {
				done.add(i)
				again = len(p.hard) > 0
			}
		}
	}
}

// stride is what to do next: change to a set-up and do all free work there, and
// then a task that is not free; -1 for none.
type stride struct {
	to   setup
	task int
}

// moves appends what can be done next, each set-up once for free work.
func (p *problem) moves(into []stride, done set, at setup) []stride {
	for i := range p.need {
		if !p.ready(i, done) {
			continue
		}
		m := stride{at.with(p.need[i]), -1}
		if !p.free(i, done) {
			m.task = i
		}
		if !slices.Contains(into, m) {
			into = append(into, m)
		}
	}
	return into
}

// take does what a stride is for: the free work, the task that is not free, and
// what is free after it. It gives what that costs in reach.
func (p *problem) take(by stride, done set) int {
	p.settle(done, by.to)
	if by.task < 0 || done.has(by.task) {
		return 0
	}
	cost := p.reaching(by.task, done)
	p.settle(done, by.to)
	return cost
}

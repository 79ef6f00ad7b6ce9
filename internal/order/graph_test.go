package order

import (
	"fmt"
	"math/bits"
	"math/rand/v2"
	"testing"

	"gusset/internal/construct"
	"gusset/internal/machine"
)

// task is one line of a published precedence table: duration and what it
// needs, numbered from 1.
type task struct {
	time  float64
	after []int
}

// published are precedence sets whose number of valid orders and longest chain are
// known. The twelve tasks are a worked example of line balancing whose critical
// path a-d-f-i-j-k-m is printed as 4.7; the six tasks a public teaching example;
// Jackson's and Bowman's sets are from memory of the assembly line
// literature. The numbers of orders were counted by exhaustion elsewhere.
var published = map[string]struct {
	tasks  []task
	orders int
	path   float64
}{
	"twelve tasks": {[]task{
		{.5, nil}, {1.4, []int{1}}, {1.2, []int{1}}, {.7, []int{1}}, {.5, []int{2, 3}}, {1, []int{4}},
		{.4, []int{5}}, {.3, []int{7}}, {.5, []int{6}}, {.8, []int{5, 9}}, {.9, []int{8, 10}}, {.3, []int{11}},
	}, 222, 4.7},
	"six tasks": {[]task{{5, nil}, {6, nil}, {2, []int{1}}, {5, []int{2, 3}}, {4, []int{1, 2}}, {3, []int{4}}}, 11, 15},
	"Jackson": {[]task{
		{6, nil}, {2, []int{1}}, {5, []int{1}}, {7, []int{1}}, {1, []int{1}}, {2, []int{2}}, {3, []int{3, 4, 5}},
		{6, []int{6}}, {5, []int{7}}, {5, []int{8}}, {4, []int{9, 10}},
	}, 756, 25},
	"Bowman": {[]task{
		{11, nil}, {17, []int{1}}, {9, []int{2}}, {5, []int{2}}, {8, []int{3}}, {12, []int{3, 4}}, {10, []int{5}}, {3, []int{6}},
	}, 16, 55},
	// A published jeans line, operations 1 to 15 with their seconds; what needs
	// what was inferred, the answers computed by exhaustion.
	"jeans, first fifteen": {[]task{
		{7, nil}, {24, []int{1}}, {16, []int{2, 4}}, {24, nil}, {18, []int{3, 4}}, {18, []int{5}}, {24, nil},
		{18, []int{7}}, {18, []int{8}}, {6, nil}, {6, nil}, {12, []int{11}}, {20, []int{12}}, {20, []int{6, 9}}, {10, []int{13}},
	}, 3_783_780, 103},
}

func TestPublishedPrecedence(t *testing.T) {
	for name, c := range published {
		g, found := newGraph(asked(c.tasks))
		if len(found) > 0 {
			t.Errorf("%s: %v", name, found.Codes())
		}
		if got := orders(g); got != c.orders {
			t.Errorf("%s: %d orders, want %d", name, got, c.orders)
		}
		if got := longest(g, c.tasks); got < c.path-1e-9 || got > c.path+1e-9 {
			t.Errorf("%s: longest chain %g, want %g", name, got, c.path)
		}
	}
}

// asked makes operations of published tasks.
func asked(tasks []task) []construct.Operation {
	ops := make([]construct.Operation, len(tasks))
	for i, k := range tasks {
		ops[i].ID = fmt.Sprint(i + 1)
		for _, a := range k.after {
			ops[i].After = append(ops[i].After, fmt.Sprint(a))
		}
	}
	return ops
}

// The same sets through the whole planner: with the places of work dealt out in
// turn and at random, no order that keeps the precedence has fewer changes, as the
// slow twin finds, and the steps keep it.
func TestPublishedSetsPlanned(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 3))
	for name, c := range published {
		for try := range 6 {
			ops := asked(c.tasks)
			for i := range ops {
				k := i
				if try > 0 {
					k = r.IntN(len(machine.Kinds))
				}
				ops[i].Machine = machine.Kinds[k%len(machine.Kinds)]
			}
			s, found := Plan(ops, nil, nil, Costs{})
			want, irons := fewest(ops, Costs{}.weights())
			if found.Stops() > 0 || s.Cost() != want || s.Least() != want || walks(s) != irons {
				t.Errorf("%s: %d changes, at least %d, %d trips to the iron; %d and %d would do", name, s.Cost(), s.Least(), walks(s), want, irons)
			}
			at := map[string]int{}
			for _, step := range s.Steps() {
				at[step.Op.ID] = step.Number
			}
			for _, o := range ops {
				for _, a := range o.After {
					if at[a] == 0 || at[a] > at[o.ID] {
						t.Errorf("%s: %s is done before %s", name, o.ID, a)
					}
				}
			}
		}
	}
}

// orders counts valid orders over sets of finished tasks, by the graph's
// closure.
func orders(g graph) int {
	ways := map[uint64]int{0: 1}
	for range g.all {
		next := map[uint64]int{}
		for done, n := range ways {
			for i := range g.all {
				if done>>i&1 == 0 && g.all[i].within(set{done}) {
					next[done|1<<i] += n
				}
			}
		}
		ways = next
	}
	total := 0
	for done, n := range ways {
		if bits.OnesCount64(done) == len(g.all) {
			total += n
		}
	}
	return total
}

// longest is the longest chain in time, along rank.
func longest(g graph, tasks []task) float64 {
	end := make([]float64, len(tasks))
	most := 0.0
	for _, i := range g.rank {
		for _, p := range g.pred[i] {
			end[i] = max(end[i], end[p])
		}
		end[i] += tasks[i].time
		most = max(most, end[i])
	}
	return most
}

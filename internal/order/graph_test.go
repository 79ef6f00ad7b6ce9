package order

import (
	"fmt"
	"math/bits"
	"testing"

	"gusset/internal/construct"
)

// task is one line of a published precedence table: duration and what it
// needs, numbered from 1.
type task struct {
	time  float64
	after []int
}

// The number of valid orders and the longest chain of published precedence
// sets. The twelve tasks are a worked example of line balancing whose critical
// path a-d-f-i-j-k-m is printed as 4.7; the six tasks a public teaching example;
// Jackson's and Bowman's sets are from memory of the assembly line
// literature. The numbers of orders were counted by exhaustion elsewhere.
func TestPublishedPrecedence(t *testing.T) {
	for name, c := range map[string]struct {
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
	} {
		ops := make([]construct.Operation, len(c.tasks))
		for i, k := range c.tasks {
			ops[i].ID = fmt.Sprint(i + 1)
			for _, a := range k.after {
				ops[i].After = append(ops[i].After, fmt.Sprint(a))
			}
		}
		g, found := newGraph(ops)
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

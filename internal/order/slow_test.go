package order

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"gusset/internal/construct"
	"gusset/internal/machine"
	"gusset/internal/piece"
)

// fewest is the slow twin: the lowest cost of changes over every valid order,
// and among those the fewest walks to the iron, by trying every next operation
// from every set of finished ones.
func fewest(ops []construct.Operation, weight [parts]int) (cost, walks int) {
	index := map[string]int{}
	for i, o := range ops {
		index[o.ID] = i
	}
	type state struct {
		done int
		at   [parts]string
	}
	layer := map[state]int{{}: 0}
	for range ops {
		next := map[state]int{}
		for s, cost := range layer {
			for i, o := range ops {
				if s.done>>i&1 == 1 || slices.ContainsFunc(o.After, func(id string) bool { return s.done>>index[id]&1 == 0 }) {
					continue
				}
				n, c := state{s.done | 1<<i, s.at}, cost
				for k, word := range asks(o) {
					if word != "" && word != n.at[k] {
						if n.at[k] != "" {
							c += weight[k] * 1000
						}
						if word == string(machine.Iron) {
							c++
						}
						n.at[k] = word
					}
				}
				if old, seen := next[n]; !seen || c < old {
					next[n] = c
				}
			}
		}
		layer = next
	}
	best := math.MaxInt
	for _, c := range layer {
		best = min(best, c)
	}
	return best / 1000, best % 1000
}

// walks counts how often the steps go to the iron.
func walks(s Steps) int {
	n := 0
	var at machine.Kind
	for _, step := range s.Steps() {
		if m := step.Op.Machine; m != at {
			if at = m; m == machine.Iron {
				n++
			}
		}
	}
	return n
}

// draw invents n operations: parts of a garment in chains that join, some of
// them made for both hands.
func draw(t *rapid.T, n int) []construct.Operation {
	var ops []construct.Operation
	for len(ops) < n {
		i := len(ops)
		o := construct.Operation{ID: fmt.Sprintf("i%d.op", i), Item: fmt.Sprintf("i%d", i/3)}
		switch o.Machine = rapid.SampledFrom(machine.Kinds).Draw(t, "machine"); o.Machine {
		case machine.Lockstitch:
			o.Thread = rapid.SampledFrom([]string{"main", "topstitch"}).Draw(t, "thread")
			o.Foot = rapid.SampledFrom([]string{"", "standard", "zip", "buttonhole"}).Draw(t, "foot")
			o.Stitch = rapid.SampledFrom([]string{"301", "304"}).Draw(t, "stitch")
		case machine.Overlocker:
			o.Thread, o.Stitch = "main", "504"
		}
		for j, earlier := range ops {
			if rapid.IntRange(0, 4).Draw(t, "after") == 0 && j > i-8 {
				o.After = append(o.After, earlier.ID)
			}
		}
		if len(ops)+1 < n && rapid.Bool().Draw(t, "hands") {
			left, right := hand(o, piece.Left), hand(o, piece.Right)
			if len(right.After) > 0 && rapid.IntRange(0, 3).Draw(t, "uneven") == 0 {
				right.After = right.After[1:]
			}
			ops = append(ops, left, right)
		} else {
			ops = append(ops, o)
		}
	}
	return ops
}

// hand is the operation for one copy, needing the same hand of what is made
// for both.
func hand(o construct.Operation, c piece.Copy) construct.Operation {
	o.ID, o.Copy = o.ID+"@"+string(c), c
	o.After = slices.Clone(o.After)
	for i, id := range o.After {
		if id != stem(id) {
			o.After[i] = stem(id) + "@" + string(c)
		}
	}
	return o
}

// On every small graph the order found costs as little as the slow twin finds,
// and says so, and goes to the iron no oftener.
func TestFewestChanges(t *testing.T) { rapid.Check(t, asCheapAsTheTwin) }

func FuzzFewestChanges(f *testing.F) { f.Fuzz(rapid.MakeFuzz(asCheapAsTheTwin)) }

func asCheapAsTheTwin(t *rapid.T) {
	ops := draw(t, rapid.IntRange(1, 14).Draw(t, "n"))
	var c Costs
	if rapid.Bool().Draw(t, "weighed") {
		w := rapid.SliceOfN(rapid.IntRange(0, 5), parts, parts).Draw(t, "weights")
		c = Costs{Place: w[0], Thread: w[1], Stitch: w[2], Foot: w[3], Overlock: w[4]}
	}
	s, found := Plan(ops, nil, nil, c)
	if found.Stops() > 0 {
		t.Fatalf("%v", found)
	}
	want, irons := fewest(ops, c.weights())
	if s.Cost() != want || s.Least() != want || c == (Costs{}) && s.Changes() != want {
		t.Fatalf("cost %d, at least %d; %d would do", s.Cost(), s.Least(), want)
	}
	if got := walks(s); got != irons {
		t.Fatalf("%d walks to the iron; %d would do", got, irons)
	}
}

// Every operation is done once, after what it needs, and as often as the plan
// says something is changed.
func TestOrderIsValid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ops := draw(t, rapid.IntRange(1, 40).Draw(t, "n"))
		s, _ := Plan(ops, nil, nil, Costs{})
		var order []string
		for i, step := range s.Steps() {
			if step.Number != i+1 {
				t.Fatalf("step %d is numbered %d", i+1, step.Number)
			}
			order = append(order, step.Op.ID)
		}
		valid(t, order, ops)
		if s.Least() > s.Changes() {
			t.Fatalf("%d changes, but at least %d", s.Changes(), s.Least())
		}
	})
}

func valid(t *rapid.T, order []string, ops []construct.Operation) {
	if len(order) != len(ops) {
		t.Fatalf("%d steps for %d operations", len(order), len(ops))
	}
	for _, o := range ops {
		at := slices.Index(order, o.ID)
		if at < 0 {
			t.Fatalf("%s is left out", o.ID)
		}
		for _, id := range o.After {
			if slices.Index(order, id) >= at {
				t.Fatalf("%s is done before %s", o.ID, id)
			}
		}
	}
}

// The same operations give the same order.
func TestSameOrderAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ops := draw(t, 25)
		a, _ := Plan(ops, nil, nil, Costs{})
		b, _ := Plan(ops, nil, nil, Costs{})
		for i := range a.Steps() {
			if a.Steps()[i].Op.ID != b.Steps()[i].Op.ID {
				t.Fatalf("step %d differs", i+1)
			}
		}
	})
}

package order

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"gusset/internal/construct"
	"gusset/internal/machine"
	"gusset/internal/piece"
	"gusset/internal/reach"
)

// garment invents operations the way garments have them: chains of sewing,
// overlocking, pressing and topstitching, most of them for both hands, the
// chains joined into one. The same seed gives the same garment.
func garment(chains, length int, seed uint64) []construct.Operation {
	r := rand.New(rand.NewPCG(seed, 1))
	pick := func(words ...string) string { return words[r.IntN(len(words))] }
	var ops []construct.Operation
	tails := [][]string{}
	for c := range chains {
		item := fmt.Sprintf("chain%d", c)
		hands := []piece.Copy{piece.Left, piece.Right}
		if r.IntN(3) == 0 {
			hands = hands[:1]
		}
		var joined []string
		if c > 0 {
			joined = tails[r.IntN(len(tails))]
		}
		at := map[piece.Copy][]string{}
		for n := range length {
			o := construct.Operation{Item: item, Machine: machine.Kinds[r.IntN(len(machine.Kinds))]}
			switch o.Machine {
			case machine.Lockstitch:
				o.Thread, o.Foot, o.Stitch = pick("main", "main", "topstitch"), pick("standard", "standard", "standard", "zip"), pick("301", "301", "301", "304")
			case machine.Overlocker:
				o.Thread, o.Stitch = "main", "504"
			}
			for _, h := range hands {
				o.ID, o.Copy = fmt.Sprintf("%s.op%d@%s", item, n, h), h
				o.After = append([]string(nil), at[h]...)
				if n == length/2 {
					o.After = append(o.After, joined...)
				}
				at[h] = []string{o.ID}
				ops = append(ops, o)
			}
		}
		var tail []string
		for _, h := range hands {
			tail = append(tail, at[h]...)
		}
		tails = append(tails, tail)
	}
	return ops
}

// BenchmarkPlan reports how far the order may be from the best, in changes.
func BenchmarkPlan(b *testing.B) {
	for _, size := range [][2]int{{6, 5}, {10, 5}, {14, 5}, {20, 5}, {30, 5}} {
		for seed := range uint64(3) {
			ops := garment(size[0], size[1], seed)
			b.Run(fmt.Sprintf("%dops/seed%d", len(ops), seed), func(b *testing.B) {
				var s Steps
				for b.Loop() {
					s, _ = Plan(ops, nil, nil, Costs{})
				}
				b.ReportMetric(float64(s.Changes()), "changes")
				b.ReportMetric(float64(s.Changes()-s.Least()), "gap")
			})
		}
	}
}

// chained invents n operations in chains joined by a tree, each of which asks
// for one of four places, two threads and four feet, with as many conditions
// of reach as there are chains.
func chained(n, chains int, seed uint64) ([]construct.Operation, []reach.Condition) {
	r := rand.New(rand.NewPCG(seed, 3))
	places := []machine.Kind{machine.Lockstitch, machine.Overlocker, machine.Iron, machine.Table}
	var ops []construct.Operation
	for c := range chains {
		first := len(ops)
		for k := range (n + chains - 1 - c) / chains {
			o := construct.Operation{ID: fmt.Sprintf("c%d.%d", c, k), Item: fmt.Sprintf("c%d", c), Machine: places[r.IntN(4)]}
			switch o.Machine {
			case machine.Lockstitch:
				o.Stitch, o.Thread, o.Foot = "301", []string{"main", "topstitch"}[r.IntN(2)], []string{"standard", "zip", "buttonhole", "edge"}[r.IntN(4)]
			case machine.Overlocker:
				o.Stitch, o.Thread = "504", "main"
			}
			if k > 0 {
				o.After = []string{ops[len(ops)-1].ID}
			}
			ops = append(ops, o)
		}
		if c > 0 { // a chain ends in some place of an earlier one, which waits for it
			into := r.IntN(first)
			if len(ops[into].After) < 3 {
				ops[into].After = append(ops[into].After, ops[len(ops)-1].ID)
			}
		}
	}
	return ops, closing(ops, chains, seed)
}

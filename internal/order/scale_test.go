package order

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"gusset/internal/construct"
	"gusset/internal/machine"
	"gusset/internal/piece"
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
					s, _ = Plan(ops, nil, Costs{})
				}
				b.ReportMetric(float64(s.Changes()), "changes")
				b.ReportMetric(float64(s.Changes()-s.Least()), "gap")
			})
		}
	}
}

package order

import (
	"cmp"
	"slices"

	"gusset/internal/construct"
)

// tie is an order between two operations that it costs something to break.
type tie struct {
	first, then int
	pays        int
}

// bind lets operations wait for others where not doing so costs at least so much
// in reach: the topstitching of the outseam before the inseam closes the leg.
// It gives the lowest that an order pays which breaks any of these ties, apart
// from its changes of set-up; maxCost when there are none.
//
// The dearest come first. What a tie pays is counted with those before it kept: of
// those that an order breaks, the first is paid in full.
func bind(ops []construct.Operation, charged []hard, g graph, least int) ([]construct.Operation, int) {
	ops, pays := slices.Clone(ops), maxCost
	for {
		list := ties(charged, g, least)
		if len(list) == 0 {
			return ops, pays
		}
		t := list[0]
		pays = min(pays, t.pays)
		ops[t.then].After = append(slices.Clone(ops[t.then].After), ops[t.first].ID)
		g = relation(ops)
	}
}

// ties finds the orders between two operations that cost at least so much to break
// and that nothing has settled yet, the dearest first.
func ties(charged []hard, g graph, least int) []tie {
	var out []tie
	for _, h := range charged {
		h = h.open(g)
		low := slices.Min(h.extra)
		for k, t := range h.closers {
			with, without := maxCost, maxCost
			for some, e := range h.extra {
				if some>>k&1 == 1 {
					with = min(with, e-low)
				} else {
					without = min(without, e-low)
				}
			}
			if with >= least {
				out = append(out, tie{h.task, t, with})
			}
			if without >= least {
				out = append(out, tie{t, h.task, without})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b tie) int { return cmp.Compare(b.pays, a.pays) })
	return out
}

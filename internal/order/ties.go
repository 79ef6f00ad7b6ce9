package order

import (
	"cmp"
	"slices"
)

// tie is an order between two operations that it costs something to break.
type tie struct {
	first, then int
	pays        int
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

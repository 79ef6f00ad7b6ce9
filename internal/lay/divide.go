package lay

import "context"

// divide says for each cut whether it is laid on a single layer. What can be
// folded need not be: a waistband cut singly opens a long stretch of cloth and
// uses little of it, and a pair laid beside it, each hand by itself, saves the
// length it would take on the folded part. So pairs and half pieces are tried
// there in turn, and stay where first lays take less cloth. The last of them
// stays folded, or it would be no folded lay.
func (w *work) divide(ctx context.Context, p Plan) []bool {
	open := make([]bool, len(w.cuts))
	var folded []int // a pair counts by its first hand
	for i, r := range w.cuts {
		open[i] = p == Open || !w.foldable(i)
		if !open[i] && (r.twin < 0 || i < r.twin) {
			folded = append(folded, i)
		}
	}
	if len(folded) < 2 {
		return open
	}
	quiet := *w
	quiet.opts.Report, quiet.failed = nil, map[string]bool{}
	best := quiet.try(ctx, p, open, 0)
	left := len(folded)
	for _, i := range folded {
		if left == 1 || ctx.Err() != nil || len(best.Sections) < 2 {
			break
		}
		w.move(open, i)
		if l := quiet.try(ctx, p, open, 0); better(l, best) {
			best = l
			left--
			continue
		}
		w.move(open, i)
	}
	return open
}

// move takes a cut and its twin to the other part of the cloth.
func (w *work) move(open []bool, i int) {
	open[i] = !open[i]
	if t := w.cuts[i].twin; t >= 0 {
		open[t] = open[i]
	}
}

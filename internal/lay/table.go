package lay

import (
	"context"
	"math"

	"gusset/internal/nest"
)

// On a table shorter than the lay, the cloth is laid and cut in sections, each
// no longer than the table, and no piece crosses from one into the next: what
// is cut is taken off, and the cloth drawn up for the next.

// onOneTable is how long a section that begins at from may be, mm. The first has
// the squared end on the table as well.
func (w *work) onOneTable(from int64) float64 {
	if from == micron(Squaring) {
		return w.opts.Table - Squaring
	}
	return w.opts.Table
}

// overTable tells that a bed found is longer than the table, and could be
// divided: every piece of it fits the table.
func (w *work) overTable(b bed, best nest.Layout) bool {
	most := w.onOneTable(b.strips[0].from)
	if w.opts.Table <= 0 || w.hand != nil || best.Length <= most {
		return false
	}
	for _, j := range b.jobs {
		if float64(tall(j.cut))/1000 > most {
			return false
		}
	}
	return true
}

// tableRounds are the least passes given to a bed that is too long for the
// table: first lays leave much of a short section empty.
const tableRounds = 100

// inOne tries to bring a bed that is a little too long onto the table after all.
func (w *work) inOne(ctx context.Context, b bed, whole nest.Layout, rounds int) (nest.Layout, bool) {
	const little = 1.3
	most := w.onOneTable(b.strips[0].from)
	if whole.Length > little*most || b.strips[0].held {
		return whole, false
	}
	w.again(b, rounds)
	one, err := w.search(ctx, b, rounds, &whole, nil)
	return one, err == nil && len(one.Unplaced) == 0 && one.Length <= most
}

// onTable lays a bed in sections no longer than the table, and tells the lay
// how much more cloth that takes. Where there are flaws the sections begin at
// known places, a table's length apart; else each begins where the one before
// ends.
func (w *work) onTable(ctx context.Context, t *trial, b bed, whole nest.Layout, rounds int) (bed, nest.Layout) {
	layers := 1.0
	if b.across() {
		layers = 2
	}
	rounds = max(rounds, tableRounds)
	from, limit := b.strips[0].from, b.strips[0].most
	if one, ok := w.inOne(ctx, b, whole, rounds); ok {
		return b, one
	}
	held := len(w.hazards) > 0
	b.strips = nil
	for used, n := 0.0, int(math.Ceil(whole.Length/w.opts.Table))+1; n > 0; n-- {
		most := w.onOneTable(from)
		if limit > 0 {
			most = min(most, limit-used)
		}
		if most <= 0 {
			break
		}
		b.strips = append(b.strips, strip{from: from, most: most, held: held})
		used += most
		from += micron(layers * most)
	}
	best, err := w.search(ctx, b, rounds, nil, nil)
	if err != nil {
		w.fail(&t.lay, b.jobs, err)
		return bed{stretch: b.stretch}, nest.Layout{}
	}
	t.lay.Lost += layers * (w.reach(b, best) - whole.Length)
	return b, best
}

// reach is what the sections of a bed take of the table, mm.
func (w *work) reach(b bed, best nest.Layout) float64 {
	if !b.strips[0].held {
		return best.Length
	}
	total, end := 0.0, 0.0
	for k, st := range b.strips {
		if best.Lengths[k] > 0 {
			end = total + best.Lengths[k]
		}
		total += st.most
	}
	return end
}

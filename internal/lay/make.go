package lay

import (
	"cmp"
	"context"

	"math"
	"slices"

	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/finish"
	"gusset/internal/geom"
	"gusset/internal/unit"
)

// Options say how to lay.
type Options struct {
	// Fold is one of Plans; anything else tries all that may serve and keeps
	// the one that takes least cloth.
	Fold   string
	Rounds int     // passes of the search for each section; 0 keeps the first lay found
	Seed   uint64  // the same seed and rounds give the same lay
	Table  float64 // length of the cutting table in mm; 0 when it does not matter
	// OffGrain permits small hidden pieces to lie off the grain.
	OffGrain OffGrain
	// Unit is what findings are written in; centimetres when empty.
	Unit unit.Unit
	// Report, when not nil, is told the plan being tried and the length it
	// takes so far, in mm, whenever that gets less.
	Report func(p Plan, length float64)
	// Progress, when not nil, is told from time to time what share of the search
	// is done, 0 to 1, as far as that can be reckoned before it ends.
	Progress func(share float64)
	// Within, when not nil, runs each part of the search: see nest.Budget.
	Within func(work func())
}

// Make lays the cuts for one role on a cloth; cuts for other roles are passed
// over. When ctx ends, the best lay so far is returned. The length of the cloth
// does not bound the lay: when it takes more, the finding tells how much. (An
// odd remnant does.) Pieces are never scaled: cloth that is still to be washed
// is reckoned at the width and length that washing leaves.
func Make(ctx context.Context, c cloth.Cloth, role cloth.Role, cuts []finish.Cut, o Options) (Lay, finding.List) {
	w := newWork(c, role, cuts, o)
	trials := w.firstTrials(ctx)
	w.improve(ctx, trials)
	best := trials[0].lay
	for _, t := range trials {
		best.Tried = append(best.Tried, Attempt{Plan: t.plan, Length: t.lay.Length, Unplaced: len(t.lay.Unplaced), Rounds: t.rounds})
		if better(t.lay, best) {
			t.lay.Tried = best.Tried
			best = t.lay
		}
	}
	w.tell(best)
	return best, w.found
}

// firstTrials lays each plan without searching long. Where a plan can be
// folded in several ways, the one that takes least stands for it.
func (w *work) firstTrials(ctx context.Context) []trial {
	var list []trial
	schemes := w.schemes()
	for i, s := range schemes {
		t, ok := w.divide(ctx, s)
		if !ok {
			if len(list) > 0 || i+1 < len(schemes) {
				continue
			}
			// Asked for a fold that nothing can lie on: all of it is open.
			t, _ = w.divide(ctx, scheme{s.plan, s.stretches[len(s.stretches)-1:]})
		}
		k := slices.IndexFunc(list, func(o trial) bool { return o.plan == t.plan })
		switch {
		case k < 0:
			list = append(list, t)
		case better(t.lay, list[k].lay):
			list[k] = t
		}
	}
	for i, t := range list {
		list[i] = w.exactly(ctx, t)
	}
	return list
}

// quickRounds are given to every plan before the best go on.
const quickRounds = 100

// A plan that is behind goes on too as long as it might yet lead: it would have
// to gain no more than hope times what the longer search has gained any plan
// before it, which is reckoned at leastGain of the length at least.
const (
	hope      = 2
	leastGain = 0.015
)

// improve searches on: first a little for every plan, then longer for the best
// and for each that is so close behind that it might yet lead.
func (w *work) improve(ctx context.Context, trials []trial) {
	best := make([]*trial, len(trials))
	for i := range trials {
		best[i] = &trials[i]
	}
	sort := func() {
		slices.SortStableFunc(best, func(a, b *trial) int {
			return cmp.Or(cmp.Compare(len(a.lay.Unplaced), len(b.lay.Unplaced)), cmp.Compare(a.lay.Length, b.lay.Length))
		})
	}
	sort()
	quick := 0
	if len(trials) > 1 {
		quick = min(w.opts.Rounds/4, quickRounds)
	}
	longer := w.opts.Rounds - quick
	known := w.looks(best[:1], longer) // more when other plans go on as well
	w.course.begin(w.looks(best, quick) + known)
	for _, t := range best {
		w.course.turn(w.looks([]*trial{t}, quick), 0)
		w.goOn(ctx, t, quick)
		w.course.end()
	}
	sort()
	gain, shortest := leastGain, best[0].lay
	for i, t := range best {
		was := t.lay
		if longer == 0 || i > 0 && (len(was.Unplaced) > len(shortest.Unplaced) || was.Length*(1-hope*gain) > shortest.Length) {
			continue
		}
		w.course.turn(known, w.looks([]*trial{t}, longer)-known)
		known = 0
		w.goOn(ctx, t, longer)
		w.course.end()
		if len(t.lay.Unplaced) == len(was.Unplaced) {
			gain = max(gain, 1-t.lay.Length/was.Length)
		}
		if better(t.lay, shortest) {
			shortest = t.lay
		}
	}
}

// looks reckons the rounds that searches of some trials will take: those that
// are longer than the table are searched in sections besides.
func (w *work) looks(trials []*trial, rounds int) float64 {
	n := 0
	for _, t := range trials {
		n += rounds
		if w.opts.Table > 0 && w.hand == nil && t.lay.Length > w.opts.Table {
			n += max(rounds, tableRounds)
		}
	}
	return float64(n)
}

// goOn searches a trial on; it never gets worse. The first time it is laid on
// the table as it is.
func (w *work) goOn(ctx context.Context, t *trial, rounds int) {
	if rounds == 0 && (w.opts.Table <= 0 || t.lay.Length <= w.opts.Table) || ctx.Err() != nil {
		return
	}
	table := w.opts.Table > 0 && t.rounds == 0
	if next := w.try(ctx, t.scheme, t.homes, rounds, *t); table || better(next.lay, t.lay) {
		*t = next
	} else {
		t.rounds = next.rounds
	}
}

// say writes a length in the user's unit.
func (w *work) say(mm float64) string {
	if u := w.opts.Unit; u.Valid() {
		return unit.Format(mm, u)
	}
	return unit.Format(mm, unit.Centimetre)
}

// better: fewer pieces without a place, then less cloth.
func better(a, b Lay) bool {
	if len(a.Unplaced) != len(b.Unplaced) {
		return len(a.Unplaced) < len(b.Unplaced)
	}
	return a.Length < b.Length
}

// tell adds what there is to say about the lay that was kept.
func (w *work) tell(l Lay) {
	c := w.cloth
	if n := len(l.Unplaced) - len(w.out); n > 0 {
		k := stopped
		switch {
		case w.hand != nil:
			k = crowded
		case c.Remnant():
			k = noRoom
		}
		w.found = append(w.found, k.At(c.Place, n))
	}
	if over := l.Length - c.UsableLength(); over > 0 {
		w.found = append(w.found, short.At(c.LengthPlace, w.say(l.Length), c.Title, w.say(c.UsableLength()), w.say(math.Ceil(over))))
	}
	if !c.Washed {
		w.found = append(w.found, unwashed.At(c.Place, c.Title, w.say(c.UsableLength()), w.say(c.UsableWidth())))
	}
	w.tellTable(l)
	for _, s := range l.Sections {
		if s.Fold == Swung {
			w.found = append(w.found, swung.At(c.Place, w.say(s.To-Squaring)))
		}
	}
}

// tellTable says what the table asks for.
func (w *work) tellTable(l Lay) {
	longest, sections := 0.0, len(l.Sections)
	for i, s := range l.Sections {
		to := s.To - s.From
		if i == 0 {
			to = s.To
		}
		longest = max(longest, to)
	}
	switch t := w.opts.Table; {
	case t <= 0:
	case longest > t:
		w.found = append(w.found, table.At(finding.Place{}, w.say(longest), w.say(t)))
	case l.Lost > 0:
		w.found = append(w.found, sectioned.At(finding.Place{}, sections, w.say(t), w.say(l.Lost)))
	}
}

// millimetres are points in mm.
func millimetres(ms []finish.Micron) []geom.Pt {
	out := make([]geom.Pt, len(ms))
	for i, m := range ms {
		out[i] = geom.Pt{X: float64(m.X) / 1000, Y: float64(m.Y) / 1000}
	}
	return out
}

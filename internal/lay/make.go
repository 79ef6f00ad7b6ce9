package lay

import (
	"context"
	"math"

	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/finish"
	"gusset/internal/geom"
	"gusset/internal/unit"
)

// Options say how to lay.
type Options struct {
	// Fold is "open" or "lengthwise"; anything else tries both and keeps the
	// one that takes less cloth.
	Fold   string
	Rounds int     // passes of the search for each section; 0 keeps the first lay found
	Seed   uint64  // the same seed and rounds give the same lay
	Table  float64 // length of the cutting table in mm; 0 when it does not matter
	// Unit is what findings are written in; centimetres when empty.
	Unit unit.Unit
	// Report, when not nil, is told the plan being tried and the length it
	// takes so far, in mm, whenever that gets less.
	Report func(p Plan, length float64)
}

// Make lays the cuts for one role on a cloth; cuts for other roles are passed
// over. When ctx ends, the best lay so far is returned. The length of the cloth
// does not bound the lay: when it takes more, the finding tells how much.
// Pieces are never scaled: cloth that is still to be washed is reckoned at the
// width and length that washing leaves.
func Make(ctx context.Context, c cloth.Cloth, role cloth.Role, cuts []finish.Cut, o Options) (Lay, finding.List) {
	w := newWork(c, role, cuts, o)
	var best Lay
	for i, p := range w.plans() {
		l := w.try(ctx, p, w.divide(ctx, p), o.Rounds)
		tried := append(best.Tried, Attempt{p, l.Length, len(l.Unplaced)})
		if i == 0 || better(l, best) {
			best = l
		}
		best.Tried = tried
	}
	w.tell(best)
	return best, w.found
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

// work is one run of Make.
type work struct {
	cloth  cloth.Cloth
	role   cloth.Role
	opts   Options
	cuts   []ready
	out    []string // unfit for any lay
	width  int64    // usable, micrometres
	found  finding.List
	failed map[string]bool // errors of the search already told
}

// ready is a cut that can be laid.
type ready struct {
	cut  finish.Cut
	open finish.Cut // cut, or the whole piece when it is half of one
	// twin is the index of the exact mirror image cut with it, or -1.
	twin int
}

func newWork(c cloth.Cloth, role cloth.Role, cuts []finish.Cut, o Options) *work {
	w := &work{cloth: c, role: role, opts: o, width: int64(math.Round(c.UsableWidth() * 1000)), failed: map[string]bool{}}
	for _, k := range cuts {
		if k.Cloth != role {
			continue
		}
		if r, bad := w.prepare(k); len(bad) > 0 {
			w.found = append(w.found, bad...)
			w.out = append(w.out, k.ID)
		} else {
			w.cuts = append(w.cuts, r)
		}
	}
	for i := range w.cuts {
		w.cuts[i].twin = w.twin(i)
	}
	return w
}

func (w *work) prepare(k finish.Cut) (ready, finding.List) {
	place := finding.Place{}.OnPiece(k.Piece, string(k.Copy), "")
	if pts := millimetres(k.Outline); len(pts) < 3 || geom.Area(pts) <= 0 || crosses(pts) {
		return ready{}, finding.List{badOutline.At(place, k.ID)}
	}
	r := ready{cut: k, open: k}
	if k.OnFold {
		whole, ok := opened(k)
		if !ok {
			return r, finding.List{badFold.At(place, k.ID)}
		}
		r.open = whole
	}
	if lo, hi := across(r.open); hi-lo > w.width {
		return r, finding.List{tooWide.At(place, k.ID, w.say(float64(hi-lo)/1e3), w.cloth.Title, w.say(float64(w.width)/1e3))}
	}
	return r, nil
}

func crosses(pts []geom.Pt) bool {
	_, _, _, found := geom.SelfCrossing(pts)
	return found
}

// across is how far a cut reaches across the cloth, in its own x.
func across(k finish.Cut) (lo, hi int64) {
	lo, hi = k.Outline[0].X, k.Outline[0].X
	for _, p := range k.Outline {
		lo, hi = min(lo, p.X), max(hi, p.X)
	}
	return lo, hi
}

func millimetres(ms []finish.Micron) []geom.Pt {
	out := make([]geom.Pt, len(ms))
	for i, m := range ms {
		out[i] = geom.Pt{X: float64(m.X) / 1000, Y: float64(m.Y) / 1000}
	}
	return out
}

// plans lists the ways of folding to try, the preferred one first. Where
// nothing gains by a fold, both are the same.
func (w *work) plans() []Plan {
	switch Plan(w.opts.Fold) {
	case Open:
		return []Plan{Open}
	case Lengthwise:
		return []Plan{Lengthwise}
	}
	for i := range w.cuts {
		if w.foldable(i) {
			return []Plan{Lengthwise, Open}
		}
	}
	return []Plan{Open}
}

// tell adds what there is to say about the lay that was kept.
func (w *work) tell(l Lay) {
	c := w.cloth
	if n := len(l.Unplaced) - len(w.out); n > 0 {
		w.found = append(w.found, stopped.At(c.Place, n))
	}
	if over := l.Length - c.UsableLength(); over > 0 {
		w.found = append(w.found, short.At(c.LengthPlace, w.say(l.Length), c.Title, w.say(c.UsableLength()), w.say(math.Ceil(over))))
	}
	if !c.Washed {
		w.found = append(w.found, unwashed.At(c.Place, c.Title, w.say(c.UsableLength()), w.say(c.UsableWidth())))
	}
	if w.opts.Table > 0 && l.Length > w.opts.Table {
		w.found = append(w.found, table.At(finding.Place{}, w.say(l.Length), w.say(w.opts.Table)))
	}
}

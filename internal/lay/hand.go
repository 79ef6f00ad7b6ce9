package lay

import (
	"context"
	"math"
	"slices"

	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/finish"
	"gusset/internal/nest"
	"gusset/internal/source"
)

// hand is a written lay beside the cuts of a run.
type hand struct {
	sections []FileSection
	pieces   []written
	held     [][]Placed // by section, those that are pinned
	gone     map[int]bool
	fixed    map[int]home // of cuts that lie where they are written
	strips   []strip      // by section; only those of held sections are set
}

// written is one piece that has a written place.
type written struct {
	Placed
	index  int // of its cut
	pinned bool
}

// Around lays the cuts for one role as a file has them. It returns the written
// lay as it is, and the best one around its pinned pieces: what is written and
// not pinned is where the search begins, and what has no place gets one. A
// written lay may break every rule; it is itself the best where everything is
// pinned, or where it leaves no piece out, is sound, and no longer than what the
// search finds. The findings are about the best, and about what cannot be read
// of the file.
func Around(ctx context.Context, c cloth.Cloth, role cloth.Role, cuts []finish.Cut, f File, o Options, sound func(Lay) bool) (asWritten, best Lay, found finding.List) {
	w := newWork(c, role, cuts, o)
	h := w.read(f)
	asWritten = w.asWritten(h)
	if w.found.Stops() == len(w.out) && len(h.gone) < len(w.cuts) {
		w.hand = h
		best = w.around(ctx, h)
	}
	if len(best.Sections) == 0 || len(asWritten.Unplaced) == len(w.out) && !better(best, asWritten) && sound(asWritten) {
		best = asWritten
	}
	best.Tried = []Attempt{{Plan: best.Plan, Length: best.Length, Unplaced: len(best.Unplaced), Rounds: o.Rounds}}
	w.tell(best)
	return asWritten, best, w.found
}

// read finds the cuts that a file speaks of.
func (w *work) read(f File) *hand {
	h := &hand{sections: f.Sections, held: make([][]Placed, len(f.Sections)), gone: map[int]bool{}, fixed: map[int]home{}}
	var ids []string
	for _, r := range w.cuts {
		ids = append(ids, r.cut.ID)
	}
	taken := map[int]int{} // by cut, the piece that cuts it
	for _, p := range f.Pieces {
		i := slices.Index(ids, p.ID)
		if i < 0 {
			if !slices.Contains(w.out, p.ID) {
				w.found = append(w.found, strange.At(p.Place, p.ID, meantPiece(p.ID, ids)))
			}
			continue
		}
		if !p.Placed || p.Section >= len(h.sections) {
			continue
		}
		x := w.write(h, p, i)
		if k, twice := taken[i]; twice {
			w.found = append(w.found, withTwin.At(p.Place, p.ID, w.cuts[k].cut.ID))
			continue
		}
		taken[i] = i
		if t := w.cuts[i].twin; t >= 0 && x.Layers == 2 {
			if _, twice := taken[t]; twice {
				w.found = append(w.found, withTwin.At(p.Place, w.cuts[t].cut.ID, p.ID))
				continue
			}
			taken[t] = i
		}
		h.pieces = append(h.pieces, x)
		w.hold(h, x)
	}
	for _, x := range h.pieces {
		if t := w.cuts[x.index].twin; t >= 0 && x.Layers == 1 {
			// The one lies by itself, so the other will not be cut with it.
			w.cuts[x.index].twin, w.cuts[t].twin = -1, -1
		}
	}
	return h
}

func meantPiece(id string, ids []string) string {
	if near := source.Nearest(id, ids); near != "" {
		return "did you mean " + near + "?"
	}
	return "take it out, or look at the names that gusset lay prints"
}

// hold notes what a written piece leaves to the search.
func (w *work) hold(h *hand, x written) {
	both := []int{x.index}
	if t := w.cuts[x.index].twin; t >= 0 && x.Layers == 2 {
		both = append(both, t)
	}
	if x.pinned {
		h.held[x.Section] = append(h.held[x.Section], x.Placed)
	}
	for _, i := range both {
		h.fixed[i] = home{x.Section, x.Layers == 2}
		if x.pinned {
			h.gone[i] = true
		}
	}
}

// write puts a piece down where a file says.
func (w *work) write(h *hand, p FilePiece, i int) written {
	r, s := w.cuts[i], w.lies(h.sections[p.Section])
	x := written{index: i, pinned: p.Pinned}
	x.Section, x.Layers, x.Pinned = p.Section, p.Plies, p.Pinned
	if x.Layers == 0 {
		x.Layers = s.Layers()
	}
	x.Cut = r.open
	if s.Fold == Along && (x.Layers == 2 || !s.Single()) {
		x.Cut = r.cut
	}
	x.Flip, x.Degrees = p.FaceDown, p.Tilt-90
	if p.Turned {
		x.Degrees = p.Tilt + 90
	}
	x.putHeld(finish.Micron{X: micron(p.Along.MM()) + micron(Squaring), Y: micron(p.Across.MM()) - border(w.cloth, s)})
	return x
}

// lies is a written section as to how it is folded; where it lies along the
// cloth is left open.
func (w *work) lies(s FileSection) Section {
	st := stretch{fold: s.Fold}
	if s.Fold == Along {
		if st.depth = w.width / 2; s.HasDepth {
			st.depth = micron(s.Depth.MM())
		}
	}
	return Section{Fold: st.fold, Depth: float64(st.depth) / 1000, Width: w.wide(st)}
}

// asWritten is the lay as the file has it.
func (w *work) asWritten(h *hand) Lay {
	l := Lay{Cloth: w.cloth, Role: w.role, Plan: planOf(w, h.sections), OffGrain: w.opts.OffGrain, Unmatched: w.unmatched}
	end := micron(Squaring)
	lies := map[int]bool{}
	for k, fs := range h.sections {
		s := w.lies(fs)
		from := end
		if fs.HasFrom {
			from = micron(fs.From.MM()) + micron(Squaring)
		}
		to := from
		for _, x := range h.pieces {
			if x.Section == k {
				_, hi := x.box()
				to = max(to, hi.X)
				l.Placed = append(l.Placed, x.Placed)
				lies[x.index] = true
				if t := w.cuts[x.index].twin; t >= 0 && x.Layers == 2 {
					lies[t] = true
				}
			}
		}
		if fs.HasTo {
			to = micron(fs.To.MM()) + micron(Squaring)
		}
		s.From, s.To = float64(from)/1000, float64(to)/1000
		end = micron(s.End())
		l.Sections = append(l.Sections, s)
		l.Length = max(l.Length, s.End())
	}
	l.Unplaced = slices.Clone(w.out)
	for i, r := range w.cuts {
		if !lies[i] {
			l.Unplaced = append(l.Unplaced, r.cut.ID)
		}
	}
	l.Density = density(l)
	inCutOrder(l.Placed)
	l.Tried = []Attempt{{Plan: l.Plan, Length: l.Length, Unplaced: len(l.Unplaced)}}
	return l
}

// planOf names the plan that sections follow.
func planOf(w *work, sections []FileSection) Plan {
	plan, first := Open, Section{}
	for _, fs := range sections {
		s := w.lies(fs)
		switch {
		case s.Fold == Flat:
		case plan == Open:
			plan, first = foldPlans[s.Fold], s
			if s.Single() {
				plan = PartFold
			}
		case s != first:
			return TwoFolds
		}
	}
	return plan
}

var foldPlans = map[Fold]Plan{Along: Lengthwise, Across: Crosswise, Swung: Turned}

// around searches places for what is not pinned.
func (w *work) around(ctx context.Context, h *hand) Lay {
	s := scheme{plan: planOf(w, h.sections)}
	for _, fs := range h.sections {
		s.stretches = append(s.stretches, stretch{fold: fs.Fold, depth: micron(w.lies(fs).Depth)})
	}
	if n := len(s.stretches); n == 0 || s.stretches[n-1].fold != Flat {
		s.stretches = append(s.stretches, stretch{fold: Flat})
		h.held = append(h.held, nil)
	}
	h.strips = w.heldStrips(h)
	for i, at := range h.fixed {
		if !h.gone[i] && !slices.Contains(w.homes(s, i), at) {
			delete(h.fixed, i) // cannot lie there: any place will do
		}
	}
	t, _ := w.divide(ctx, s)
	w.course.begin(float64(w.opts.Rounds))
	w.course.turn(float64(w.opts.Rounds), 0)
	l := w.try(ctx, s, t.homes, w.opts.Rounds, trial{found: w.starts(h, s, t.homes)}).lay
	for i := range w.out {
		if !slices.Contains(l.Unplaced, w.out[i]) {
			l.Unplaced = append(l.Unplaced, w.out[i])
		}
	}
	return l
}

// heldStrips are the stretches of cloth with pinned pieces: where they begin
// does not depend on what lies before, and they end before the next of them.
func (w *work) heldStrips(h *hand) []strip {
	out := make([]strip, len(h.held))
	next := int64(math.MaxInt64)
	asLies := w.asWritten(h).Sections
	for k := len(h.sections) - 1; k >= 0; k-- {
		from := micron(asLies[k].From)
		if len(h.held[k]) == 0 {
			continue
		}
		st := strip{from: from, held: true}
		across := stretch{fold: h.sections[k].Fold}.across()
		switch {
		case across:
			st.most = asLies[k].To - asLies[k].From
		case next < math.MaxInt64:
			st.most = max(float64(next-from)/1000, 0.001)
		default:
			st.most = w.longest(stretch{fold: h.sections[k].Fold}, from)
		}
		out[k], next = st, from
	}
	return out
}

// stripFor is the strip of a stretch of a trial.
func (w *work) stripFor(t *trial, k int) strip {
	from := max(micron(t.lay.Length), micron(Squaring))
	st := strip{from: from, most: w.longest(t.stretches[k], from)}
	if w.hand == nil {
		return st
	}
	if s := w.hand.strips[k]; s.held {
		return s
	}
	for _, s := range w.hand.strips[k+1:] {
		if !s.held {
			continue
		}
		most := float64(s.from-from) / 1000
		if t.stretches[k].across() {
			most /= 2
		}
		st.most = max(most, 0.001)
		break
	}
	return st
}

// heldOn lists the pinned pieces of a stretch.
func (w *work) heldOn(k int) []Placed {
	if w.hand == nil {
		return nil
	}
	return w.hand.held[k]
}

// starts are the written places of pieces that are not pinned, by stretch, as
// layouts to begin from.
func (w *work) starts(h *hand, s scheme, homes []home) map[int]nest.Layout {
	out := map[int]nest.Layout{}
	from := w.asWritten(h).Sections
	for k, jobs := range w.jobs(s, homes) {
		var l nest.Layout
		for n, j := range jobs {
			i := slices.IndexFunc(h.pieces, func(x written) bool {
				return x.index == j.index && !x.pinned && x.Section == k && x.Layers == j.layers
			})
			if i < 0 || k >= len(from) {
				continue
			}
			p := h.pieces[i].Placed
			o := forSearch(p.Flip, p.Degrees)
			l.Placements = append(l.Placements, nest.Placement{Part: n, Degrees: o.Degrees, Flip: o.Flip,
				At: nest.Pt{X: float64(p.AtX)/1000 - from[k].From, Y: float64(p.AtY) / 1000}})
		}
		if len(l.Placements) > 0 {
			out[k] = l
		}
	}
	return out
}

// settled are the phases of the cloth's repeat that pinned pieces settle.
func (w *work) settled(s scheme) map[int]float64 {
	out := map[int]float64{}
	if w.hand == nil {
		return out
	}
	for g, bond := range w.bonds {
		for _, x := range w.hand.pieces {
			m, in := bond.members[x.index]
			if _, known := out[g]; !x.pinned || !in || known {
				continue
			}
			tie := bond.tie(0, m, []nest.Orientation{forSearch(x.Flip, x.Degrees)})
			o := w.origin(s.stretches[x.Section], strip{from: 0})
			q := x.putMicron(finish.Micron{X: micron(tie.At.X), Y: micron(tie.At.Y)})
			v := q.X + o.X
			if bond.axis == nest.Y {
				v = q.Y + o.Y
			}
			if tie.Back[0] {
				v = -v
			}
			out[g] = v - math.Floor(v/bond.period)*bond.period
		}
	}
	return out
}

package nest

import (
	"fmt"
	"math"
	"slices"
)

// A tie leaves a part, on one axis, the places of a comb: one in every period.
// Where the comb stands is the lattice's phase. As long as no part tied to the
// lattice lies, the phase is open and the first part chooses it; afterwards it
// can be read off any of them, so spots alone say everything.

// comb is a lattice prepared.
type comb struct {
	Lattice
	members []int  // items tied to it
	choices []span // of phases that the most members can lie at; none when all are as good
}

// hold is a tie of a pose: the turned part's point at, which lies on the comb
// numbered lattice-1; none when lattice is 0.
type hold struct {
	lattice int
	at      float64
	back    bool
}

// grid is the offsets base + n*step; every offset when step is 0.
type grid struct{ base, step float64 }

// on forgives rounding when an offset is asked whether it lies on a grid, mm.
const on = 1e-6

// up is the least offset on the grid that is not below v.
func (g grid) up(v float64) float64 {
	if g.step == 0 {
		return v
	}
	return g.base + float64(math.Ceil((v-g.base-slack)/g.step)*g.step)
}

// down is the greatest offset on the grid that is not above v.
func (g grid) down(v float64) float64 {
	if g.step == 0 || math.IsInf(v, 1) {
		return v
	}
	return g.base + float64(math.Floor((v-g.base+slack)/g.step)*g.step)
}

// near is the offset on the grid nearest to v.
func (g grid) near(v float64) float64 {
	if g.step == 0 {
		return v
	}
	return g.base + float64(math.Round((v-g.base)/g.step)*g.step)
}

// holds tells whether v lies on the grid.
func (g grid) holds(v float64) bool { return math.Abs(g.near(v)-v) <= on }

// snapAll moves each of vs up to the grid and drops doubles and what leaves
// [lo, hi].
func (g grid) snapAll(vs []float64, lo, hi float64) []float64 {
	out := vs[:0]
	for _, v := range vs {
		if v = g.up(v); v <= hi+slack && v >= lo-slack && !slices.Contains(out, v) {
			out = append(out, v)
		}
	}
	return out
}

func (p *Problem) checkLattices() error {
	for i, l := range p.Lattices {
		if l.Axis != X && l.Axis != Y || bad(l.Period) || l.Period < 1e-3 {
			return fmt.Errorf("nest: lattice %d: a period of %v on axis %d", i, l.Period, l.Axis)
		}
		if slices.ContainsFunc(l.Phases, bad) {
			return fmt.Errorf("nest: lattice %d: phases %v", i, l.Phases)
		}
	}
	for i := range p.Parts {
		if err := p.checkTies(&p.Parts[i]); err != nil {
			return fmt.Errorf("nest: part %d: %w", i, err)
		}
	}
	return nil
}

func (p *Problem) checkTies(part *Part) error {
	var seen [2]bool
	for _, t := range part.Ties {
		if t.Lattice < 0 || t.Lattice >= len(p.Lattices) {
			return fmt.Errorf("no lattice %d", t.Lattice)
		}
		axis := p.Lattices[t.Lattice].Axis
		if seen[axis] {
			return fmt.Errorf("two ties on one axis")
		}
		seen[axis] = true
		if bad(t.At.X) || bad(t.At.Y) {
			return fmt.Errorf("tie at %v", t.At)
		}
		if len(t.Back) != 0 && len(t.Back) != len(part.Poses) {
			return fmt.Errorf("a tie says of %d poses whether they lie back, there are %d", len(t.Back), len(part.Poses))
		}
	}
	return nil
}

// holds are the ties of a part in one orientation, which is, or is a tilt of,
// the pose numbered k.
func holds(p *Problem, part *Part, o Orientation, k int) [2]hold {
	var out [2]hold
	for _, t := range part.Ties {
		at := turnOf(o).apply(t.At)
		h := hold{lattice: t.Lattice + 1, at: at.X, back: len(t.Back) > 0 && t.Back[k]}
		axis := p.Lattices[t.Lattice].Axis
		if axis == Y {
			h.at = at.Y
		}
		out[axis] = h
	}
	return out
}

// newCombs prepares the lattices of a problem whose items are ready.
func newCombs(p *Problem, f *field) []comb {
	out := make([]comb, len(p.Lattices))
	for g, l := range p.Lattices {
		out[g].Lattice = l
		for i := range p.Parts {
			if slices.ContainsFunc(p.Parts[i].Ties, func(t Tie) bool { return t.Lattice == g }) {
				out[g].members = append(out[g].members, i)
			}
		}
		out[g].choices = f.choicesOf(&out[g], g)
	}
	return out
}

// choicesOf finds the phases at which the most members can lie. A member whose
// room is shorter than the period on every pose bounds them.
func (f *field) choicesOf(c *comb, g int) []span {
	var all [][]span
	var tries []float64
	for _, i := range c.members {
		if spans, bounded := f.phasesFor(i, g, c.Axis, c.Period); bounded {
			all = append(all, spans)
			for _, s := range spans {
				tries = append(tries, s.lo, s.hi, (s.lo+s.hi)/2)
			}
		}
	}
	if len(c.Phases) > 0 {
		tries = c.Phases
	}
	var out []span
	most := -1
	for _, t := range tries {
		n := 0
		for _, spans := range all {
			if slices.ContainsFunc(spans, func(s span) bool { return s.meets(t, c.Period) }) {
				n++
			}
		}
		if n > most {
			out, most = out[:0], n
		}
		if n == most {
			out = append(out, span{t, t})
		}
	}
	return out
}

// meets tells whether a phase lies in the span, up to periods.
func (s span) meets(phase, period float64) bool {
	return phase+float64(math.Ceil((s.lo-on-phase)/period)*period) <= s.hi+on
}

// phasesFor lists the phases at which item i has room; bounded is false when it
// has at any.
func (f *field) phasesFor(i, g int, axis Axis, period float64) (out []span, bounded bool) {
	it := &f.items[i]
	for _, ps := range it.poses {
		for _, k := range it.strips {
			r, h := ps.rooms[k], ps.hold[axis]
			if r.empty() {
				continue
			}
			lo, hi, origin := r.x0, r.x1, f.strips[k].origin.X
			if axis == Y {
				lo, hi, origin = r.y0, r.y1, f.strips[k].origin.Y
			}
			if hi-lo >= period {
				return nil, false
			}
			s := span{lo + h.at + origin, hi + h.at + origin}
			if h.back {
				s = span{-s.hi, -s.lo}
			}
			out = append(out, s)
		}
	}
	return out, len(out) > 0
}

// grid is where pose p of item i may stand in strip k on an axis.
func (f *field) grid(i, p, k int, axis Axis, phase []float64) grid {
	h := &f.items[i].poses[p].hold[axis]
	if h.lattice == 0 || math.IsNaN(phase[h.lattice-1]) {
		return grid{}
	}
	base := phase[h.lattice-1]
	if h.back {
		base = -base
	}
	origin := f.strips[k].origin.X
	if axis == Y {
		origin = f.strips[k].origin.Y
	}
	return grid{base - h.at - origin, f.comb[h.lattice-1].Period}
}

// choose lets item i, put down at s, choose the phases that are open still.
func (f *field) choose(phase []float64, i int, s spot) {
	if s.strip < 0 || !f.items[i].tied {
		return
	}
	for axis, h := range f.items[i].poses[s.pose].hold {
		if h.lattice == 0 || !math.IsNaN(phase[h.lattice-1]) {
			continue
		}
		v := s.x + f.strips[s.strip].origin.X
		if Axis(axis) == Y {
			v = s.y + f.strips[s.strip].origin.Y
		}
		if v += h.at; h.back {
			v = -v
		}
		phase[h.lattice-1] = wrapped(v, f.comb[h.lattice-1].Period)
	}
}

// wrapped brings a phase into [0, period).
func wrapped(v, period float64) float64 {
	v -= float64(math.Floor(v/period) * period)
	if v >= period { // by rounding
		return 0
	}
	return v
}

// phasesOf reads the phases off the items that lie; NaN where none does.
func (f *field) phasesOf(spots []spot) []float64 {
	out := make([]float64, len(f.comb))
	for g := range out {
		out[g] = math.NaN()
		for _, i := range f.comb[g].members {
			if f.choose(out, i, spots[i]); !math.IsNaN(out[g]) {
				break
			}
		}
	}
	return out
}

// phases are those of the items that lie, and some for lattices without any.
func (f *field) phases(spots []spot) []float64 {
	out := f.startPhases(spots, 0)
	for g, v := range out {
		if math.IsNaN(v) {
			out[g] = 0
		}
	}
	return out
}

// startPhases are those of the items that lie; for the others the choice
// numbered o of those that leave the most members a place; NaN where any does.
func (f *field) startPhases(spots []spot, o int) []float64 {
	out := f.phasesOf(spots)
	for g := range out {
		if n := len(f.comb[g].choices); n > 0 && math.IsNaN(out[g]) {
			out[g] = wrapped(f.comb[g].choices[o%n].lo, f.comb[g].Period)
		}
	}
	return out
}

// told replaces the phases that nothing chose by 0.
func (f *field) told(phase []float64) []float64 {
	for g, v := range phase {
		if math.IsNaN(v) {
			phase[g] = 0
		}
	}
	return phase
}

// onComb tells whether item i at s keeps its ties under these phases.
func (f *field) onComb(i int, s spot, phase []float64) bool {
	return !f.items[i].tied || f.grid(i, s.pose, s.strip, X, phase).holds(s.x) && f.grid(i, s.pose, s.strip, Y, phase).holds(s.y)
}

// tieUp forgives a spot that leaves its combs by the rounding to micrometres.
func (f *field) tieUp(i int, s spot, phase []float64) (spot, bool) {
	if !f.items[i].tied {
		return s, true
	}
	const rounding = 2e-3
	x := f.grid(i, s.pose, s.strip, X, phase).near(s.x)
	y := f.grid(i, s.pose, s.strip, Y, phase).near(s.y)
	ok := math.Abs(x-s.x) <= rounding && math.Abs(y-s.y) <= rounding
	s.x, s.y = x, y
	return s, ok
}

package lay

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gusset/internal/nest"
)

// The search keeps pieces in step with the repeat: every group of pieces is a
// lattice, and the cloth, unfolded, the plane it is drawn on. Along the cloth it
// is counted from the squared line, which is squared along the middle of a bar;
// across it from the middle of the bar that is known, so that both are lines of
// symmetry of an even repeat.

// bind finds the groups of the run.
func (w *work) bind() {
	bonds, missed, found := w.groups()
	w.bonds, w.unmatched = bonds, missed
	w.found = append(w.found, found...)
	if c := w.cloth; len(w.cuts) > 0 && c.Repeat.Exists() {
		switch {
		case !c.Repeat.Even:
			w.found = append(w.found, uneven.At(c.Repeat.Place, c.Title))
		case !c.Repeat.Across.IsZero() && !c.Repeat.Known:
			w.found = append(w.found, barUnknown.At(c.Repeat.Place, c.Title))
		}
	}
}

// bound tells whether the repeat binds cut i to others.
func (w *work) bound(i int) bool {
	return slices.ContainsFunc(w.bonds, func(g group) bool { _, in := g.members[i]; return in })
}

// lattices lists the groups that pieces of a bed belong to.
func (w *work) lattices(b bed) []int {
	var out []int
	for g := range w.bonds {
		if slices.ContainsFunc(b.jobs, func(j job) bool { _, in := w.bonds[g].members[j.index]; return in }) {
			out = append(out, g)
		}
	}
	return out
}

// tieUp adds the lattices of a bed to its problem. A group of which pieces lie
// already has no choice of phase.
func (w *work) tieUp(p *nest.Problem, b bed) {
	for n, g := range w.lattices(b) {
		bond := w.bonds[g]
		l := nest.Lattice{Axis: bond.axis, Period: bond.period, Phases: bond.phases}
		if v, known := b.phases[g]; known {
			l.Phases = []float64{v}
		}
		p.Lattices = append(p.Lattices, l)
		for k, j := range b.jobs {
			if m, in := bond.members[j.index]; in {
				p.Parts[k].Ties = append(p.Parts[k].Ties, bond.tie(n, m, j.poses))
			}
		}
	}
}

// tie holds a cut in one of its poses to its lattice. What is turned end for
// end meets an even repeat backwards both ways; what is turned over, on cloth
// folded on a line of symmetry, across.
func (g group) tie(lattice int, b bond, poses []nest.Orientation) nest.Tie {
	t := nest.Tie{Lattice: lattice, At: nest.Pt{Y: -b.off}}
	if g.axis == nest.Y {
		t.At = nest.Pt{X: b.off}
	}
	for _, o := range poses {
		flip, degrees := onCloth(o)
		back := b.back != (degrees == 90)
		if g.axis == nest.Y {
			back = back != flip
		}
		t.Back = append(t.Back, back)
	}
	return t
}

// keepStep remembers the phases that a bed has settled.
func (w *work) keepStep(t *trial, b bed, best nest.Layout) {
	for n, g := range w.lattices(b) {
		if slices.ContainsFunc(best.Placements, func(pl nest.Placement) bool {
			_, in := w.bonds[g].members[b.jobs[pl.Part].index]
			return in
		}) {
			t.phases[g] = best.Phases[n]
		}
	}
}

// inStep tells beds apart that differ only in how they must keep step.
func (w *work) inStep(b bed) string {
	if len(w.bonds) == 0 {
		return ""
	}
	var s strings.Builder
	fmt.Fprint(&s, " from ", b.strips[0].from)
	for _, g := range w.lattices(b) {
		v, known := b.phases[g]
		fmt.Fprint(&s, " ", g, known, v)
	}
	return s.String()
}

// origin is where a strip begins on the flat cloth, counted from its lines of
// symmetry. A fold lies on one of them exactly: the cloth is folded by its bars.
func (w *work) origin(s stretch, st strip) nest.Pt {
	o := nest.Pt{X: float64(st.from)/1000 - Squaring, Y: -w.cloth.Bar()}
	if _, across := w.cloth.Periods(); s.fold == Along && across > 0 {
		o.Y = float64(math.Round((float64(s.depth)/1000-w.cloth.Bar())/(across/2)) * (across / 2))
	}
	return o
}

// wholePeriods is the least shift along the cloth, not below by, that keeps the
// repeat in step; micrometres.
func (w *work) wholePeriods(by int64) int64 {
	along, _ := w.cloth.Periods()
	if along == 0 || len(w.bonds) == 0 {
		return by
	}
	return micron(math.Ceil(float64(by)/1000/along-1e-9) * along)
}

package construct

import (
	"math"
	"slices"

	"gusset/internal/geom"
	"gusset/internal/method"
	"gusset/internal/pattern"
)

// across is how far two edges must turn at a corner for the second to cross
// what lies along the first, in radians: 45°.
const across = math.Pi / 4

// precede adds what waits for what between works.
func (b *builder) precede() {
	for _, w := range b.works {
		b.nodes(w)
	}
	for _, first := range b.works {
		for _, next := range b.works {
			if first.item != next.item || first.item.takes == method.Join {
				b.relate(first, next)
			}
		}
	}
	b.states()
	v := b.garment.View
	for _, c := range v.Closures {
		b.checkJoins(c.ID, c.Joins, method.Join, method.Finish)
		for _, w := range b.worksOf(c.ID) {
			b.closure(w, c)
		}
	}
	for _, p := range v.Parts {
		b.checkJoins(p.ID, p.Joins, method.Join)
		for _, w := range b.worksOf(p.ID) {
			b.part(w, p)
		}
	}
	for _, w := range b.works {
		if w.item.takes == method.Piece {
			b.interfacing(w)
		}
	}
	for _, w := range b.works {
		if w.item.takes == method.Fitting {
			b.fitting(w)
		}
	}
}

// checkJoins reports joins that a closure or part names and nobody has.
func (b *builder) checkJoins(id string, joins []string, takes ...method.Takes) {
	for _, j := range joins {
		if it := b.items[j]; it == nil || !slices.Contains(takes, it.takes) {
			b.add(unresolved.At(b.items[id].place, id, "this view has no join "+j))
		}
	}
}

func (b *builder) worksOf(ids ...string) []*work {
	var out []*work
	for _, w := range b.works {
		if slices.Contains(ids, w.item.id) {
			out = append(out, w)
		}
	}
	return out
}

// relate adds what next needs of first.
func (b *builder) relate(first, next *work) {
	join, finish := method.Join, method.Finish
	switch f, n := first.item.takes, next.item.takes; {
	case first == next || f != join && f != finish || n != join && n != finish:
	case b.closesRing(next, first):
		b.before(first.sinks(), b.gates(next), b.because(sewnFlat, first, next))
	case b.overlap(first, next):
		if b.earlier(first, next) {
			b.before(first.sinks(), b.gates(next), b.because(sameEdge, first, next))
		}
	case b.crosses(next, first):
		b.before(first.sinks(), b.gates(next), b.because(runsAcross, first, next))
		b.before(first.sinks(), b.madeReady(next, first), b.because(runsAcross, first, next))
	case turnsIn(first, next):
		b.before(first.sinks(), b.roots(next), b.because(turnedFirst, first, next))
	case setAcross(first, next):
		b.before(first.sinks(), b.roots(next), b.because(setOverDart, first, next))
	case b.setFlat(first, next):
		b.before(first.sinks(), b.gates(next), b.because(setWhileFlat, first, next))
	case f == finish && n == join && corner(first, next) && b.finishedFlat(first, next):
		b.before(first.sinks(), b.roots(next), b.because(finishedFirst, first, next))
	case f == join && n == finish && corner(next, first) && sewnEnd(next) && !first.covers():
		b.before(first.sinks(), b.roots(next), b.because(closesOn, first, next))
	}
}

// closesRing reports whether a join ends where another, sewn flat, will close
// to a ring: side and underarm seams at a sleeve that is set in before them.
func (b *builder) closesRing(w, flat *work) bool {
	return w.item.takes == method.Join && slices.ContainsFunc(flat.ring, func(n int) bool {
		return slices.Contains(w.tips, n) || slices.Contains(w.inner, n)
	})
}

// earlier says which of two works on one stretch comes first: basting before
// sewing, a covering seam last, a finish before a join; else the view's order.
func (b *builder) earlier(first, next *work) bool {
	rank := func(w *work) int {
		switch {
		case w.item.takes == method.Finish:
			return 0
		case w.item.bastes():
			return 1
		case w.covers():
			return 3
		}
		return 2
	}
	if r, q := rank(first), rank(next); r != q {
		return r < q
	}
	return first.item.index < next.item.index
}

// overlap reports whether two works take more than a point of the same edge.
func (b *builder) overlap(x, y *work) bool {
	if x.item == y.item {
		return false
	}
	for _, s := range x.all {
		for _, t := range y.all {
			if on(s) == on(t) && min(s.To, t.To)-max(s.From, t.From) > 2*within {
				return true
			}
		}
	}
	return false
}

// crosses reports whether w runs across a place where other ends.
func (b *builder) crosses(w, other *work) bool {
	for _, n := range other.tips {
		if slices.Contains(w.inner, n) {
			return true
		}
		for _, s := range w.all {
			if b.glue.inside(s, n) {
				return true
			}
		}
	}
	return false
}

// madeReady are the operations that make one side of a join ready, an edge pressed
// under or overlocked, where that side runs on over the end of another work: the
// allowance of two pieces is pressed under when they are one.
func (b *builder) madeReady(w, other *work) []string {
	var out []string
	for i, on := range []string{"a", "b"} {
		if w.item.takes == method.Join && i < len(w.sides) && b.runsOver(w.sides[i], other.tips) {
			out = append(out, w.ids(func(m method.Operation) bool { return m.On == on })...)
		}
	}
	return out
}

// runsOver reports whether one stretch of a side ends and the next begins at one
// of the nodes.
func (b *builder) runsOver(side []Stretch, nodes []int) bool {
	count := map[int]int{}
	for _, s := range side {
		from, to := b.glue.ends(s)
		count[b.glue.find(from)]++
		count[b.glue.find(to)]++
	}
	return slices.ContainsFunc(nodes, func(n int) bool { return count[n] > 1 })
}

// turnedIn is the family of seams whose second side is turned in under the first.
const turnedIn = "enclosed"

// turnsIn reports whether next bastes a ply that ends at a seam which turns it in:
// it lies where it belongs only when that is done.
func turnsIn(first, next *work) bool {
	return first.item.takes == method.Join && next.item.takes == method.Join && next.item.bastes() &&
		first.item.method.Family == turnedIn && !first.item.bastes() && corner(next, first)
}

// setAcross reports whether next is set on a face across a dart that first
// folds: the face has its shape only when the dart is sewn and pressed.
func setAcross(first, next *work) bool {
	panel, ok := next.panel()
	if !ok || len(first.intake.takes) != 2 {
		return false
	}
	for _, leg := range first.intake.takes {
		if leg.Piece != panel.piece || leg.Copy != panel.copy {
			continue
		}
		for _, s := range next.all {
			if s.Inside && len(geom.Crossings(s.Curve, leg.Curve)) > 0 {
				return true
			}
		}
	}
	return false
}

// setFlat reports whether first is set on the face of a copy that next closes
// into a tube with another: the two are joined by more seams than one. Pockets
// are set before the leg seams, while the leg lies flat (handbooks: pockets
// before side seams).
func (b *builder) setFlat(first, next *work) bool {
	panel, ok := first.panel()
	if !ok || next.item.takes != method.Join {
		return false
	}
	for _, s := range next.all {
		if s.Piece == panel.piece && s.Copy == panel.copy && !s.Inside {
			return b.tube(panel, next)
		}
	}
	return false
}

// panel is the one copy on whose face a join is set.
func (w *work) panel() (copyEdge, bool) {
	var on []copyEdge
	for _, s := range w.all {
		if s.Inside {
			on = append(on, copyEdge{piece: s.Piece, copy: s.Copy})
		}
	}
	if len(on) == 0 || slices.ContainsFunc(on, func(e copyEdge) bool { return e != on[0] }) {
		return copyEdge{}, false
	}
	return on[0], true
}

// tube reports whether a copy that next joins to the panel is joined to it
// elsewhere too.
func (b *builder) tube(panel copyEdge, next *work) bool {
	for _, s := range next.all {
		other := copyEdge{piece: s.Piece, copy: s.Copy}
		for _, w := range b.works {
			if other != panel && w != next && w.item.takes == method.Join && w.takes(panel) && w.takes(other) {
				return true
			}
		}
	}
	return false
}

// takes reports whether an edge of a copy is among the work's stretches.
func (w *work) takes(e copyEdge) bool {
	return slices.ContainsFunc(w.all, func(s Stretch) bool { return !s.Inside && s.Piece == e.piece && s.Copy == e.copy })
}

// corner reports whether a finish and a join end at the same node.
func corner(finish, join *work) bool {
	return slices.ContainsFunc(finish.tips, func(n int) bool { return slices.Contains(join.tips, n) })
}

// finishedFlat reports whether a finish that meets a join at a corner is done
// before it: the top of a pocket before the pocket is set. A hem that runs
// round is left open, and an end sewn to itself waits for the seam it closes,
// but not for the one that covers it.
func (b *builder) finishedFlat(finish, join *work) bool {
	if sewnEnd(finish) {
		return join.covers()
	}
	return !finish.item.worksRound()
}

// sewnEnd reports whether the finish is a seam of the edge with itself.
func sewnEnd(w *work) bool { return w.item.demandKind() == ForSeam }

// closure lets a closure wait for the joins it is made in and come before
// those that cross its ends, or lead away from them; what is left of it waits
// for these.
func (b *builder) closure(w *work, c pattern.Closure) {
	for _, j := range b.worksOf(c.Joins...) {
		b.before(j.sinks(), b.roots(w), b.because(madeIn, j, w))
	}
	for _, x := range b.works {
		switch {
		case x == w || slices.Contains(c.Joins, x.item.id):
		case x.item.takes == method.Join && (b.turnsOff(w, x) || b.crosses(x, w)):
			b.before(w.closing(), b.gates(x), b.because(closesOff, w, x))
			b.before(x.sinks(), b.rest(w), b.because(finishedOn, x, w))
		case x.item.takes == method.Finish && corner(w, x):
			b.before(x.sinks(), b.rest(w), b.because(finishedOn, x, w))
		}
	}
}

// turnsOff reports whether the join leads away from an end of the fastening
// across it, on the same copy.
func (b *builder) turnsOff(w, join *work) bool {
	for _, s := range w.sides[0] {
		for _, t := range join.all {
			if s.Piece == t.Piece && s.Copy == t.Copy && s.Edge != t.Edge && b.turned(s, t) {
				return true
			}
		}
	}
	return false
}

func (b *builder) turned(s, t Stretch) bool {
	sf, st := b.glue.ends(s)
	tf, tt := b.glue.ends(t)
	outward := []struct {
		s, t   int
		ds, dt geom.Pt
	}{
		{sf, tf, s.Curve.StartTangent().Mul(-1), t.Curve.StartTangent()},
		{sf, tt, s.Curve.StartTangent().Mul(-1), t.Curve.EndTangent().Mul(-1)},
		{st, tf, s.Curve.EndTangent(), t.Curve.StartTangent()},
		{st, tt, s.Curve.EndTangent(), t.Curve.EndTangent().Mul(-1)},
	}
	for _, o := range outward {
		if b.glue.find(o.s) == b.glue.find(o.t) && math.Abs(math.Atan2(o.ds.Cross(o.dt), o.ds.Dot(o.dt))) > across {
			return true
		}
	}
	return false
}

// part lets a part be made before the joins that catch it; what is left of it
// waits for these and for the seams that cover them.
func (b *builder) part(w *work, p pattern.Part) {
	catching := b.worksOf(p.Joins...)
	for _, j := range catching {
		b.before(w.closing(), b.gates(j), b.because(catches, w, j))
		b.before(j.sinks(), b.rest(w), b.because(finishedOn, j, w))
		for _, x := range b.works {
			if x.covers() && b.overlap(x, j) {
				b.before(x.sinks(), b.rest(w), b.because(finishedOn, x, w))
			}
		}
	}
}

package construct

import (
	"slices"

	"gusset/internal/method"
)

// gatherFittings makes one work of every fitting, over the seams it tries.
func (b *builder) gatherFittings() {
	for _, f := range b.garment.View.Fittings {
		it := b.items[f.ID]
		if !it.sound {
			continue
		}
		b.checkJoins(f.ID, f.Joins, method.Join)
		w := &work{item: it, fitted: b.worksOf(f.Joins...)}
		var all []Stretch
		for _, j := range w.fitted {
			all = append(all, j.stretches()...)
		}
		w.sides = [][]Stretch{all}
		b.works = append(b.works, w)
	}
}

// eachFitted lists the seams of a fitting as parts of it, under their own names.
func (w *work) eachFitted() []*work {
	var out []*work
	for _, j := range w.fitted {
		it := *w.item
		it.title = j.item.title
		p := &work{item: &it, hand: j.hand, key: j.item.id, sides: j.sides}
		if j.key != "" {
			p.key += "-" + j.key
		}
		out = append(out, p)
	}
	return out
}

// fitting lets nothing that prevents altering a seam come before the seam is
// tried: its own stitching, and any other seam on the same edges, wait for the
// end of the fitting. Basted seams wait for what their own stitching waits for,
// as far as that can be done before the fitting.
func (b *builder) fitting(w *work) {
	if !slices.ContainsFunc(w.item.method.Operations, func(m method.Operation) bool { return !m.First }) {
		return // a toile comes before everything
	}
	held := map[string]bool{} // operations that must wait for the fitting
	for _, x := range b.works {
		if w.alters(x) {
			for _, id := range b.gates(x) {
				held[id] = true
			}
		}
	}
	waits := b.waiting(held)
	bastes := w.ids(func(m method.Operation) bool { return m.On == "seam" })
	for i, j := range w.fitted {
		for _, g := range b.gates(j) {
			for _, e := range b.operations[b.index[g]].After {
				if i < len(bastes) && !waits[e] && b.operations[b.index[e]].Item != j.item.id {
					b.before([]string{e}, bastes[i:i+1], b.operations[b.index[g]].Why[e])
				}
			}
		}
	}
	for _, x := range b.works {
		if w.alters(x) {
			b.before(w.sinks(), b.gates(x), b.because(triedFirst, w, x))
		}
	}
}

// alters reports whether a work would fix what the fitting may alter: a seam
// that it tries, or another that takes more of the same edges.
func (w *work) alters(x *work) bool {
	if slices.Contains(w.fitted, x) {
		return true
	}
	return x.item.takes == method.Join && slices.ContainsFunc(x.all, func(s Stretch) bool {
		return !s.Inside && slices.ContainsFunc(w.sides[0], func(t Stretch) bool { return on(s) == on(t) })
	})
}

// waiting gives the operations that are held or wait for one that is.
func (b *builder) waiting(held map[string]bool) map[string]bool {
	out := map[string]bool{}
	seen := map[string]bool{}
	var visit func(id string) bool
	visit = func(id string) bool {
		if seen[id] {
			return out[id]
		}
		seen[id] = true
		out[id] = held[id]
		for _, a := range b.operations[b.index[id]].After {
			if visit(a) {
				out[id] = true
			}
		}
		return out[id]
	}
	for id := range b.index {
		visit(id)
	}
	return out
}

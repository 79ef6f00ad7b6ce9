package change

import (
	"slices"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// part makes the two parts of a divided piece; a reason when a part would not
// be a piece.
func (d *split) part(farName string) string {
	p := d.whole
	from, to := p.Edges[d.a].Curve.At(d.atA), p.Edges[d.b].Curve.At(d.atB)
	d.far = d.between(d.a, d.atA, d.b, d.atB, to, from)
	d.near = d.between(d.b, d.atB, d.a, d.atA, from, to)
	d.far.Name, d.far.Title = farName, p.Title+", second part"
	for _, q := range []*piece.Piece{&d.near, &d.far} {
		d.linesOf(q)
		d.marksOf(q)
	}
	if len(d.near.Edges) < 3 || len(d.far.Edges) < 3 {
		return "a part would have no sides"
	}
	return ""
}

// between is the part whose outline runs from place at on edge a round to place
// to on edge b and back along the cut from p to q.
func (d *split) between(a int, at float64, b int, to float64, p, q geom.Pt) piece.Piece {
	whole := d.whole.Clone()
	part := whole
	part.Edges, part.Lines, part.Marks = nil, nil, nil
	n := len(whole.Edges)
	first, last := whole.Edges[a], whole.Edges[b]
	first.Curve = first.Curve.Between(at, first.Curve.Length())
	last.Curve = last.Curve.Between(0, to)
	part.Edges = append(part.Edges, first)
	for i := (a + 1) % n; i != b; i = (i + 1) % n {
		part.Edges = append(part.Edges, whole.Edges[i])
	}
	part.Edges = append(part.Edges, last, piece.Edge{Name: division, Curve: geom.Polyline(p, q), Place: whole.Place})
	for i := range part.Edges {
		if e := &part.Edges[i]; !slices.Contains(e.Steps, d.step) && (i == 0 || i >= len(part.Edges)-2) {
			e.Steps = append(e.Steps, d.step)
		}
	}
	return part
}

// linesOf gives a part the inside lines that lie in it, cut off at the division,
// and a grain line of its own where none is long enough.
func (d *split) linesOf(part *piece.Piece) {
	ring := part.Outline(0.05)
	cut := part.Edges[len(part.Edges)-1].Curve.Extend(1e4, 1e4)
	grain := false
	for _, l := range d.whole.Lines {
		at := []float64{0, l.Curve.Length()}
		for _, c := range geom.Crossings(l.Curve, cut) {
			at = append(at, c.A)
		}
		slices.Sort(at)
		for i := 1; i < len(at); i++ {
			if at[i]-at[i-1] < leastPart || !geom.Inside(ring, l.Curve.At((at[i]+at[i-1])/2)) {
				continue
			}
			kept := l
			kept.Curve = l.Curve.Between(at[i-1], at[i])
			part.Lines = append(part.Lines, kept)
			grain = grain || l.Kind == piece.Grain
		}
	}
	if !grain {
		part.Lines = append(part.Lines, grainLine(ring, grainOf(d.whole), d.whole))
	}
}

// grainLine draws a grain line through the middle of a part, half as long as
// the part.
func grainLine(ring []geom.Pt, along geom.Pt, of piece.Piece) piece.Line {
	lo, hi := span(ring, along)
	l, r := span(ring, along.Left())
	mid := along.Mul((lo + hi) / 2).Add(along.Left().Mul((l + r) / 2))
	half := along.Mul((hi - lo) / 4)
	return piece.Line{Kind: piece.Grain, Name: "grain", Curve: geom.Polyline(mid.Sub(half), mid.Add(half)), Place: of.Place}
}

// marksOf gives a part the marks that lie on it.
func (d *split) marksOf(part *piece.Piece) {
	ring := part.Outline(0.05)
	for _, m := range d.whole.Marks {
		if m.Kind != piece.Notch {
			if geom.Inside(ring, m.P) {
				part.Marks = append(part.Marks, m)
			}
			continue
		}
		e, ok := part.Edge(m.Edge)
		if !ok {
			continue
		}
		if at, off := e.Curve.Nearest(m.P); off < 0.1 {
			m.At = at
			part.Marks = append(part.Marks, m)
		}
	}
}

// rewrite lets every reference to the whole mean the part, or the parts, that
// now have its edge. A reason when one can no longer be said.
func (j *job) rewrite(d split) string {
	why := ""
	j.mapRefs(func(refs []piece.Ref, against bool) []piece.Ref {
		var out []piece.Ref
		for _, r := range refs {
			if r.Piece != d.whole.Name {
				out = append(out, r)
				continue
			}
			parts, ok := d.refs(r, against)
			if !ok {
				why = r.String() + " would lie on both parts"
			}
			out = append(out, parts...)
		}
		return out
	})
	for _, p := range j.g.View.Parts {
		if p.Piece == d.whole.Name {
			why = "part " + p.ID + " is made of it"
		}
	}
	return why
}

// refs is a reference to the whole said of the parts, in walking order.
func (d split) refs(r piece.Ref, against bool) ([]piece.Ref, bool) {
	onFar := r
	onFar.Piece = d.far.Name
	if r.Inside {
		_, near := d.near.LineNamed(r.Edge)
		_, far := d.far.LineNamed(r.Edge)
		if near {
			return []piece.Ref{r}, !far
		}
		return []piece.Ref{onFar}, far
	}
	i := d.whole.Index(r.Edge)
	if i != d.a && i != d.b || i < 0 {
		if _, near := d.near.Edge(r.Edge); near || i < 0 {
			return []piece.Ref{r}, true
		}
		return []piece.Ref{onFar}, true
	}
	if r.From != "" {
		return d.stretch(r, onFar, i)
	}
	order := []piece.Ref{onFar, r} // as the outline runs: edge b begins on the far part
	if i == d.a {
		order = []piece.Ref{r, onFar}
	}
	if backwards(r, against) {
		slices.Reverse(order)
	}
	return order, true
}

// backwards reports whether a reference is walked against the outline as it is drawn:
// that of a right copy named as such runs the other way round, since it is the
// drawn one's mirror image.
func backwards(r piece.Ref, against bool) bool {
	return against != r.Reversed != (r.Copy == piece.Right)
}

// stretch is a stretch of a divided edge, which must lie on one part.
func (d split) stretch(r, onFar piece.Ref, i int) ([]piece.Ref, bool) {
	from, err1 := d.whole.Corner(r.Edge, r.From)
	to, err2 := d.whole.Corner(r.Edge, r.To)
	if err1 != nil || err2 != nil {
		return []piece.Ref{r}, true // told when it is resolved
	}
	cut, before, after := d.atA, r, onFar
	if i == d.b {
		cut, before, after = d.atB, onFar, r
	}
	switch {
	case max(from, to) <= cut:
		return []piece.Ref{before}, true
	case min(from, to) >= cut:
		return []piece.Ref{after}, true
	}
	return nil, false
}

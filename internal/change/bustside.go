package change

import (
	"slices"

	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// layside puts the side back in its two parts with the dart between, or in one
// where the dart has closed.
func (b *bust) layside(j *job, lower, upper geom.Curve, tip geom.Pt, closed bool) {
	like := b.p.Edges[b.p.Index(b.sideName)]
	made := func(name string, printed float64, c geom.Curve) piece.Edge {
		if !b.sideFirst {
			c = c.Reverse()
		}
		return piece.Edge{Name: name, Curve: c, Printed: printed, Place: like.Place, Steps: append(slices.Clone(like.Steps), j.step.ID)}
	}
	parts := []piece.Edge{
		made(b.sideName, like.Printed, lower),
		made(dartLower, 0, geom.Polyline(lower.End(), tip)),
		made(dartUpper, 0, geom.Polyline(tip, upper.Start())),
		made(b.upperName(), like.Printed, upper),
	}
	if closed {
		parts = []piece.Edge{made(b.sideName, like.Printed, append(slices.Clone(lower), upper...))}
	}
	if !b.sideFirst {
		slices.Reverse(parts)
	}
	was := b.p.Clone()
	first, count := b.side, 1
	if b.hadDart {
		count = 4
		if b.sideFirst {
			first = b.side - 3
		}
	}
	edges := slices.Clone(was.Edges)
	for first < 0 { // the run wraps round the end of the list
		edges = append(edges[len(edges)-1:], edges[:len(edges)-1]...)
		first++
	}
	edges = slices.Concat(edges[:first], parts, edges[first+count:])
	b.p.Edges = edges
	b.sideNotches(was)
	b.armhole = b.p.Index(was.Edges[b.armhole].Name)
	switch {
	case closed:
		b.joinUp(j)
	case !b.hadDart:
		b.partUp(j)
	}
}

func (b bust) upperName() string { return b.sideName + "-upper" }

// sideNotches sets the notches of the side anew: each keeps its distance from
// the end of its part.
func (b *bust) sideNotches(was piece.Piece) {
	lowLong := b.lower.Length()
	for k, m := range b.p.Marks {
		if m.Kind != piece.Notch || m.Edge != b.sideName && m.Edge != b.upperName() {
			continue
		}
		old, _ := was.Edge(m.Edge)
		up := m.At // from the hem
		if !b.sideFirst {
			up = old.Curve.Length() - m.At
		}
		if m.Edge == b.upperName() {
			up += lowLong
		}
		name := b.sideName
		if _, parted := b.p.Edge(b.upperName()); parted && up > lowLong {
			name, up = b.upperName(), up-lowLong
		}
		e, _ := b.p.Edge(name)
		m.Edge, m.At = name, up
		if !b.sideFirst {
			m.At = e.Curve.Length() - up
		}
		m.P = e.Curve.At(m.At)
		b.p.Marks[k] = m
	}
}

// partUp lets every reference to the side mean its two parts, and adds the join
// of the dart.
func (b *bust) partUp(j *job) {
	j.eachRef(func(r piece.Ref, against bool) []piece.Ref {
		if r.Piece != b.p.Name || r.Inside || r.Edge != b.sideName || r.From != "" {
			return []piece.Ref{r}
		}
		up := r
		up.Edge = b.upperName()
		out := []piece.Ref{r, up} // up the side
		if b.sideFirst == (against != r.Reversed != (r.Copy == piece.Right)) {
			slices.Reverse(out)
		}
		return out
	})
	u, _ := j.g.Use(b.p.Name)
	j.g.View.Joins = append(slices.Clone(j.g.View.Joins), pattern.Join{
		ID: j.step.ID, Title: "bust dart", Each: len(u.CopyList()) > 1,
		Sides:  [][]piece.Ref{{{Piece: b.p.Name, Edge: dartLower}}, {{Piece: b.p.Name, Edge: dartUpper}}},
		Method: j.step.Method, Place: j.place(),
	})
}

// joinUp takes the dart and the upper part of the side out of the view again.
func (b *bust) joinUp(j *job) {
	j.eachRef(func(r piece.Ref, _ bool) []piece.Ref {
		if r.Piece == b.p.Name && r.Edge == b.upperName() {
			return nil
		}
		return []piece.Ref{r}
	})
	j.g.View.Joins = slices.DeleteFunc(slices.Clone(j.g.View.Joins), func(x pattern.Join) bool {
		return x.Sides[0][0].Piece == b.p.Name && x.Sides[0][0].Edge == dartLower
	})
}

// eachRef puts in place of every reference of the view what f makes of it.
func (j *job) eachRef(f func(r piece.Ref, against bool) []piece.Ref) {
	v := &j.g.View
	each := func(refs []piece.Ref, against bool) []piece.Ref {
		var out []piece.Ref
		for _, r := range refs {
			out = append(out, f(r, against)...)
		}
		return out
	}
	v.Joins = slices.Clone(v.Joins)
	for i := range v.Joins {
		v.Joins[i].Sides = slices.Clone(v.Joins[i].Sides)
		for k, side := range v.Joins[i].Sides {
			v.Joins[i].Sides[k] = each(side, k > 0)
		}
	}
	v.Finishes, v.Closures, v.Girths = slices.Clone(v.Finishes), slices.Clone(v.Closures), slices.Clone(v.Girths)
	for i := range v.Finishes {
		v.Finishes[i].Edges = each(v.Finishes[i].Edges, false)
	}
	for i := range v.Closures {
		v.Closures[i].Along = each(v.Closures[i].Along, false)
	}
	for i := range v.Girths {
		v.Girths[i].Edges, v.Girths[i].Pieces = each(v.Girths[i].Edges, false), each(v.Girths[i].Pieces, false)
	}
}

package construct

import (
	"slices"

	"gusset/internal/geom"
	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/seam"
)

// shut sews up the closures whose method says that there is none: the seam
// below the opening runs on through it, and what was sewn to its edges (facing,
// shield) falls away.
func (o *outfitter) shut() {
	var kept []pattern.Closure
	drop := map[string]bool{}
	all := o.g.View.Closures
	for _, c := range all {
		m, ok := o.methods.Find(c.Method)
		if !ok || !m.Shut || m.Takes != method.Closure {
			kept = append(kept, c)
			continue
		}
		if !o.runOn(c) {
			o.found = append(o.found, notShut.At(c.Place, c.ID))
			kept = append(kept, c)
			continue
		}
		o.note(m, c.Place)
		o.gone = append(o.gone, lower(c.Title))
		for _, id := range c.Joins {
			for _, name := range o.sewnTo(id, c.Along) {
				drop[name] = true
			}
		}
		o.unfinish(c)
	}
	o.g.View.Closures = kept
	o.g.View.Printed = slices.DeleteFunc(o.g.View.Printed, func(s pattern.Step) bool {
		return slices.ContainsFunc(all, func(c pattern.Closure) bool { return c.ID == s.Item }) &&
			!slices.ContainsFunc(kept, func(c pattern.Closure) bool { return c.ID == s.Item })
	})
	o.fallAway(drop)
}

// sewnTo lists the pieces that a join sews to those of the opening.
func (o *outfitter) sewnTo(id string, along []piece.Ref) []string {
	var out []string
	for _, j := range o.g.View.Joins {
		if j.ID != id {
			continue
		}
		for _, r := range slices.Concat(j.Sides...) {
			if !slices.ContainsFunc(along, func(a piece.Ref) bool { return a.Piece == r.Piece }) {
				out = append(out, r.Piece)
			}
		}
	}
	return out
}

// unfinish takes the edges of the opening out of the finishes it was worked on.
func (o *outfitter) unfinish(c pattern.Closure) {
	var finishes []pattern.Finish
	for _, f := range o.g.View.Finishes {
		if slices.Contains(c.Joins, f.ID) {
			f.Edges = slices.DeleteFunc(slices.Clone(f.Edges), func(r piece.Ref) bool {
				return slices.ContainsFunc(c.Along, func(a piece.Ref) bool {
					return a.Piece == r.Piece && a.Edge == r.Edge && a.From == r.From && a.To == r.To
				})
			})
		}
		if len(f.Edges) > 0 {
			finishes = append(finishes, f)
		}
	}
	o.g.View.Finishes = finishes
}

// runOn lets the seam that ends at an opening run on along both its edges.
func (o *outfitter) runOn(c pattern.Closure) bool {
	if len(c.Along) != 1 || c.Along[0].Copy != piece.Left && c.Along[0].Copy != piece.Right || c.Along[0].Inside {
		return false
	}
	own := c.Along[0]
	other := own.On(map[piece.Copy]piece.Copy{piece.Left: piece.Right, piece.Right: piece.Left}[own.Copy])
	seams, _ := seam.Resolve(o.g)
	for _, s := range seams {
		if s.Copy != piece.Both || len(s.Sides) != 2 {
			continue
		}
		i := slices.IndexFunc(o.g.View.Joins, func(j pattern.Join) bool { return j.ID == s.Join })
		for _, first := range []piece.Ref{own, other} {
			second := other
			if first == other {
				second = own
			}
			a, endA, okA := o.continues(s, 0, first)
			b, endB, okB := o.continues(s, 1, second)
			if !okA || !okB || endA != endB {
				continue
			}
			o.g.View.Shut = append(slices.Clone(o.g.View.Shut), pattern.Shut{Edge: o.beside(s, first, endA), Method: c.Method, Place: c.Place})
			j := o.g.View.Joins[i]
			j.Sides = [][]piece.Ref{extended(j.Sides[0], a, endA), extended(j.Sides[1], b, endB)}
			o.g.View.Joins[i] = j
			return true
		}
	}
	return false
}

// beside is the edge that meets the far end of an opening, on the copy that the
// first side of its seam is on.
func (o *outfitter) beside(s seam.Seam, r piece.Ref, atEnd bool) piece.Ref {
	st, _ := seam.ResolveRef(o.g, r, r.Copy, false)
	chain := s.Sides[0]
	meets := chain[0].Curve.Start()
	if atEnd {
		meets = chain[len(chain)-1].Curve.End()
	}
	far := st.Curve.Start()
	if far.Dist(meets) < st.Curve.End().Dist(meets) {
		far = st.Curve.End()
	}
	p, _ := o.g.Copy(r.Piece, r.Copy)
	for _, e := range p.Edges {
		if e.Name != r.Edge && min(e.Curve.Start().Dist(far), e.Curve.End().Dist(far)) < sameSpot {
			return piece.Ref{Piece: r.Piece, Copy: r.Copy, Edge: e.Name}
		}
	}
	return piece.Ref{}
}

// continues reports whether an edge goes on where a side of a seam ends, or
// else begins, and gives the reference as it is to be walked.
func (o *outfitter) continues(s seam.Seam, side int, r piece.Ref) (out piece.Ref, atEnd, ok bool) {
	chain := s.Sides[side]
	last := chain[len(chain)-1]
	st, err := seam.ResolveRef(o.g, r, r.Copy, side > 0)
	if err != nil {
		return r, false, false
	}
	meet := func(x Stretch, p, q geom.Pt) bool {
		return x.Piece == r.Piece && x.Copy == r.Copy && p.Dist(q) < sameSpot
	}
	switch {
	case meet(last, last.Curve.End(), st.Curve.Start()):
		return r, true, true
	case meet(chain[0], chain[0].Curve.Start(), st.Curve.End()):
		return r, false, true
	case meet(last, last.Curve.End(), st.Curve.End()):
		r.Reversed = !r.Reversed
		return r, true, true
	case meet(chain[0], chain[0].Curve.Start(), st.Curve.Start()):
		r.Reversed = !r.Reversed
		return r, false, true
	}
	return r, false, false
}

func extended(side []piece.Ref, r piece.Ref, atEnd bool) []piece.Ref {
	if atEnd {
		return append(slices.Clone(side), r)
	}
	return append([]piece.Ref{r}, side...)
}

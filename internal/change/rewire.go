package change

import (
	"slices"

	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// part is what has become of an old edge, or of a stretch of it: the edge that
// now has what lay between two distances along the old one.
type part struct {
	name     string
	from, to float64
}

// rewire puts a piece whose outline has been cut anew in the place of the old
// one, and lets every reference to its edges go on meaning the same cloth. parts
// lists, in outline order, what has become of each old edge that was cut up; an
// empty list is an edge that is gone. Edges that it does not list have kept
// their name.
func (j *job) rewire(was, now piece.Piece, parts map[string][]part) {
	j.g.Pieces[was.Name] = now
	j.mapRefs(func(refs []piece.Ref, against bool) []piece.Ref {
		var out []piece.Ref
		for _, r := range refs {
			if r.Piece != was.Name || r.Inside {
				out = append(out, r)
				continue
			}
			out = append(out, rewired(r, against, was, now, parts)...)
		}
		return out
	})
}

// mapRefs changes every list of references of the view. against tells that a
// list is walked against the outlines, as all sides of a join but the first are.
func (j *job) mapRefs(each func(refs []piece.Ref, against bool) []piece.Ref) {
	v := &j.g.View
	for i := range v.Joins {
		v.Joins[i].Sides = slices.Clone(v.Joins[i].Sides)
		for k, side := range v.Joins[i].Sides {
			v.Joins[i].Sides[k] = each(side, k > 0)
		}
		v.Joins[i].Intake = each(v.Joins[i].Intake, false)
	}
	for i := range v.Finishes {
		v.Finishes[i].Edges = each(v.Finishes[i].Edges, false)
	}
	for i := range v.Closures {
		v.Closures[i].Along = each(v.Closures[i].Along, false)
	}
	v.Parts = slices.Clone(v.Parts)
	for i := range v.Parts {
		v.Parts[i].Along = each(v.Parts[i].Along, false)
	}
	v.Girths = slices.Clone(v.Girths)
	for i := range v.Girths {
		v.Girths[i].Edges = each(v.Girths[i].Edges, false)
		v.Girths[i].Pieces = each(v.Girths[i].Pieces, false)
	}
}

// bounds tells whether a stretch that something refers to begins or ends at a named
// point of a piece.
func (j *job) bounds(p, point string) bool {
	found := false
	j.mapRefs(func(refs []piece.Ref, _ bool) []piece.Ref {
		for _, r := range refs {
			found = found || r.Piece == p && (r.From == point || r.To == point)
		}
		return refs
	})
	return found
}

// rewired is what a reference to an edge of the old piece means on the new one.
func rewired(r piece.Ref, against bool, was, now piece.Piece, parts map[string][]part) []piece.Ref {
	i := was.Index(r.Edge)
	if i < 0 {
		return []piece.Ref{r} // told when it is resolved
	}
	list, cut := parts[r.Edge]
	if !cut {
		list = []part{{r.Edge, 0, was.Edges[i].Curve.Length()}}
	}
	if len(list) == 0 {
		return nil
	}
	first, last := spot{0, ""}, spot{len(list) - 1, ""}
	if r.From != "" {
		a, ok1 := spotOf(was, i, r.From, list)
		b, ok2 := spotOf(was, i, r.To, list)
		if !ok1 || !ok2 {
			return []piece.Ref{r}
		}
		first, last = a, b
		if cornerAt(was, r, r.From) > cornerAt(was, r, r.To) {
			first, last = b, a
		}
	} // A stretch that begins where the edge is cut has nothing of what lies before.
	if m, ok := was.Notch(r.Edge, first.notch); ok && first.part < last.part && m.At > list[first.part].to-0.01 {
		first = spot{first.part + 1, ""}
	}
	var out []piece.Ref
	for k := first.part; k <= last.part; k++ {
		e := now.Index(list[k].name)
		if e < 0 {
			return []piece.Ref{r}
		}
		q := r
		q.Edge, q.From, q.To = list[k].name, now.Before(e).Name, now.After(e).Name
		whole := true
		if k == first.part && first.notch != "" {
			q.From, whole = first.notch, false
		}
		if k == last.part && last.notch != "" {
			q.To, whole = last.notch, false
		}
		if whole {
			q.From, q.To = "", ""
		}
		out = append(out, q)
	}
	if backwards(r, against) {
		slices.Reverse(out)
	}
	return out
}

// spot is a named point of an old edge: the part that it lies on, and the notch
// it is; a corner has none.
type spot struct {
	part  int
	notch string
}

func spotOf(was piece.Piece, edge int, name string, list []part) (spot, bool) {
	if m, ok := was.Notch(was.Edges[edge].Name, name); ok {
		for k, p := range list {
			if m.At >= p.from-0.01 && m.At <= p.to+0.01 {
				return spot{k, name}, true
			}
		}
		return spot{}, false
	}
	switch name {
	case was.Before(edge).Name:
		return spot{0, ""}, true
	case was.After(edge).Name:
		return spot{len(list) - 1, ""}, true
	}
	return spot{}, false
}

// cornerAt is where a named point lies on the reference's edge, in mm.
func cornerAt(p piece.Piece, r piece.Ref, name string) float64 {
	d, _ := p.Corner(r.Edge, name)
	return d
}

// drop takes an item out of the view, wherever it is named.
func (j *job) drop(id string) {
	v := &j.g.View
	v.Joins = slices.DeleteFunc(slices.Clone(v.Joins), func(x pattern.Join) bool { return x.ID == id })
	without := func(ids []string) []string {
		return slices.DeleteFunc(slices.Clone(ids), func(x string) bool { return x == id })
	}
	for i := range v.Closures {
		v.Closures[i].Joins = without(v.Closures[i].Joins)
	}
	v.Parts = slices.Clone(v.Parts)
	for i := range v.Parts {
		v.Parts[i].Joins = without(v.Parts[i].Joins)
	}
	v.Fittings = slices.Clone(v.Fittings)
	for i := range v.Fittings {
		v.Fittings[i].Joins = without(v.Fittings[i].Joins)
	}
	v.Matches = slices.DeleteFunc(slices.Clone(v.Matches), func(m pattern.Match) bool { return m.Join == id })
	v.Printed = slices.DeleteFunc(slices.Clone(v.Printed), func(s pattern.Step) bool { return s.Item == id })
}

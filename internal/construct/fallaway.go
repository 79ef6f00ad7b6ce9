package construct

import (
	"slices"

	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// fallAway takes pieces out of the garment, and with them all that hangs on
// them alone: joins that lose a side, finishes of their edges, parts caught in
// such a join, and pieces that were sewn to nothing else.
func (o *outfitter) fallAway(drop map[string]bool) {
	sewn := o.sewn()
	for len(drop) > 0 {
		o.dropPieces(drop)
		o.dropJoins(drop)
		next := o.dropParts()
		o.dropRest(drop)
		now := o.sewn()
		for _, u := range o.g.View.Uses {
			if sewn[u.Piece] && !now[u.Piece] {
				next[u.Piece] = true
			}
		}
		drop = next
	}
}

// sewn are the pieces that a join or a part has.
func (o *outfitter) sewn() map[string]bool {
	out := map[string]bool{}
	for _, j := range o.g.View.Joins {
		for _, r := range slices.Concat(j.Sides...) {
			out[r.Piece] = true
		}
	}
	for _, p := range o.g.View.Parts {
		out[p.Piece] = true
	}
	return out
}

func (o *outfitter) dropPieces(drop map[string]bool) {
	v := &o.g.View
	for _, u := range v.Uses {
		if drop[u.Piece] {
			o.gone = append(o.gone, o.title(u.Piece))
		}
	}
	v.Uses = slices.DeleteFunc(v.Uses, func(u pattern.Use) bool { return drop[u.Piece] })
	o.g.Order = slices.DeleteFunc(o.g.Order, func(name string) bool { return drop[name] })
	for name := range drop {
		delete(o.g.Pieces, name)
		delete(o.g.Pieces, name+"@"+string(piece.Right))
	}
}

// without is the references to pieces that stay.
func without(refs []piece.Ref, drop map[string]bool) []piece.Ref {
	var out []piece.Ref
	for _, r := range refs {
		if !drop[r.Piece] {
			out = append(out, r)
		}
	}
	return out
}

// dropJoins takes joins apart: one that loses its first side, or all others, is
// none any more.
func (o *outfitter) dropJoins(drop map[string]bool) {
	v := &o.g.View
	var joins []pattern.Join
	for _, j := range v.Joins {
		var sides [][]piece.Ref
		var first bool
		for i, side := range j.Sides {
			if kept := without(side, drop); len(kept) > 0 {
				sides = append(sides, kept)
				first = first || i == 0
			}
		}
		if first && len(sides) > 1 {
			j.Sides = sides
			joins = append(joins, j)
		}
	}
	v.Joins = joins
	var finishes []pattern.Finish
	for _, f := range v.Finishes {
		if f.Edges = without(f.Edges, drop); len(f.Edges) > 0 {
			finishes = append(finishes, f)
		}
	}
	v.Finishes = finishes
}

// dropParts leaves out parts that are caught nowhere any more, and gives their
// pieces.
func (o *outfitter) dropParts() map[string]bool {
	v := &o.g.View
	next := map[string]bool{}
	var parts []pattern.Part
	for _, p := range v.Parts {
		caught := len(p.Joins) == 0
		p.Joins = o.existing(p.Joins)
		_, there := o.g.Use(p.Piece)
		if caught = caught || len(p.Joins) > 0; caught && (there || p.Piece == pending) {
			parts = append(parts, p)
			continue
		}
		o.gone = append(o.gone, lower(p.Title))
		if there {
			next[p.Piece] = true
		}
	}
	v.Parts = parts
	return next
}

// existing keeps the joins and finishes that there are.
func (o *outfitter) existing(ids []string) []string {
	return slices.DeleteFunc(slices.Clone(ids), func(id string) bool { return !o.joined(id) })
}

// joined reports whether an item is a join, or an edge that a piece will be
// drawn for and joined to.
func (o *outfitter) joined(id string) bool {
	if slices.ContainsFunc(o.g.View.Joins, func(j pattern.Join) bool { return j.ID == id }) {
		return true
	}
	return slices.ContainsFunc(o.g.View.Finishes, func(f pattern.Finish) bool {
		m, ok := o.methods.Find(f.Method)
		return f.ID == id && ok && m.Takes == method.Join
	})
}

func (o *outfitter) finished(id string) bool {
	return slices.ContainsFunc(o.g.View.Finishes, func(f pattern.Finish) bool { return f.ID == id })
}

// dropRest clears what speaks of the dropped pieces and of items that are no
// more.
func (o *outfitter) dropRest(drop map[string]bool) {
	v := &o.g.View
	var closures []pattern.Closure
	for _, c := range v.Closures {
		c.Along = without(c.Along, drop)
		c.Joins = slices.DeleteFunc(slices.Clone(c.Joins), func(id string) bool { return !o.joined(id) && !o.finished(id) })
		if len(c.Along) > 0 && len(c.Joins) > 0 {
			closures = append(closures, c)
		} else {
			o.gone = append(o.gone, lower(c.Title))
		}
	}
	v.Closures = closures
	var fittings []pattern.Fitting
	for _, f := range v.Fittings {
		had := len(f.Joins) > 0
		if f.Joins = o.existing(f.Joins); len(f.Joins) > 0 || !had {
			fittings = append(fittings, f)
		}
	}
	v.Fittings = fittings
	for i := range v.Girths {
		v.Girths[i].Edges, v.Girths[i].Pieces = without(v.Girths[i].Edges, drop), without(v.Girths[i].Pieces, drop)
	}
	v.Matches = slices.DeleteFunc(v.Matches, func(m pattern.Match) bool { return !o.joined(m.Join) })
	ids := o.ids()
	v.Printed = slices.DeleteFunc(v.Printed, func(s pattern.Step) bool { return !slices.Contains(ids, s.Item) })
}

// ids lists every item there is.
func (o *outfitter) ids() []string {
	return append(o.g.View.Items(), Interfacing)
}

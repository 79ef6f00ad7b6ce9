package construct

import (
	"slices"
	"strings"

	"gusset/internal/finding"
	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// Choose puts the docket's methods, by item id, in place of the pattern's. What
// the chosen ones have no use for falls away with all that hangs on it: the
// facing and shield of a fly that is sewn shut, the band that gives way to a
// casing. It comes before the garment is changed, so that nothing is made to fit
// a piece that is not cut.
func Choose(g pattern.Garment, methods method.Library, swap map[string]string) (pattern.Garment, finding.List) {
	o := &outfitter{g: ownView(g), methods: methods}
	o.choose(swap)
	o.shut()
	o.replace()
	o.tell()
	return o.g, o.found
}

// Outfit draws and joins the pieces that the garment's methods bring: a facing,
// a strip, a tab. What comes out is a garment like any other: it is walked,
// planned, cut and laid as the pattern's own pieces are. Outfitting it again
// changes nothing.
func Outfit(g pattern.Garment, methods method.Library) (pattern.Garment, finding.List) {
	o := &outfitter{g: ownView(g), methods: methods}
	o.shut()
	o.replace()
	o.add()
	o.tell()
	return o.g, o.found
}

// outfitter holds the garment at work.
type outfitter struct {
	g       pattern.Garment
	methods method.Library
	found   finding.List
	wasOf   map[string]method.Method // what the pattern had of a swapped item
	gone    []string                 // titles of what fell away
	made    []string                 // titles of the pieces added
	by      []string                 // the methods that did it
	at      finding.Place            // of the first of them
}

// ownView is the garment with a view that may be changed freely.
func ownView(g pattern.Garment) pattern.Garment {
	g = g.Clone()
	v := &g.View
	v.Uses, v.Parts, v.Fittings = slices.Clone(v.Uses), slices.Clone(v.Parts), slices.Clone(v.Fittings)
	v.Girths, v.Matches, v.Printed = slices.Clone(v.Girths), slices.Clone(v.Matches), slices.Clone(v.Printed)
	g.Order = slices.Clone(g.Order)
	return g
}

// choose puts the docket's methods in place of the pattern's.
func (o *outfitter) choose(swap map[string]string) {
	o.wasOf = map[string]method.Method{}
	v := &o.g.View
	var ids []string
	set := func(id string, takes method.Takes, name *string, values *map[string]unit.Length, place finding.Place) {
		ids = append(ids, id)
		chosen, swapped := swap[id]
		if !swapped {
			return
		}
		was, _ := o.methods.Find(*name)
		now, ok := o.methods.Find(chosen)
		switch {
		case !ok || now.StandsFor(was):
		case now.Takes != takes:
			o.found = append(o.found, wrongMethod.At(place, id, string(takes), chosen, string(now.Takes)))
			return
		case len(now.Pieces) > 0:
			o.found = append(o.found, notInstead.At(place, id, *name, chosen))
			return
		}
		o.wasOf[id], *name = was, chosen
		if values != nil && ok {
			*values = used(*values, now)
		}
	}
	for i := range v.Joins {
		set(v.Joins[i].ID, method.Join, &v.Joins[i].Method, &v.Joins[i].Values, v.Joins[i].Place)
	}
	for i := range v.Finishes {
		set(v.Finishes[i].ID, method.Finish, &v.Finishes[i].Method, &v.Finishes[i].Values, v.Finishes[i].Place)
	}
	for i := range v.Closures {
		set(v.Closures[i].ID, method.Closure, &v.Closures[i].Method, &v.Closures[i].Values, v.Closures[i].Place)
	}
	for i := range v.Parts {
		set(v.Parts[i].ID, method.Part, &v.Parts[i].Method, &v.Parts[i].Values, v.Parts[i].Place)
	}
	for i := range v.Fittings {
		set(v.Fittings[i].ID, method.Fitting, &v.Fittings[i].Method, nil, v.Fittings[i].Place)
	}
	set(Interfacing, method.Piece, &v.Interfacing, nil, v.Place)
	for _, id := range sortedKeys(swap) {
		if !slices.Contains(ids, id) {
			o.found = append(o.found, unknownItem.At(v.Place, id, meant(id, ids)))
		}
	}
}

// used keeps the values that a method uses: what it does not use belonged to
// the one it replaces.
func used(values map[string]unit.Length, m method.Method) map[string]unit.Length {
	kept := map[string]unit.Length{}
	for name, v := range values {
		if _, uses := m.Values[name]; uses || name == allowanceValue {
			kept[name] = v
		}
	}
	return kept
}

// replace lets methods of another use take their place: of a join whose band
// gives way the edge is left, of a part its place; a piece for it may be drawn
// later.
func (o *outfitter) replace() {
	v := &o.g.View
	drop := map[string]bool{}
	var finishes []pattern.Finish
	joins := v.Joins[:0:0]
	for _, j := range v.Joins {
		m, ok := o.methods.Find(j.Method)
		band := ok && (o.finishes(m, j.ID) || len(m.Pieces) > 0 && !o.outfitted(j.ID))
		if !band {
			joins = append(joins, j)
			continue
		}
		o.note(m, j.Place)
		for _, name := range onlyOn(j.Sides[0], j.Sides[1:]) {
			drop[name] = true
		}
		finishes = append(finishes, pattern.Finish{
			ID: j.ID, Title: j.Title, Edges: forward(j.Sides[1]), Method: j.Method, Values: j.Values, Place: j.Place,
		})
	}
	v.Joins, v.Finishes = joins, append(v.Finishes, finishes...)
	for i, p := range v.Parts {
		m, ok := o.methods.Find(p.Method)
		if ok && len(m.Pieces) > 0 && o.wasOf[p.ID].Name != "" && o.wasOf[p.ID].Family != m.Family {
			o.note(m, p.Place)
			drop[p.Piece] = true
			v.Parts[i].Piece = pending
		}
	}
	o.fallAway(drop)
}

// finishes reports whether a method for a finish stands in for the join's own,
// as a casing does for a band.
func (o *outfitter) finishes(m method.Method, id string) bool {
	was, swapped := o.wasOf[id]
	return m.Takes == method.Finish && len(m.InsteadOf) > 0 && (!swapped || m.StandsFor(was))
}

// pending stands for a piece that is yet to be drawn.
const pending = "(pending)"

// outfitted reports whether an item's pieces have been added before.
func (o *outfitter) outfitted(id string) bool {
	return slices.ContainsFunc(o.g.View.Uses, func(u pattern.Use) bool { return u.For == id })
}

// note keeps which method changes the pieces.
func (o *outfitter) note(m method.Method, at finding.Place) {
	if len(o.by) == 0 {
		o.at = at
	}
	if !slices.Contains(o.by, m.Title) {
		o.by = append(o.by, m.Title)
	}
}

// tell says which pieces are cut besides the pattern's, and what is not made.
func (o *outfitter) tell() {
	if len(o.gone) > 0 {
		o.found = append(o.found, leftOut.At(o.at, list(o.by), list(o.gone)))
	}
	if len(o.made) > 0 {
		o.found = append(o.found, cutBesides.At(o.at, list(o.by), list(o.made)))
	}
}

// onlyOn lists the pieces of a side that the other sides do not have.
func onlyOn(side []piece.Ref, others [][]piece.Ref) []string {
	var out []string
	for _, r := range side {
		if !slices.ContainsFunc(slices.Concat(others...), func(x piece.Ref) bool { return x.Piece == r.Piece }) {
			out = append(out, r.Piece)
		}
	}
	return out
}

// forward is the references walked as drawn.
func forward(refs []piece.Ref) []piece.Ref {
	out := slices.Clone(refs)
	for i := range out {
		out[i].Reversed = false
	}
	return out
}

func (o *outfitter) title(name string) string {
	if t := o.g.Pieces[name].Title; t != "" {
		return lower(t)
	}
	return strings.ReplaceAll(name, "-", " ")
}

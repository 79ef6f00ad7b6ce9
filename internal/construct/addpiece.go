package construct

import (
	"slices"
	"strconv"

	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// The edges of added pieces that are straight: the one that is sewn on, and
// round from it.
const (
	stripLower = "lower"
	stripRight = "end-right"
	stripUpper = "upper"
	stripLeft  = "end-left"
	tabFoot    = "foot"
	tabRight   = "side-right"
	tabTip     = "tip"
	tabLeft    = "side-left"
	facingFree = "free"
)

// add draws and joins the pieces that methods bring.
func (o *outfitter) add() {
	v := &o.g.View
	for _, f := range slices.Clone(v.Finishes) {
		if m, ok := o.methods.Find(f.Method); ok && m.Takes == method.Join && len(m.Pieces) > 0 && !o.outfitted(f.ID) {
			o.addToFinish(f, m)
		}
	}
	for i, p := range v.Parts {
		if m, ok := o.methods.Find(p.Method); ok && p.Piece == pending {
			v.Parts[i] = o.addTab(p, m)
		}
	}
}

// spec is one piece to be added, with the lengths that it is drawn by.
type spec struct {
	method.Added
	item          string
	title         string
	width, length float64 // mm
	place         finding.Place
}

func (o *outfitter) spec(id string, m method.Method, values map[string]unit.Length, place finding.Place) spec {
	it := item{method: m, values: values}
	a := m.Pieces[0]
	return spec{Added: a, item: id, title: a.Title, width: it.sum(a.Width), length: it.sum(a.Length), place: place}
}

func (s spec) cloths() []cloth.Role {
	if s.Interfaced {
		return []cloth.Role{s.Cloth, cloth.Interfacing}
	}
	return []cloth.Role{s.Cloth}
}

// use puts a drawn piece into the view.
func (o *outfitter) use(s spec, p piece.Piece, copies pattern.Copies, number int, fold string) {
	p.Place = s.place
	for i := range p.Edges {
		p.Edges[i].Place = s.place
	}
	o.g.Pieces[p.Name] = p
	if _, there := o.g.Use(p.Name); there {
		return
	}
	o.g.Order = append(o.g.Order, p.Name)
	o.g.View.Uses = append(o.g.View.Uses, pattern.Use{
		Piece: p.Name, Copies: copies, Number: number, FoldEdge: fold, Cloths: s.cloths(), Hidden: s.Hidden, For: s.item, Place: s.place,
	})
	o.made = append(o.made, lower(p.Title))
}

// finish adds a finish of the edges of an added piece, if its method is to be
// named.
func (o *outfitter) finish(s spec, id, title, name string, edges ...piece.Ref) {
	o.g.View.Finishes = append(o.g.View.Finishes, pattern.Finish{
		ID: s.item + "-" + id, Title: title, Edges: edges, Method: name, Place: s.place,
	})
}

// addToFinish makes a join of a finish: the edges in the order in which they
// lie round the garment, and the added piece.
func (o *outfitter) addToFinish(f pattern.Finish, m method.Method) {
	s := o.spec(f.ID, m, f.Values, f.Place)
	o.note(m, f.Place)
	o.g.View.Finishes = slices.DeleteFunc(o.g.View.Finishes, func(x pattern.Finish) bool { return x.ID == f.ID })
	for n, r := range o.runs(f.Edges) {
		one := s
		if n > 0 {
			one.item += "-" + strconv.Itoa(n+1)
		}
		b, ok := o.draw(one, r)
		if !ok {
			continue
		}
		o.g.View.Joins = append(o.g.View.Joins, pattern.Join{
			ID: one.item, Title: f.Title, Sides: [][]piece.Ref{r.refs(), b}, Each: r.each, Method: f.Method, Values: f.Values, Place: f.Place,
		})
	}
}

// draw draws the added piece of one run of edges and gives its side of the join.
func (o *outfitter) draw(s spec, r run) ([]piece.Ref, bool) {
	if s.Shape == method.Facing {
		return o.drawFacings(s, r)
	}
	return o.drawStrip(s, r)
}

// refuse tells why a piece cannot be drawn.
func (o *outfitter) refuse(s spec, why string) {
	o.found = append(o.found, notDrawn.At(s.place, s.title, s.item, why))
}

// name is a name that no piece has yet.
func (o *outfitter) name(want string) string {
	name := want
	for n := 2; ; n++ {
		if _, taken := o.g.Pieces[name]; !taken {
			return name
		}
		name = want + "-" + strconv.Itoa(n)
	}
}

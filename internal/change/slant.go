package change

import (
	"fmt"
	"slices"
	"strings"

	"gusset/internal/cloth"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

const (
	// beyondMouth is the least that the bag reaches beyond the mouth on either side,
	// in mm: the hand has to turn in it (common practice).
	beyondMouth = 20
	// bagTurn is the allowance round an added pocket bag, mm: 15 mm as on the
	// paper of the bags in the seams.
	bagTurn = 15
	mouth   = "mouth"
)

// slant is one slant pocket: the piece is cut off along the mouth, from the top
// to the side, and what is cut off is drawn on underneath to the back half of the
// bag.
type slant struct {
	split
	wide  float64 // mm from the corner along the top to the bag's inner edge
	low   float64 // mm along the side to the bag's foot
	bag   piece.Piece
	notch [2]string // on the top and on the side, where the bag ends
}

// slantPocket gives a pair of pieces slant pockets: it divides each along the
// mouth, draws the side piece and the front half of the bag, and joins them. What
// was cut along the top and the side is then cut along the side piece too. A patch
// pocket may give way to it.
func slantPocket(j *job) string {
	s := j.step
	p, side, ok := j.edgeAt(s.Edge)
	if !ok {
		return ""
	}
	if s.Other != "" && !j.giveWay(s.Other, p.Name) {
		return ""
	}
	p = j.g.Pieces[p.Name]
	d, why := j.slantOf(p, side.Name)
	if why == "" {
		why = d.part(j.partName(p.Name, "side"))
	}
	if why == "" {
		d.draw(s.ID, j)
		why = j.rewrite(d.split)
	}
	if why != "" {
		j.tell(noPocket, s.ID, why)
		return ""
	}
	u, _ := j.g.Use(p.Name)
	for _, q := range []piece.Piece{d.near, d.far, d.bag} {
		j.g.Pieces[q.Name] = q
	}
	j.useSlant(u, d)
	j.sewSlant(d)
	return fmt.Sprintf("slant pockets in the %s, %s in and %s down", strings.ToLower(p.Title), s.Where, s.By)
}

// slantOf finds the mouth on a piece; a reason when it cannot lie there.
func (j *job) slantOf(p piece.Piece, side string) (slant, string) {
	s := j.step
	u, used := j.g.Use(p.Name)
	_, forked := j.g.Pieces[p.Name+"@"+string(piece.Right)]
	a := p.Index(side)
	b := (a + 1) % len(p.Edges)
	d := slant{split: split{whole: p, a: a, b: b, atA: p.Edges[a].Curve.Length() - s.By.MM(), atB: s.Where.MM(), step: s.ID}, wide: s.Wide.MM()}
	d.low = d.atA - (s.Deep.MM() - s.By.MM())
	taken := slices.ContainsFunc(slices.Concat(idsOf(j.g.View.Joins, func(x pattern.Join) string { return x.ID }), idsOf(j.g.View.Closures, func(x pattern.Closure) string { return x.ID })),
		func(id string) bool { return id == s.ID || id == s.ID+"-"+mouth || id == s.ID+"-bag" })
	switch {
	case !used || u.Copies != pattern.Pair || forked:
		return d, p.Name + " is not cut as a pair of two alike"
	case taken:
		return d, "the view has something called " + s.ID
	case d.wide < d.atB+beyondMouth || d.wide > p.Edges[b].Curve.Length()-leastPart:
		return d, "the bag must reach further in than the mouth, and not across the whole of " + p.Edges[b].Name
	case s.Deep.MM() < s.By.MM()+beyondMouth || d.low < leastPart:
		return d, "the bag must reach further down than the mouth, and not to the end of " + side
	}
	return d, ""
}

// draw draws the side piece and the front half of the bag. Both hang from the top
// and the side as the piece has them; inside they run straight down and across.
func (d *slant) draw(id string, j *job) {
	out, top := d.whole.Edges[d.a], d.whole.Edges[d.b]
	low := out.Curve.Between(d.low, d.atA)
	in := top.Curve.Between(d.atB, d.wide)
	corner := geom.Pt{X: in.End().X, Y: low.Start().Y}
	edge := func(name string, c geom.Curve, printed float64) piece.Edge {
		return piece.Edge{Name: name, Curve: c, Printed: printed, Place: j.place(), Steps: []string{id}}
	}
	rest := []piece.Edge{
		edge("round", geom.Polyline(in.End(), corner), bagTurn), edge("foot", geom.Polyline(corner, low.Start()), bagTurn),
	}
	d.near.Edges[len(d.near.Edges)-1].Name = mouth
	d.far.Edges[len(d.far.Edges)-1].Name = mouth
	slope := d.near.Edges[len(d.near.Edges)-1].Curve
	d.far.Edges = append([]piece.Edge{edge("low", low, out.Printed), d.far.Edges[0], d.far.Edges[1], edge("top-in", in, top.Printed)}, rest...)
	d.far.Title = "Side piece of the " + strings.ToLower(d.whole.Title)
	d.bag = piece.Piece{Name: j.partName(d.whole.Name, "bag"), Title: "Slant pocket bag", Place: j.place()}
	d.bag.Edges = append([]piece.Edge{edge("low", low, out.Printed), edge(mouth, slope, bagTurn), edge("top-in", in, top.Printed)}, rest...)
	for _, q := range []*piece.Piece{&d.far, &d.bag} {
		q.Lines = append(withoutGrain(q.Lines), grainLine(q.Outline(0.05), grainOf(d.whole), d.whole))
	}
	d.bag = d.bag.Mirror() // its right side lies on the front's
	d.notch = [2]string{id + "-top", id + "-foot"}
	for k, at := range []geom.Pt{in.End(), low.Start()} {
		name := []string{top.Name, out.Name}[k]
		e, _ := d.near.Edge(name)
		where, _ := e.Curve.Nearest(at)
		d.near.Marks = append(d.near.Marks, piece.Mark{Kind: piece.Notch, Name: d.notch[k], Edge: name, At: where, P: e.Curve.At(where)})
	}
}

func withoutGrain(lines []piece.Line) []piece.Line {
	return slices.DeleteFunc(slices.Clone(lines), func(l piece.Line) bool { return l.Kind == piece.Grain })
}

// useSlant adds the new pieces to the view.
func (j *job) useSlant(u pattern.Use, d slant) {
	v := &j.g.View
	i := slices.IndexFunc(v.Uses, func(x pattern.Use) bool { return x.Piece == u.Piece })
	side, bag := u, u
	side.Piece, bag.Piece = d.far.Name, d.bag.Name
	bag.Cloths, bag.Hidden = []cloth.Role{j.step.Cloth}, true
	v.Uses = slices.Insert(slices.Clone(v.Uses), i+1, side, bag)
	if k := slices.Index(j.g.Order, u.Piece); k >= 0 {
		j.g.Order = slices.Insert(slices.Clone(j.g.Order), k+1, side.Piece, bag.Piece)
	}
}

// sewSlant adds the seams of the pocket, and what holds and tacks it.
func (j *job) sewSlant(d slant) {
	s, v := j.step, &j.g.View
	front, top, out := d.near.Name, d.whole.Edges[d.b].Name, d.whole.Edges[d.a].Name
	on := func(name, edge string) piece.Ref { return piece.Ref{Piece: name, Edge: edge} }
	inner := piece.Ref{Piece: front, Edge: top, From: mouth, To: d.notch[0]}
	lower := piece.Ref{Piece: front, Edge: out, From: d.notch[1], To: mouth}
	back := func(r piece.Ref) piece.Ref { r.Reversed = true; return r }
	for _, x := range []struct {
		id, title, method string
		a, b              []piece.Ref
	}{
		{mouth, "slant pocket mouth", s.Method, []piece.Ref{on(front, mouth)}, []piece.Ref{on(d.bag.Name, mouth)}},
		{"bag", "slant pocket bag", "pocket-bag", []piece.Ref{on(d.far.Name, "round"), on(d.far.Name, "foot")}, []piece.Ref{on(d.bag.Name, "round"), on(d.bag.Name, "foot")}},
		{"bag-top", "top of the bag", "caught", []piece.Ref{inner}, []piece.Ref{on(d.bag.Name, "top-in")}},
		{"side-top", "top of the side piece", "caught", []piece.Ref{inner}, []piece.Ref{back(on(d.far.Name, "top-in"))}},
		{"bag-side", "side of the bag", "caught", []piece.Ref{lower}, []piece.Ref{on(d.bag.Name, "low")}},
		{"side-low", "side of the side piece", "caught", []piece.Ref{lower}, []piece.Ref{back(on(d.far.Name, "low"))}},
	} {
		v.Joins = append(v.Joins, pattern.Join{
			ID: s.ID + "-" + x.id, Title: x.title, Each: true, Method: x.method, Place: j.place(), Sides: [][]piece.Ref{x.a, x.b},
		})
	}
	v.Closures = append(slices.Clone(v.Closures), pattern.Closure{
		ID: s.ID, Title: "slant pocket", Method: "slant-pocket", Joins: []string{s.ID + "-" + mouth}, Place: j.place(),
		Along: []piece.Ref{on(front, mouth).On(piece.Left), on(front, mouth).On(piece.Right)},
	})
}

// giveWay takes out a pocket that is set on a piece, with its place and the
// finishes of its edges.
func (j *job) giveWay(id, from string) bool {
	v := &j.g.View
	i := slices.IndexFunc(v.Joins, func(x pattern.Join) bool { return x.ID == id })
	set := i >= 0 && len(v.Joins[i].Sides) == 2 && len(v.Joins[i].Sides[1]) == 1
	if !set || !v.Joins[i].Sides[1][0].Inside || v.Joins[i].Sides[1][0].Piece != from {
		j.tell(noPocket, j.step.ID, id+" is no pocket set on "+from)
		return false
	}
	pocket, place := v.Joins[i].Sides[0][0].Piece, v.Joins[i].Sides[1][0].Edge
	j.drop(id)
	for _, f := range slices.Clone(v.Finishes) {
		if slices.ContainsFunc(f.Edges, func(r piece.Ref) bool { return r.Piece == pocket }) {
			v.Finishes = slices.DeleteFunc(slices.Clone(v.Finishes), func(x pattern.Finish) bool { return x.ID == f.ID })
			j.drop(f.ID)
		}
	}
	v.Uses = slices.DeleteFunc(slices.Clone(v.Uses), func(u pattern.Use) bool { return u.Piece == pocket })
	j.g.Order = slices.DeleteFunc(slices.Clone(j.g.Order), func(name string) bool { return name == pocket })
	delete(j.g.Pieces, pocket)
	p := j.g.Pieces[from].Clone()
	p.Lines = slices.DeleteFunc(p.Lines, func(l piece.Line) bool { return l.Name == place && l.Kind == piece.Placement })
	j.g.Pieces[from] = p
	return true
}

// partName is a name for a part of a piece that no piece has yet.
func (j *job) partName(of, part string) string {
	name := of + "-" + part
	for n := 2; ; n++ {
		if _, taken := j.g.Pieces[name]; !taken {
			return name
		}
		name = fmt.Sprintf("%s-%s-%d", of, part, n)
	}
}

package construct

import (
	"math"
	"strconv"

	"gusset/internal/geom"
	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/seam"
)

// drawStrip draws a straight piece as long as the edges it is sewn to, and
// notches it where their seams fall. Round a ring its two ends are sewn to each
// other, else they are finished.
func (o *outfitter) drawStrip(s spec, r run) ([]piece.Ref, bool) {
	if s.width < 1 {
		o.refuse(s, "it would have no width")
		return nil, false
	}
	l := seam.ChainLength(r.chain)
	p := rectangle(o.name(s.item+"-"+s.ID), s.title, l, s.width, [4]string{stripLower, stripRight, stripUpper, stripLeft})
	var walked float64
	for n, st := range r.chain[:len(r.chain)-1] {
		walked += st.Length()
		at := l - walked // the strip's edge runs against the edges it is sewn to
		p.Marks = append(p.Marks, piece.Mark{
			Kind: piece.Notch, Name: "seam-" + strconv.Itoa(n+1), Edge: stripLower, At: at, P: geom.Pt{X: at}, Place: s.place,
		})
	}
	p = upright(p, s.Grain)
	copies := pattern.Single
	if r.each {
		copies = pattern.Pair
	}
	o.use(s, p, copies, 1, "")
	edge := func(name string) piece.Ref { return piece.Ref{Piece: p.Name, Edge: name} }
	o.finish(s, "free", "free edge of the "+lower(s.title), s.Free, edge(stripUpper))
	if r.ring {
		o.g.View.Joins = append(o.g.View.Joins, pattern.Join{
			ID: s.item + "-ends", Title: "ends of the " + lower(s.title), Each: true, Method: s.Ends, Place: s.place,
			Sides: [][]piece.Ref{{edge(stripRight)}, {edge(stripLeft)}},
		})
	} else {
		o.finish(s, "ends", "ends of the "+lower(s.title), s.Open, edge(stripRight), edge(stripLeft))
	}
	return []piece.Ref{edge(stripLower)}, true
}

// addTab draws a tab in the place of a part's own piece: two plies for each.
func (o *outfitter) addTab(p pattern.Part, m method.Method) pattern.Part {
	s := o.spec(p.ID, m, p.Values, p.Place)
	if s.width < 1 || s.length < 1 {
		o.refuse(s, "it would have no size")
		return p
	}
	t := rectangle(o.name(s.item+"-"+s.ID), s.title, s.width, s.length, [4]string{tabFoot, tabRight, tabTip, tabLeft})
	if s.Grain == method.AlongGrain {
		t.Lines[0].Curve = geom.Polyline(geom.Pt{X: s.width / 2, Y: s.length / 4}, geom.Pt{X: s.width / 2, Y: s.length * 3 / 4})
	}
	o.use(s, t, pattern.Pair, max(p.Count, 1), "")
	edge := func(name string) piece.Ref { return piece.Ref{Piece: t.Name, Edge: name} }
	o.finish(s, "edges", "edges of the "+lower(s.title), s.Free, edge(tabRight), edge(tabTip), edge(tabLeft))
	o.finish(s, "foot", "caught end of the "+lower(s.title), s.Open, edge(tabFoot))
	p.Piece = t.Name
	p.Along = []piece.Ref{edge(tabRight).On(piece.Left), edge(tabTip).On(piece.Left), edge(tabLeft).On(piece.Left)}
	return p
}

// rectangle draws a straight piece from its lower left corner, its warp running
// along its first edge.
func rectangle(name, title string, long, wide float64, edges [4]string) piece.Piece {
	c := []geom.Pt{{}, {X: long}, {X: long, Y: wide}, {Y: wide}}
	p := piece.Piece{Name: name, Title: title}
	for i, e := range edges {
		p.Edges = append(p.Edges, piece.Edge{Name: e, Curve: geom.Polyline(c[i], c[(i+1)%4])})
	}
	p.Lines = []piece.Line{{Kind: piece.Grain, Name: "grain",
		Curve: geom.Polyline(geom.Pt{X: long / 4, Y: wide / 2}, geom.Pt{X: long * 3 / 4, Y: wide / 2})}}
	return p
}

// upright turns a strip so that its grain line, at the angle that is asked for,
// points straight up, as all pieces are drawn.
func upright(p piece.Piece, g method.Grain) piece.Piece {
	angle := map[method.Grain]float64{method.AlongGrain: math.Pi / 2, method.CrossGrain: 0, method.BiasGrain: math.Pi / 4}[g]
	p = p.Transform(geom.Turn(angle, geom.Pt{}))
	mid := p.Lines[0].Curve.At(p.Lines[0].Curve.Length() / 2)
	half := math.Min(p.Edges[0].Curve.Length(), p.Edges[1].Curve.Length()) / 3
	if g == method.AlongGrain {
		half = p.Edges[0].Curve.Length() / 4
	}
	p.Lines[0].Curve = geom.Polyline(mid.Sub(geom.Pt{Y: half}), mid.Add(geom.Pt{Y: half}))
	return p
}

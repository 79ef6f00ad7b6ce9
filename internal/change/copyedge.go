package change

import (
	"fmt"
	"math"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// exactFit is how much a copied edge's span may differ from the place it goes
// to and still be laid between the same corners, in mm.
const exactFit = 0.5

// copyEdge gives an edge the shape of another piece's edge. The copy is turned
// so that its ends lie on the line between the replaced edge's corners, bulging
// to the same side. Where it is longer or shorter than its place the far corner
// moves along that line and the next edge follows, less and less along its
// length.
func copyEdge(j *job) string {
	from, src, ok1 := j.edgeAt(j.step.From)
	to, dst, ok2 := j.edgeAt(j.step.Edge)
	if !ok1 || !ok2 {
		return ""
	}
	p := to
	i := p.Index(dst.Name)
	shape := src.Curve
	a, b := dst.Curve.Start(), dst.Curve.End()
	chord := shape.End().Sub(shape.Start())
	want := b.Sub(a)
	turn := geom.Turn(want.Angle()-chord.Angle(), shape.Start()).Then(geom.Shift(a.Sub(shape.Start())))
	laid := shape.Transform(turn)
	if miss := laid.End().Dist(b); miss <= exactFit {
		laid = stretchTo(laid, b)
	} else {
		j.followCorner(&p, i, laid.End(), want.Len(), chord.Len())
	}
	was := p.Edges[i].Curve.Length()
	p.Edges[i].Curve = laid
	j.mark(&p.Edges[i])
	for k := range p.Marks {
		if m := &p.Marks[k]; m.Kind == piece.Notch && m.Edge == dst.Name {
			m.At *= laid.Length() / was
			m.P = laid.At(m.At)
		}
	}
	j.g.Pieces[p.Name] = p
	return fmt.Sprintf("%s of %s in the shape of %s of %s", dst.Name, to.Name, src.Name, from.Name)
}

func (j *job) edgeAt(text string) (piece.Piece, piece.Edge, bool) {
	r, err := piece.ParseRef(text)
	if err != nil {
		j.tell(noEdge, err.Error())
		return piece.Piece{}, piece.Edge{}, false
	}
	p, ok := j.g.Pieces[r.Piece]
	if !ok {
		j.tell(noEdge, "this view has no piece "+r.Piece)
		return piece.Piece{}, piece.Edge{}, false
	}
	e, ok := p.Edge(r.Edge)
	if !ok {
		j.tell(noEdge, r.Piece+" has no edge "+r.Edge)
	}
	return p.Clone(), e, ok
}

// stretchTo brings the end of a curve to b by a share that grows along it.
func stretchTo(c geom.Curve, b geom.Pt) geom.Curve {
	total := c.Length()
	miss := b.Sub(c.End())
	return c.MapPoints(func(q geom.Pt, at float64) geom.Pt { return q.Add(miss.Mul(at / total)) }, fitTol)
}

// followCorner moves the start of the edge after i to the new corner, and the
// rest of it less and less.
func (j *job) followCorner(p *piece.Piece, i int, corner geom.Pt, had, has float64) {
	n := (i + 1) % len(p.Edges)
	e := &p.Edges[n]
	total := e.Curve.Length()
	move := corner.Sub(e.Curve.Start())
	e.Curve = e.Curve.MapPoints(func(q geom.Pt, at float64) geom.Pt { return q.Add(move.Mul(1 - at/total)) }, fitTol)
	j.mark(e)
	for k := range p.Marks {
		if m := &p.Marks[k]; m.Kind == piece.Notch && m.Edge == e.Name {
			m.At *= e.Curve.Length() / total
			m.P = e.Curve.At(m.At)
		}
	}
	word := "longer"
	if has < had {
		word = "shorter"
	}
	j.tell(edgeLonger, p.Name+":"+p.Edges[i].Name, j.say(math.Abs(has-had)), word)
}

package change

import (
	"slices"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// fitTol is how closely a displaced curve is refitted, in mm.
const fitTol = 0.01

// field moves a point of a piece.
type field func(geom.Pt) geom.Pt

// moveEdge displaces one edge and the notches on it. The notches keep to the
// cloth: each goes where its own point goes.
func (j *job) moveEdge(p *piece.Piece, i int, f field) {
	e := &p.Edges[i]
	e.Curve = e.Curve.MapPoints(func(q geom.Pt, _ float64) geom.Pt { return f(q) }, fitTol)
	j.mark(e)
	for k := range p.Marks {
		m := &p.Marks[k]
		if m.Kind == piece.Notch && m.Edge == e.Name {
			m.At, _ = e.Curve.Nearest(f(m.P))
			m.P = e.Curve.At(m.At)
		}
	}
}

// mark notes on the edge that this step has moved it.
func (j *job) mark(e *piece.Edge) {
	if !slices.Contains(e.Steps, j.step.ID) {
		e.Steps = append(e.Steps, j.step.ID)
	}
}

// moveAll displaces the whole piece; the grain line, which only tells a
// direction, is moved by its ends and stays straight, and a line on which
// another piece is set goes along without being pulled out of shape.
func (j *job) moveAll(p *piece.Piece, f field) {
	for i := range p.Edges {
		j.moveEdge(p, i, f)
	}
	for i := range p.Lines {
		l := &p.Lines[i]
		if j.isSet(p.Name, l.Name) {
			lo, hi := l.Curve.Bounds()
			mid := lo.Lerp(hi, 0.5)
			l.Curve = l.Curve.Transform(geom.Shift(f(mid).Sub(mid)))
			continue
		}
		l.Curve = l.Curve.MapPoints(func(q geom.Pt, _ float64) geom.Pt { return f(q) }, fitTol)
	}
	for i := range p.Marks {
		if p.Marks[i].Kind != piece.Notch {
			p.Marks[i].P = f(p.Marks[i].P)
		}
	}
}

// isSet reports whether a join sets another piece on a line inside this one.
func (j *job) isSet(name, line string) bool {
	for _, x := range j.g.View.Joins {
		for _, side := range x.Sides {
			for _, r := range side {
				if r.Inside && r.Piece == name && r.Edge == line {
					return len(x.Sides) == 2 && !onePieceRefs(x.Sides)
				}
			}
		}
	}
	return false
}

// onePieceRefs reports whether a join sews a piece to itself: a pleat.
func onePieceRefs(sides [][]piece.Ref) bool {
	for _, side := range sides {
		for _, r := range side {
			if r.Piece != sides[0][0].Piece {
				return false
			}
		}
	}
	return true
}

// setStraight lays an edge as a straight line between its neighbours' ends.
func (j *job) setStraight(p *piece.Piece, i int) {
	n := len(p.Edges)
	from := p.Edges[(i+n-1)%n].Curve.End()
	to := p.Edges[(i+1)%n].Curve.Start()
	was := p.Edges[i].Curve.Length()
	p.Edges[i].Curve = geom.Polyline(from, to)
	j.mark(&p.Edges[i])
	for k := range p.Marks {
		m := &p.Marks[k]
		if m.Kind == piece.Notch && m.Edge == p.Edges[i].Name {
			m.At *= p.Edges[i].Curve.Length() / was
			m.P = p.Edges[i].Curve.At(m.At)
		}
	}
}

// height is the mean y of a curve's ends: where a level line or a straight hem
// lies.
func height(c geom.Curve) float64 { return (c.Start().Y + c.End().Y) / 2 }

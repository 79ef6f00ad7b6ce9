package change

import (
	"gusset/internal/geom"
	"gusset/internal/piece"
)

// shiftCorners moves the corners of a piece, corner i being the start of edge i,
// and every edge between them by a shift that runs evenly from the one corner's
// to the other's, so that straight edges stay straight. Notches go with their
// edge. With inside set, what lies inside goes along.
func (j *job) shiftCorners(p *piece.Piece, by []geom.Pt, inside bool) {
	was := *p
	*p = p.Clone()
	n := len(p.Edges)
	for i := range p.Edges {
		a, b := by[i], by[(i+1)%n]
		if a.Len() < 1e-9 && b.Len() < 1e-9 {
			continue
		}
		l := was.Edges[i].Curve.Length()
		j.mapEdge(p, i, func(q geom.Pt, at float64) geom.Pt { return q.Add(a.Lerp(b, at/l)) })
	}
	if inside {
		carryInside(p, was, by)
	}
}

// mapEdge moves the points of an edge by what f makes of a point and its place
// along the edge, and its notches with it.
func (j *job) mapEdge(p *piece.Piece, i int, f func(q geom.Pt, at float64) geom.Pt) {
	j.mapSpots(p, i, func(s geom.Spot) geom.Pt { return f(s.P, s.At) }, fitTol)
}

// mapSpots is mapEdge, fitted within tol mm, where the direction of the edge counts.
func (j *job) mapSpots(p *piece.Piece, i int, f func(geom.Spot) geom.Pt, tol float64) {
	e := &p.Edges[i]
	was := e.Curve
	e.Curve = was.MapSpots(f, tol)
	j.mark(e)
	for k := range p.Marks {
		m := &p.Marks[k]
		if m.Kind == piece.Notch && m.Edge == e.Name {
			s := was.Spot(m.At)
			s.P = m.P
			m.At, _ = e.Curve.Nearest(f(s))
			m.P = e.Curve.At(m.At)
		}
	}
}

// carryInside takes what lies inside along with corners that have moved. The
// grain only goes along: it keeps its direction and its length.
func carryInside(p *piece.Piece, was piece.Piece, by []geom.Pt) {
	var ring, shift []geom.Pt
	for i, e := range was.Edges {
		pts := e.Curve.Flatten(0.5)
		l := e.Curve.Length()
		var at float64
		for k, q := range pts[:len(pts)-1] {
			if k > 0 {
				at += q.Dist(pts[k-1])
			}
			ring = append(ring, q)
			shift = append(shift, by[i].Lerp(by[(i+1)%len(by)], at/l))
		}
	}
	along := func(q geom.Pt) geom.Pt { return q.Add(geom.MeanValue(ring, shift, q)) }
	for i, l := range p.Lines {
		if l.Kind == piece.Grain {
			mid := l.Curve.At(l.Curve.Length() / 2)
			p.Lines[i].Curve = l.Curve.Transform(geom.Shift(along(mid).Sub(mid)))
			continue
		}
		p.Lines[i].Curve = l.Curve.MapPoints(func(q geom.Pt, _ float64) geom.Pt { return along(q) }, fitTol)
	}
	for i, m := range p.Marks {
		if m.Kind != piece.Notch {
			p.Marks[i].P = along(m.P)
		}
	}
}

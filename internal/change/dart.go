package change

import (
	"math"
	"slices"
	"strings"

	"gusset/internal/docket"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// dart is a dart of a piece: two neighbouring edges, its legs, that meet in its
// point and are sewn to each other by a join. In outline order the first runs in
// to the point and the second out from it.
type dart struct {
	join    pattern.Join
	piece   piece.Piece
	in, out int
}

// dartOf finds the dart that a join sews.
func (j *job) dartOf(id string) (dart, bool) {
	var darts []string
	for _, x := range j.g.View.Joins {
		d, ok := dartIn(j.g, x)
		if ok && x.ID == id {
			if _, forked := j.g.Pieces[d.piece.Name+"@"+string(piece.Right)]; forked {
				j.tell(handsDiffer, d.piece.Name)
				return dart{}, false
			}
			return d, true
		}
		if ok {
			darts = append(darts, x.ID)
		}
	}
	j.tell(noDart, id, strings.Join(darts, ", "))
	return dart{}, false
}

func dartIn(g pattern.Garment, x pattern.Join) (dart, bool) {
	if len(x.Sides) != 2 || len(x.Sides[0]) != 1 || len(x.Sides[1]) != 1 {
		return dart{}, false
	}
	a, b := x.Sides[0][0], x.Sides[1][0]
	p, ok := g.Pieces[a.Piece]
	if !ok || a.Piece != b.Piece || a.Inside || b.Inside || a.From != "" || b.From != "" || a.Copy != b.Copy {
		return dart{}, false
	}
	i, k := p.Index(a.Edge), p.Index(b.Edge)
	n := len(p.Edges)
	if i < 0 || k < 0 || n < 4 {
		return dart{}, false
	}
	if (k+1)%n == i {
		i, k = k, i
	}
	if (i+1)%n != k || a.Copy != piece.Both {
		return dart{}, false
	}
	d := dart{join: x, piece: p.Clone(), in: i, out: k}
	// The legs turn back on each other in the point, and take cloth out.
	return d, d.turn() < 0 && d.turn() > -math.Pi/2
}

// point is where the legs meet; from and to are their ends at the edge that the
// dart opens to, in outline order.
func (d dart) point() geom.Pt { return d.piece.Edges[d.in].Curve.End() }
func (d dart) from() geom.Pt  { return d.piece.Edges[d.in].Curve.Start() }
func (d dart) to() geom.Pt    { return d.piece.Edges[d.out].Curve.End() }

// turn is the angle by which what follows the dart turns about its point to
// close it, in radians: clockwise, so below zero.
func (d dart) turn() float64 { return turnFrom(d.point(), d.to(), d.from()) }

// turnFrom is the angle about c that takes the direction to a to that to b.
func turnFrom(c, a, b geom.Pt) float64 {
	u, v := a.Sub(c), b.Sub(c)
	return math.Atan2(u.Cross(v), u.Dot(v))
}

// chain is a run of edges of an outline with the notches on them.
type chain []piece.Edge

// between lists the edges of a piece from edge i up to, not with, edge k.
func between(p piece.Piece, i, k int) chain {
	var out chain
	for n := len(p.Edges); i%n != k%n; i++ {
		out = append(out, p.Edges[i%n])
	}
	return out
}

// turned is the chain turned about c, marked as moved by the step.
func (j *job) turned(edges chain, m geom.Affine) chain {
	out := make(chain, len(edges))
	for i, e := range edges {
		e.Curve = e.Curve.Transform(m)
		j.mark(&e)
		out[i] = e
	}
	return out
}

// ring is the outline of a chain closed straight over a point.
func (c chain) ring(over ...geom.Pt) []geom.Pt {
	var pts []geom.Pt
	for _, e := range c {
		pts = append(pts, e.Curve.Flatten(0.05)...)
	}
	return append(pts, over...)
}

// has reports whether a chain has an edge of that name.
func (c chain) has(name string) bool {
	return slices.ContainsFunc(c, func(e piece.Edge) bool { return e.Name == name })
}

// staying tells which of two parts of a piece stays where it is when they are
// turned against each other: the one with the fold, else the larger one. True
// for the first.
func (j *job) staying(name string, first, second chain, over ...geom.Pt) bool {
	if fold := foldEdge(j.g, name); fold != "" {
		return first.has(fold)
	}
	return math.Abs(geom.Area(first.ring(over...))) >= math.Abs(geom.Area(second.ring(over...)))
}

// assemble makes a piece of edges; every notch stays on its edge where the edge
// went, and what lies inside the part that has turned goes with it. Levels stay
// level and the grain stays the grain.
func (j *job) assemble(was piece.Piece, edges chain, moved []geom.Pt, by geom.Affine) piece.Piece {
	p := was.Clone()
	p.Edges = edges
	for i := range p.Marks {
		m := &p.Marks[i]
		if m.Kind != piece.Notch {
			if geom.Inside(moved, m.P) {
				m.P = by.Apply(m.P)
			}
			continue
		}
		if e, ok := p.Edge(m.Edge); ok {
			m.P = e.Curve.At(m.At)
		}
	}
	for i, l := range p.Lines {
		switch l.Kind {
		case piece.Level, piece.Lengthen, piece.Grain:
			continue
		}
		in, of := 0, 0
		for _, q := range l.Curve.Flatten(1) {
			of++
			if geom.Inside(moved, q) {
				in++
			}
		}
		switch {
		case in == of:
			p.Lines[i].Curve = l.Curve.Transform(by)
		case in > 0:
			j.tell(placementMoved, l.Name, p.Name)
		}
	}
	j.keepGrainInside(&p)
	return p
}

// keepGrainInside draws the grain anew where the old line no longer lies on the
// piece.
func (j *job) keepGrainInside(p *piece.Piece) {
	ring := p.Outline(0.05)
	for i, l := range p.Lines {
		if l.Kind == piece.Grain && (!geom.Inside(ring, l.Curve.Start()) || !geom.Inside(ring, l.Curve.End())) {
			p.Lines[i].Curve = grainLine(ring, grainOf(*p), *p).Curve
		}
	}
}

// cutAt cuts an edge of a piece in two at a distance along it. The notches of
// the piece go with their parts. An end of the edge cuts nothing.
type cutEdge struct {
	before, after chain // the parts, one of them empty at an end
	parts         []part
}

// atEnd is how near the end of an edge, in mm, counts as its end.
const atEnd = 0.01

// cut cuts edge k of p at a distance along it; the second part gets a name of
// its own. p's notches are put on the parts.
func cut(p *piece.Piece, k int, at float64) cutEdge {
	e := p.Edges[k]
	l := e.Curve.Length()
	switch {
	case at < atEnd:
		return cutEdge{after: chain{e}, parts: []part{{e.Name, 0, l}}}
	case at > l-atEnd:
		return cutEdge{before: chain{e}, parts: []part{{e.Name, 0, l}}}
	}
	a, b := e, e
	a.Curve, b.Curve = e.Curve.Split(at)
	a.Steps, b.Steps = slices.Clone(e.Steps), slices.Clone(e.Steps)
	b.Name = freeName(*p, e.Name)
	for i := range p.Marks {
		if m := &p.Marks[i]; m.Kind == piece.Notch && m.Edge == e.Name && m.At > at+atEnd {
			m.Edge, m.At = b.Name, m.At-at
		}
	}
	return cutEdge{chain{a}, chain{b}, []part{{a.Name, 0, at}, {b.Name, at, l}}}
}

// freeName is a name after the given one that no edge of the piece has.
func freeName(p piece.Piece, name string) string {
	for n := 2; ; n++ {
		next := name + "-" + itoa(n)
		if p.Index(next) < 0 {
			return next
		}
	}
}

// spotOn finds where on an edge a step means: a level, a notch or the corner
// with a neighbour by name, the middle, or a distance from the corner with the
// neighbour named, from the edge's beginning where none is.
func (j *job) spotOn(s docket.Spot) (piece.Piece, int, float64, bool) {
	p, e, ok := j.edgeAt(s.Edge)
	if !ok {
		return p, 0, 0, false
	}
	i := p.Index(e.Name)
	l := e.Curve.Length()
	switch {
	case s.At == pattern.Middle:
		return p, i, l / 2, true
	case s.At != "":
		if at, err := p.Corner(e.Name, s.At); err == nil {
			return p, i, at, true
		}
		if line, ok := p.Line(piece.Level, s.At); ok {
			y := height(line.Curve)
			if x := geom.Crossings(e.Curve, geom.Polyline(geom.Pt{X: -farOff, Y: y}, geom.Pt{X: farOff, Y: y})); len(x) > 0 {
				return p, i, x[0].A, true
			}
		}
		j.tell(noSpot, s.Edge, s.At)
		return p, i, 0, false
	case s.Along.MM() > l:
		j.tell(noSpot, s.Edge, "place "+s.Along.String()+" from its end")
		return p, i, 0, false
	}
	if s.From == "" || s.From == p.Before(i).Name {
		return p, i, s.Along.MM(), true
	}
	if s.From == p.After(i).Name {
		return p, i, l - s.Along.MM(), true
	}
	j.tell(noSpot, s.Edge, "corner with "+s.From)
	return p, i, 0, false
}

// clearLine reports whether the straight line between two points of an outline
// runs inside it all the way.
func clearLine(p piece.Piece, a, b geom.Pt) bool {
	ring := p.Outline(0.05)
	l := a.Dist(b)
	for k := 1; k < 40; k++ {
		if q := a.Lerp(b, float64(k)/40); !geom.Inside(ring, q) && q.Dist(a) > 1 && q.Dist(b) > 1 {
			return false
		}
	}
	return l > 1
}

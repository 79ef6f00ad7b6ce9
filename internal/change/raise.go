package change

import (
	"fmt"
	"slices"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// raise moves an edge up or down the grain on every piece that has an edge of
// that name: a waist higher at the figure, a neck lower. An edge that darts cut up
// moves all along: waist is waist-side and waist-centre too. The edge keeps its
// shape; the edges beside it are cut off there or run on to it. A facing is not
// moved by its edge, which would make it deeper: it is traced anew and stays as deep
// as it was.
func raise(j *job) string {
	by := j.step.By.MM()
	done := false
	for _, name := range j.names() {
		p := j.g.Pieces[name].Clone()
		for i, e := range p.Edges {
			if !j.raised(e.Name) || !levelled(p) && j.facesRaised(p.Name, e.Name) {
				continue
			}
			if done = true; !j.raiseEdge(name, &p, i, by) {
				return ""
			}
		}
		j.g.Pieces[name] = p
	}
	if !done {
		j.tell(noEdge, "no piece of this view has an edge called "+j.step.Edge)
		return ""
	}
	word := "raised"
	if by < 0 {
		word = "lowered"
	}
	return fmt.Sprintf("%s %s by %s", j.step.Edge, word, strings.TrimLeft(j.step.By.String(), "+-"))
}

// raised reports whether an edge of that name is to be moved.
func (j *job) raised(edge string) bool {
	return edge == j.step.Edge || strings.HasPrefix(edge, j.step.Edge+"-")
}

// facesRaised reports whether an edge is sewn to one that is moved, of a piece
// that carries the figure.
func (j *job) facesRaised(name, edge string) bool {
	for _, x := range j.g.View.Joins {
		on := slices.IndexFunc(x.Sides, func(side []piece.Ref) bool {
			return slices.ContainsFunc(side, func(r piece.Ref) bool { return r.Piece == name && r.Edge == edge && !r.Inside })
		})
		for k, side := range x.Sides {
			if on >= 0 && k != on && slices.ContainsFunc(side, func(r piece.Ref) bool {
				return !r.Inside && j.raised(r.Edge) && levelled(j.g.Pieces[r.Piece])
			}) {
				return true
			}
		}
	}
	return false
}

// raiseEdge moves one edge of a piece.
func (j *job) raiseEdge(name string, p *piece.Piece, i int, by float64) bool {
	n := len(p.Edges)
	line := p.Edges[i].Curve.Transform(geom.Shift(geom.Pt{Y: by}))
	before, after := (i+n-1)%n, (i+1)%n
	down, ok1 := endAt(p.Edges[before].Curve, line)
	up, ok2 := endAt(p.Edges[after].Curve.Reverse(), line)
	if !ok1 || !ok2 {
		j.tell(edgePast, p.Edges[i].Name, name, p.Edges[before].Name, p.Edges[after].Name)
		return false
	}
	laid, ok := betweenEnds(line, down.End(), up.End())
	if !ok {
		j.tell(noCorner, name, p.Edges[before].Name)
		return false
	}
	grown := up.Length() - p.Edges[after].Curve.Length()
	shift, _ := line.Extend(farOff, farOff).Nearest(down.End())
	p.Edges[before].Curve, p.Edges[i].Curve, p.Edges[after].Curve = down, laid, up.Reverse()
	for _, k := range []int{before, i, after} {
		j.mark(&p.Edges[k])
	}
	j.keepNotches(p, before, 0)
	j.keepNotches(p, i, farOff-shift)
	j.keepNotches(p, after, grown)
	return true
}

// betweenEnds is the part of a line, run on straight at both ends, that reaches
// from a to b.
func betweenEnds(line geom.Curve, a, b geom.Pt) (geom.Curve, bool) {
	long := line.Extend(farOff, farOff)
	from, missA := long.Nearest(a)
	to, missB := long.Nearest(b)
	if missA > 0.01 || missB > 0.01 || to-from < 1 {
		return nil, false
	}
	part := long.Between(from, to)
	part[0].P[0], part[len(part)-1].P[3] = a, b
	return part, true
}

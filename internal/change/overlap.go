package change

import (
	"fmt"
	"slices"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// overlap makes the extension of a button front wider or narrower: on every
// piece that has an edge of the name, front and facing alike, the edge moves
// out square to itself and the edges beside it run on to it. The centre front
// and the buttons on it stay where they are.
func overlap(j *job) string {
	by := j.step.By.MM()
	var moved []string
	for _, name := range j.names() {
		p := j.g.Pieces[name].Clone()
		i := p.Index(j.step.Edge)
		if i < 0 {
			continue
		}
		c := p.Edges[i].Curve
		if !c.Straight(0.05) {
			j.tell(bentEdge, j.step.Edge, name)
			return ""
		}
		n := len(p.Edges)
		before, after := (i+n-1)%n, (i+1)%n
		line := c.Transform(geom.Shift(c.StartTangent().Left().Mul(-by)))
		one, ok1 := endAt(p.Edges[before].Curve, line)
		two, ok2 := endAt(p.Edges[after].Curve.Reverse(), line)
		if !ok1 || !ok2 {
			j.tell(edgePast, j.step.Edge, name, p.Edges[before].Name, p.Edges[after].Name)
			return ""
		}
		grown := two.Length() - p.Edges[after].Curve.Length()
		start, _ := line.Extend(farOff, farOff).Nearest(one.End())
		p.Edges[before].Curve, p.Edges[after].Curve = one, two.Reverse()
		p.Edges[i].Curve = geom.Polyline(one.End(), two.End())
		for _, k := range []int{before, i, after} {
			j.mark(&p.Edges[k])
		}
		j.keepNotches(&p, before, 0)
		j.keepNotches(&p, i, farOff-start)
		j.keepNotches(&p, after, grown)
		levelsTo(&p, c, geom.Shift(c.StartTangent().Left().Mul(-by)))
		j.g.Pieces[name] = p
		moved = append(moved, name)
	}
	if len(moved) == 0 {
		j.tell(noEdge, "no piece of this view has an edge called "+j.step.Edge)
		return ""
	}
	j.lessGirth(moved, by)
	words := map[bool]string{true: "wider", false: "narrower"}
	return fmt.Sprintf("overlap %s by %s at the %s", words[by > 0], strings.TrimLeft(j.step.By.String(), "+-"), j.step.Edge)
}

// levelsTo carries the ends of levels that reach an edge along with it.
func levelsTo(p *piece.Piece, edge geom.Curve, by geom.Affine) {
	for i, l := range p.Lines {
		if l.Kind != piece.Level || !l.Curve.Straight(levelStraight) {
			continue
		}
		ends := [2]geom.Pt{l.Curve.Start(), l.Curve.End()}
		for k, q := range ends {
			if _, off := edge.Nearest(q); off < levelReach {
				ends[k] = by.Apply(q)
			}
		}
		p.Lines[i].Curve = geom.Polyline(ends[0], ends[1])
	}
}

const (
	levelStraight = 0.05 // mm: how straight a level is that is carried along
	levelReach    = 0.5  // mm: how near to an edge it ends to reach it
)

// lessGirth takes the wider overlap off the girths that are measured with an
// overlap: it is twice the amount, once for each hand.
func (j *job) lessGirth(moved []string, by float64) {
	v := &j.g.View
	v.Girths = slices.Clone(v.Girths)
	for i, g := range v.Girths {
		if g.Less.IsZero() || !slices.ContainsFunc(slices.Concat(g.Pieces, g.Edges), func(r piece.Ref) bool { return slices.Contains(moved, r.Piece) }) {
			continue
		}
		v.Girths[i].Less = unit.MM(g.Less.MM() + 2*by)
	}
}

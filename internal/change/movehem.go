package change

import (
	"fmt"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// moveHem shifts the hem line along the grain and cuts the sides off at it, or
// runs them on straight to it: the leg keeps its slope, so its width at the hem
// changes with it.
func moveHem(j *job) string {
	by := j.step.By.MM()
	ring := j.hemRing(j.step.Edge)
	if j.found.Stops() > 0 {
		return ""
	}
	for _, h := range ring {
		p := h.p.Clone()
		n := len(p.Edges)
		hem := p.Edges[h.i].Curve.Transform(geom.Shift(geom.Pt{Y: -by}))
		before, after := (h.i+n-1)%n, (h.i+1)%n
		down, ok1 := endAt(p.Edges[before].Curve, hem)
		up, ok2 := endAt(p.Edges[after].Curve.Reverse(), hem)
		if !ok1 || !ok2 {
			j.tell(hemTooHigh, h.name, p.Edges[before].Name+" or "+p.Edges[after].Name)
			return ""
		}
		grown := up.Length() - p.Edges[after].Curve.Length()
		p.Edges[before].Curve, p.Edges[after].Curve = down, up.Reverse()
		j.mark(&p.Edges[before])
		j.mark(&p.Edges[after])
		j.keepNotches(&p, before, 0)
		j.keepNotches(&p, after, grown)
		j.setStraight(&p, h.i)
		moveHemLevel(&p, h.y, by)
		j.g.Pieces[h.name] = p
	}
	word := "lower"
	if by < 0 {
		word = "higher"
	}
	return fmt.Sprintf("hem %s %s", strings.TrimLeft(j.step.By.String(), "+-"), word)
}

// endAt cuts a side that runs down to the hem off at the hem's line, or runs it
// on straight, along its own end, until it meets it.
func endAt(side, hem geom.Curve) (geom.Curve, bool) {
	const far = 2000 // mm, longer than any piece
	line, l := hem.Extend(far, far), side.Length()
	if c := geom.Crossings(side, line); len(c) > 0 {
		at := c[len(c)-1].A
		return side.Between(0, at), at > 1
	}
	on := geom.Curve{geom.Line(side.End(), side.End().Add(side.EndTangent().Mul(far)))}
	c := geom.Crossings(on, line)
	if len(c) == 0 {
		return nil, false
	}
	return side.Between(0, l).Extend(0, c[0].A), true
}

// keepNotches measures the notches of an edge anew after its hem end has
// moved: shift is how much the edge has grown at its start. Notches beyond the
// new end are dropped.
func (j *job) keepNotches(p *piece.Piece, i int, shift float64) {
	e := p.Edges[i]
	kept := p.Marks[:0:0]
	for _, m := range p.Marks {
		if m.Kind == piece.Notch && m.Edge == e.Name {
			m.At += shift
			if m.At < 0 || m.At > e.Curve.Length() {
				j.tell(notchLost, m.Name, p.Name)
				continue
			}
			m.P = e.Curve.At(m.At)
		}
		kept = append(kept, m)
	}
	p.Marks = kept
}

// moveHemLevel takes the level line that lies on the hem along with it.
func moveHemLevel(p *piece.Piece, y, by float64) {
	for i, l := range p.Lines {
		if d := height(l.Curve) - y; l.Kind == piece.Level && d > -0.5 && d < 0.5 {
			p.Lines[i].Curve = l.Curve.Transform(geom.Shift(geom.Pt{Y: -by}))
		}
	}
}

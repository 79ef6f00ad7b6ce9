package change

import (
	"fmt"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// dartLength makes a dart longer or shorter: its point goes along the line that
// halves it, and what it takes in at the edge stays. Both legs stay equally long.
func dartLength(j *job) string {
	d, ok := j.dartOf(j.step.Item)
	if !ok {
		return ""
	}
	by := j.step.By.MM()
	middle := d.from().Lerp(d.to(), 0.5)
	axis := d.point().Sub(middle)
	if axis.Len()+by < leastDart {
		j.tell(shortDart, d.join.ID, j.say(axis.Len()+by), j.say(leastDart))
		return ""
	}
	now := j.withPoint(d, middle.Add(axis.Unit().Mul(axis.Len()+by)))
	j.rewire(d.piece, now, nil)
	word := "longer"
	if by < 0 {
		word = "shorter"
	}
	return fmt.Sprintf("%s %s %s", d.join.ID, strings.TrimLeft(j.step.By.String(), "+-"), word)
}

// leastDart is the shortest dart, in mm, that can be sewn to a point.
const leastDart = 25

// withPoint is the piece with the dart's legs drawn to another point.
func (j *job) withPoint(d dart, point geom.Pt) piece.Piece {
	p := d.piece.Clone()
	p.Edges[d.in].Curve = geom.Polyline(d.from(), point)
	p.Edges[d.out].Curve = geom.Polyline(point, d.to())
	j.mark(&p.Edges[d.in])
	j.mark(&p.Edges[d.out])
	j.redrill(&p, d, d.from().Lerp(d.to(), 0.5), point)
	return p
}

// redrill lays the marks in the old wedge on the line that halves the new one,
// as far from the point as they were.
func (j *job) redrill(p *piece.Piece, d dart, opening, point geom.Pt) {
	wedge := []geom.Pt{d.from(), d.point(), d.to()}
	for i, m := range d.piece.Marks {
		if m.Kind != piece.Notch && geom.Inside(wedge, m.P) {
			p.Marks[i].P = point.Add(opening.Sub(point).Unit().Mul(m.P.Dist(d.point())))
		}
	}
}

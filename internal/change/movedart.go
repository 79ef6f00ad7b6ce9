package change

import (
	"fmt"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// moveDart moves a dart along the edge that it opens to, with its point, and
// without turning it. The stretch of the edge that the dart passes goes to its
// other side, turned by the dart's angle as it lies when the dart is sewn; so
// the edge keeps its length, and the dart what it takes in.
func moveDart(j *job) string {
	d, ok := j.dartOf(j.step.Item)
	if !ok {
		return ""
	}
	p := d.piece.Clone()
	n := len(p.Edges)
	prev, next := (d.in+n-1)%n, (d.out+1)%n
	by := j.step.By.MM()
	toNext := j.step.Edge == p.Edges[next].Name
	if !toNext && j.step.Edge != p.Edges[prev].Name {
		j.tell(noNeighbour, j.step.Edge, d.join.ID, p.Edges[prev].Name, p.Edges[next].Name)
		return ""
	}
	if by < 0 {
		toNext, by = !toNext, -by
	}
	give, take := next, prev
	if !toNext {
		give, take = prev, next
	}
	room := p.Edges[give].Curve.Length() - leastPart
	if by > room {
		j.tell(noRoom, j.step.By, p.Edges[give].Name, p.Name, j.say(max(0, room)))
		return ""
	}
	if m, ok := j.passed(p, give, by, toNext); ok {
		j.tell(notchInWay, m.Name, p.Edges[give].Name, d.join.ID)
		return ""
	}
	l := p.Edges[give].Curve.Length()
	var from, to geom.Pt
	if toNext {
		strip, rest := p.Edges[give].Curve.Split(by)
		strip = strip.Transform(geom.Turn(d.turn(), d.point()))
		p.Edges[take].Curve = joinedCurves(p.Edges[take].Curve, strip)
		p.Edges[give].Curve = rest
		j.keepNotches(&p, give, -by)
		from, to = strip.End(), rest.Start()
	} else {
		rest, strip := p.Edges[give].Curve.Split(l - by)
		strip = strip.Transform(geom.Turn(-d.turn(), d.point()))
		p.Edges[take].Curve = joinedCurves(strip, p.Edges[take].Curve)
		p.Edges[give].Curve = rest
		j.keepNotches(&p, take, by)
		from, to = rest.End(), strip.Start()
	}
	j.mark(&p.Edges[give])
	j.mark(&p.Edges[take])
	middle := from.Lerp(to, 0.5)
	point := onAxis(from, to, d.point().Add(middle.Sub(d.from().Lerp(d.to(), 0.5))))
	p.Edges[d.in].Curve, p.Edges[d.out].Curve = geom.Polyline(from, point), geom.Polyline(point, to)
	j.mark(&p.Edges[d.in])
	j.mark(&p.Edges[d.out])
	j.redrill(&p, d, middle, point)
	j.rewire(d.piece, p, nil)
	return fmt.Sprintf("%s moved by %s towards %s", d.join.ID, strings.TrimLeft(j.step.By.String(), "+-"), d.piece.Edges[give].Name)
}

// onAxis is the point of the line that halves the opening from a to b which lies
// nearest to p: legs drawn to it are equally long.
func onAxis(a, b, p geom.Pt) geom.Pt {
	middle := a.Lerp(b, 0.5)
	axis := b.Sub(a).Left().Unit()
	return middle.Add(axis.Mul(p.Sub(middle).Dot(axis)))
}

// passed finds a notch on the stretch that a dart would pass over.
func (j *job) passed(p piece.Piece, edge int, by float64, start bool) (piece.Mark, bool) {
	l := p.Edges[edge].Curve.Length()
	for _, m := range p.Marks {
		if m.Kind == piece.Notch && m.Edge == p.Edges[edge].Name && (start && m.At < by+1 || !start && m.At > l-by-1) {
			return m, true
		}
	}
	return piece.Mark{}, false
}

// joinedCurves is one curve after another, their ends made one point.
func joinedCurves(a, b geom.Curve) geom.Curve {
	out := append(append(geom.Curve(nil), a...), b...)
	k := len(a)
	if k == 0 || k == len(out) {
		return out
	}
	if out[k].Straight {
		out[k] = geom.Line(out[k-1].P[3], out[k].P[3])
	} else {
		out[k].P[0] = out[k-1].P[3]
	}
	return out
}

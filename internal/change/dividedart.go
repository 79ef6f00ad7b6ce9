package change

import (
	"fmt"
	"slices"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// newDartShort is how far short of the old dart's point a second one ends, in
// mm, where nothing else is asked for.
const newDartShort = 25

// divideDart gives a share of a dart to a second one: the piece is cut from the
// place asked for to the dart's point, and the part between turns about the
// point by that share. The second dart ends short of the first one's point, so
// that the two do not run into each other. Together they take in what the one
// did: the two angles at the old point add up to the old one.
func divideDart(j *job) string {
	d, ok := j.dartOf(j.step.Item)
	if !ok {
		return ""
	}
	to, k, at, ok := j.spotOn(j.step.Spot)
	if !ok {
		return ""
	}
	q := d.piece.Edges[k].Curve.At(at)
	short := q.Sub(d.point())
	switch {
	case to.Name != d.piece.Name || k == d.in || k == d.out:
		j.tell(noSlash, d.join.ID, j.step.Spot.Edge, "that is not another edge of "+d.piece.Name)
		return ""
	case !clearLine(d.piece, d.point(), q):
		j.tell(noSlash, d.join.ID, j.step.Spot.Edge, "the line to it leaves the piece")
		return ""
	case short.Len() < newDartShort+leastDart:
		j.tell(shortDart, d.join.ID+", divided,", j.say(max(0, short.Len()-newDartShort)), j.say(leastDart))
		return ""
	}
	p, parts, fan := d.opened(k, at)
	turn, point := d.turn()*j.step.Share, d.point()
	first, second := fan[0], fan[1]
	in, out := d.piece.Edges[d.in], d.piece.Edges[d.out]
	in2, out2 := in, out
	in2.Name, out2.Name = freeName(p, in.Name), freeName(p, out.Name)
	var by geom.Affine
	var moved []geom.Pt
	var a, b geom.Pt // the opening of the second dart
	if j.staying(p.Name, second, first, point) {
		by, moved = geom.Turn(turn, point), first.ring(point)
		first = j.turned(first, by)
		out.Curve = out.Curve.Transform(by)
		a, b = by.Apply(q), q
	} else {
		by, moved = geom.Turn(-turn, point), second.ring(point)
		second = j.turned(second, by)
		in.Curve = in.Curve.Transform(by)
		a, b = q, by.Apply(q)
	}
	for _, e := range []*piece.Edge{&in, &out, &in2, &out2} {
		e.Steps = slices.Clone(e.Steps)
		j.mark(e)
	}
	tip := onAxis(a, b, point.Add(a.Lerp(b, 0.5).Sub(point).Unit().Mul(newDartShort)))
	in2.Curve, out2.Curve = geom.Polyline(a, tip), geom.Polyline(tip, b)
	edges := append(chain{in, out}, first...)
	edges = append(append(edges, in2, out2), second...)
	now := j.assemble(p, edges, moved, by)
	j.redrill(&now, d, in.Curve.Start().Lerp(out.Curve.End(), 0.5), point)
	now.Marks = append(now.Marks, piece.Mark{
		Kind: piece.Drill, Name: j.step.ID, P: tip.Add(a.Lerp(b, 0.5).Sub(tip).Unit().Mul(drillBack)), Place: d.piece.Place,
	})
	j.rewire(d.piece, now, parts)
	j.addDart(d, in2.Name, out2.Name)
	return fmt.Sprintf("%.0f %% of %s given to a dart in %s of %s", 100*j.step.Share, d.join.ID, to.Edges[k].Name, d.piece.Title)
}

// drillBack is how far inside a dart its point is marked, mm: the hole is taken
// in with the dart (common practice, 1/2 in).
const drillBack = 13

// addDart adds the join of a second dart, sewn and pressed as the first.
func (j *job) addDart(d dart, in, out string) {
	x := d.join
	x.ID, x.Title, x.Place = j.step.ID, "second part of the "+d.join.Title, j.place()
	x.Ease, x.Notches = nil, nil
	legs := map[string]string{d.piece.Edges[d.in].Name: in, d.piece.Edges[d.out].Name: out}
	x.Sides = nil
	for _, side := range d.join.Sides {
		r := side[0]
		r.Edge = legs[r.Edge]
		x.Sides = append(x.Sides, []piece.Ref{r})
	}
	v := &j.g.View
	v.Joins = append(v.Joins, x)
	v.Fittings = slices.Clone(v.Fittings)
	for i, f := range v.Fittings {
		if slices.Contains(f.Joins, d.join.ID) {
			v.Fittings[i].Joins = append(slices.Clone(f.Joins), x.ID)
		}
	}
}

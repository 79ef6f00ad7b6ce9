package change

import (
	"fmt"
	"math"
	"strconv"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

func itoa(n int) string { return strconv.Itoa(n) }

// pivotDart moves a dart to another edge: the piece is cut from there to the
// dart's point, and the part between turns about the point until the old dart is
// closed and the cut has opened. The dart's angle stays what it was, and so does
// the length of every edge; its legs get as long as the cut (identity of a turn
// about a point). Pivoting back to where it was undoes it.
func pivotDart(j *job) string {
	d, ok := j.dartOf(j.step.Item)
	if !ok {
		return ""
	}
	to, k, at, ok := j.spotOn(j.step.Spot)
	if !ok {
		return ""
	}
	if to.Name != d.piece.Name || k == d.in || k == d.out {
		j.tell(noSlash, d.join.ID, j.step.Spot.Edge, "that is not another edge of "+d.piece.Name)
		return ""
	}
	q := d.piece.Edges[k].Curve.At(at)
	if !clearLine(d.piece, d.point(), q) {
		j.tell(noSlash, d.join.ID, j.step.Spot.Edge, "the line to it leaves the piece")
		return ""
	}
	p, parts, fan := d.opened(k, at)
	point, turn := d.point(), d.turn()
	first, second := fan[0], fan[1]
	in, out := d.piece.Edges[d.in], d.piece.Edges[d.out]
	var edges chain
	var moved []geom.Pt
	var by geom.Affine
	if j.staying(p.Name, second, first, point) {
		by, moved = geom.Turn(turn, point), first.ring(point)
		first = j.turned(first, by)
		in.Curve, out.Curve = geom.Polyline(by.Apply(q), point), geom.Polyline(point, q)
	} else {
		by, moved = geom.Turn(-turn, point), second.ring(point)
		second = j.turned(second, by)
		in.Curve, out.Curve = geom.Polyline(q, point), geom.Polyline(point, by.Apply(q))
	}
	j.mark(&in)
	j.mark(&out)
	edges = append(append(append(edges, first...), in, out), second...)
	now := j.assemble(p, edges, moved, by)
	moveDrills(&now, d, in.Curve.Start().Lerp(out.Curve.End(), 0.5))
	j.rewire(d.piece, now, parts)
	return fmt.Sprintf("%s moved to %s of %s, %.1f° as before", d.join.ID, to.Edges[k].Name, d.piece.Title, math.Abs(turn)*180/math.Pi)
}

// opened is the piece without the dart's legs, in two parts: from the dart round
// to a place on edge k, and from there back to the dart.
func (d dart) opened(k int, at float64) (piece.Piece, map[string][]part, [2]chain) {
	p := d.piece.Clone()
	c := cut(&p, k, at)
	first := append(between(p, d.out+1, k), c.before...)
	second := append(append(chain{}, c.after...), between(p, k+1, d.in)...)
	return p, map[string][]part{d.piece.Edges[k].Name: c.parts}, [2]chain{first, second}
}

// moveDrills lays the marks in a dart's wedge on the line from its point to the
// middle of the new opening, as far from the point as they were.
func moveDrills(p *piece.Piece, d dart, opening geom.Pt) {
	wedge := []geom.Pt{d.from(), d.point(), d.to()}
	for i, m := range p.Marks {
		if m.Kind != piece.Notch && geom.Inside(wedge, m.P) {
			far := m.P.Dist(d.point())
			p.Marks[i].P = d.point().Add(opening.Sub(d.point()).Unit().Mul(far))
		}
	}
}

package finish

import (
	"math"

	"gusset/internal/construct"
	"gusset/internal/geom"
	"gusset/internal/method"
)

// side is a neighbour's cut line as seen from a hem line or stitching line: it
// begins beyond the line and runs inwards, away from it.
type side struct {
	curve  geom.Curve
	corner geom.Pt // of the stitching lines
	along  geom.Pt // direction of the hem line
	in     geom.Pt // square to it, into the piece
	zero   float64 // where the curve meets the line
}

// newSide looks at the neighbour's cut line from the line through corner.
func newSide(curve geom.Curve, corner, along, in geom.Pt) (side, bool) {
	s := side{curve: curve, corner: corner, along: along, in: in}
	best := math.Inf(1)
	for _, x := range geom.Crossings(curve, s.level(0)) {
		if d := x.P.Dist(corner); d < best {
			best, s.zero = d, x.A
		}
	}
	return s, !math.IsInf(best, 1)
}

// level is the straight line at a height above the hem line.
func (s side) level(h float64) geom.Curve {
	p := s.corner.Add(s.in.Mul(h))
	return geom.Polyline(p.Sub(s.along.Mul(longLine)), p.Add(s.along.Mul(longLine)))
}

// at is where the curve first reaches a height, from where it meets the line.
func (s side) at(h float64) (float64, bool) {
	if h < onLine {
		return s.zero, true
	}
	for _, x := range geom.Crossings(s.curve, s.level(h)) {
		if x.A > s.zero-onLine {
			return x.A, true
		}
	}
	return 0, false
}

// between is the curve between two heights, low to high.
func (s side) between(low, high float64) (geom.Curve, bool) {
	if low < -onLine {
		return nil, false
	}
	a, okA := s.at(low)
	b, okB := s.at(high)
	if !okA || !okB || b <= a {
		return nil, false
	}
	return s.curve.Between(a, b), true
}

// strips is the side of a hem as cut, from the hem line outwards. Folded, a
// strip lies on the piece: those that run up again are the piece's own side
// reflected, those that run down are it moved outwards. Before each strip lies
// the turn of cloth, square to the hem line.
func (s side) strips(folds []float64, turn float64) (geom.Curve, bool) {
	var out geom.Curve
	end := s.curve.At(s.zero)
	var height, depth float64
	for k, f := range folds {
		if turn > 0 {
			next := end.Sub(s.in.Mul(turn))
			out, end = append(out, geom.Line(end, next)), next
			depth += turn
		}
		var c geom.Curve
		ok := false
		if k%2 == 0 { // folded, it runs up
			if c, ok = s.between(height, height+f); ok {
				m := s.corner.Add(s.in.Mul((height - depth) / 2))
				c = c.Transform(geom.MirrorAbout(m, m.Add(s.along)))
			}
			height += f
		} else { // and down again
			if c, ok = s.between(height-f, height); ok {
				c = c.Reverse().Transform(geom.Shift(s.in.Mul(-height - depth)))
			}
			height -= f
		}
		if !ok {
			return nil, false
		}
		depth += f
		out, end = append(out, c...), c.End()
	}
	return out, true
}

// square is a side that runs square to the hem line all the way.
func (s side) square(width float64) geom.Curve {
	p := s.curve.At(s.zero)
	return geom.Polyline(p, p.Sub(s.in.Mul(width)))
}

// hemJoint shapes the corner between a hem and its neighbour.
func (b *builder) hemJoint(i, j run, c geom.Pt) (joint, bool) {
	hem := i
	if j.turned {
		hem = j
	}
	d := hem.demand
	s, ok := neighbour(i, j, c, hem.line, i.turned)
	if !ok {
		return joint{}, false
	}
	var down geom.Curve
	if d.Corner == method.Square {
		down = s.square(d.Width)
	} else if down, ok = s.strips(d.Folds, d.TurnOf); !ok {
		b.reportHem(i, j, d)
		return joint{}, false
	}
	return closing(i, j, s, down, i.turned), true
}

// neighbour is the cut line beside a run, as a side of it. first says that the
// run comes first and the neighbour after it.
func neighbour(i, j run, c geom.Pt, line geom.Curve, first bool) (side, bool) {
	if first {
		u := line.EndTangent()
		return newSide(j.cut.Extend(j.reach, 0), c, u, u.Left())
	}
	u := line.StartTangent()
	return newSide(i.cut.Extend(0, i.reach).Reverse(), c, u, u.Left())
}

// closing makes the joint of a run whose end is the curve down, from the
// stitching line's level outwards to the run's own cut line.
func closing(i, j run, s side, down geom.Curve, first bool) joint {
	if first {
		from, _ := i.ext.Nearest(down.End())
		return joint{from: from, to: s.zero, via: down.Reverse()}
	}
	to, _ := j.ext.Nearest(down.End())
	// The side was the neighbour reversed, extended at what is now its start.
	return joint{from: i.reach + s.curve.Length() - s.zero, to: to, via: down}
}

// shapedJoint shapes the corner at which one of two seams has an end of its
// own: mirrored or square.
func (b *builder) shapedJoint(i, j run, c geom.Pt) (joint, bool) {
	own, first := i, true
	if shaped(j.demand) {
		own, first = j, false
	}
	s, ok := neighbour(i, j, c, own.line, first)
	if !ok {
		return joint{}, false
	}
	down := s.square(own.reach)
	if own.demand.Corner == method.Mirror {
		high := math.Min(own.reach, s.top())
		c, ok := s.between(0, high)
		if !ok {
			return joint{}, false
		}
		down = c.Transform(geom.MirrorAbout(s.corner, s.corner.Add(s.along)))
	}
	onOwn := own.end()
	if !first {
		onOwn = own.start()
	}
	x, ok := meeting(own.ext, down, onOwn, own.demand.Width)
	if !ok || x.B < onLine {
		return joint{}, false
	}
	return closing(i, j, s, down.Between(0, x.B), first), true
}

// top is the height of the curve's far end.
func (s side) top() float64 { return s.curve.End().Sub(s.corner).Dot(s.in) - onLine }

// reportHem says why a hem cannot be turned up at a corner.
func (b *builder) reportHem(i, j run, hem construct.Demand) {
	other := j.demand
	if j.turned {
		other = i.demand
	}
	var height, highest float64
	for k, f := range hem.Folds {
		if k%2 == 0 {
			height += f
		} else {
			height -= f
		}
		if height < -onLine {
			b.add(turnUnder.At(hem.Place, where(hem), f))
			return
		}
		highest = math.Max(highest, height)
	}
	b.add(hemWider.At(hem.Place, where(hem), highest, where(other)))
}

package exchange

import (
	"math"
	"strconv"

	"gusset/internal/geom"
)

// curve reads a line, a polyline, an arc or a spline. It gives nil for what is none, or is
// unsound and told.
func (r *dxfReader) curve(s dxfShape) geom.Curve {
	switch s.kind {
	case "LINE":
		a, ok1 := r.point(s.entity, 10)
		b, ok2 := r.point(s.entity, 11)
		if ok1 && ok2 {
			return tidied(geom.Curve{geom.Line(a, b)})
		}
	case "POLYLINE":
		return r.polyline(s)
	case "LWPOLYLINE":
		return r.light(s.entity)
	case "ARC", "CIRCLE":
		return r.arc(s.entity)
	case "SPLINE":
		return r.spline(s.entity)
	default:
		r.tell(dxfEntity, r.lines.at(s.line), s.kind, shown(s.layer()))
	}
	return nil
}

// knot is a vertex of a polyline: bulge is the tangent of a quarter of the angle
// of the arc that follows, positive to the left (DXF reference, LWPOLYLINE).
type knot struct {
	p     geom.Pt
	bulge float64
}

func (r *dxfReader) polyline(s dxfShape) geom.Curve {
	flags, _ := strconv.Atoi(s.text(70))
	if flags&(8|16|64) != 0 { // a line in space, or a mesh
		r.tell(dxfEntity, r.lines.at(s.line), "3D POLYLINE", shown(s.layer()))
		return nil
	}
	var knots []knot
	for _, v := range s.vertices {
		if f, _ := strconv.Atoi(v.text(70)); f&16 != 0 { // a control point of a spline
			continue
		}
		p, ok := r.point(v, 10)
		if !ok {
			return nil
		}
		b, err := strconv.ParseFloat(orZero(v.text(42)), 64)
		if err != nil || math.IsNaN(b) || math.Abs(b) > 1e6 {
			r.tell(dxfNumber, r.lines.at(v.line), shown(v.text(42)), 42, v.kind)
			return nil
		}
		knots = append(knots, knot{p, b})
	}
	return run(knots, flags&1 != 0)
}

func orZero(s string) string {
	if s == "" {
		return "0"
	}
	return s
}

// light reads a LWPOLYLINE, whose vertices are groups of its own.
func (r *dxfReader) light(e entity) geom.Curve {
	flags, _ := strconv.Atoi(e.text(70))
	var knots []knot
	for _, g := range e.groups {
		switch g.code {
		case 10:
			v, ok := r.value(g, e.kind)
			if !ok {
				return nil
			}
			knots = append(knots, knot{p: geom.Pt{X: v}})
		case 20:
			v, ok := r.value(g, e.kind)
			if !ok || len(knots) == 0 {
				return nil
			}
			knots[len(knots)-1].p.Y = v
		case 42:
			b, err := strconv.ParseFloat(g.value, 64)
			if err != nil || math.IsNaN(b) || math.Abs(b) > 1e6 || len(knots) == 0 {
				r.tell(dxfNumber, r.lines.at(g.line), shown(g.value), 42, e.kind)
				return nil
			}
			knots[len(knots)-1].bulge = b
		}
	}
	return run(knots, flags&1 != 0)
}

// run is the curve through knots.
func run(knots []knot, closed bool) geom.Curve {
	var c geom.Curve
	n := len(knots)
	for i := range n {
		if i == n-1 && !closed {
			break
		}
		a, b := knots[i], knots[(i+1)%n]
		if a.bulge == 0 {
			c = append(c, geom.Line(a.p, b.p))
		} else {
			c = append(c, bulged(a.p, b.p, a.bulge)...)
		}
	}
	return tidied(c)
}

// bulged is the arc from a to b.
func bulged(a, b geom.Pt, bulge float64) geom.Curve {
	chord := b.Sub(a)
	if chord.Len() < 1e-6 {
		return nil
	}
	sweep := 4 * math.Atan(bulge)
	// The centre lies to the left of the chord's middle for a counter-clockwise
	// arc of less than half a turn.
	c := a.Lerp(b, 0.5).Add(chord.Left().Mul((1 - float64(bulge*bulge)) / (4 * bulge)))
	return arc(c, a, sweep, b)
}

// arc is a circular arc from a round c by an angle, ending at b, in cubics of at
// most an eighth of a turn: their error is below 4e-6 of the radius.
func arc(c, a geom.Pt, sweep float64, b geom.Pt) geom.Curve {
	n := max(1, int(math.Ceil(math.Abs(sweep)/(math.Pi/4)-1e-9)))
	step := sweep / float64(n)
	k := 4.0 / 3 * math.Tan(step/4)
	var out geom.Curve
	from := a
	for i := 1; i <= n; i++ {
		to := c.Add(a.Sub(c).Rot(step * float64(i)))
		if i == n {
			to = b
		}
		out = append(out, geom.Cubic(from, from.Add(from.Sub(c).Left().Mul(k)), to.Sub(to.Sub(c).Left().Mul(k)), to))
		from = to
	}
	return out
}

// arc reads an ARC or a CIRCLE: centre, radius, and for an arc the angles between
// which it runs counter-clockwise, in degrees.
func (r *dxfReader) arc(e entity) geom.Curve {
	c, ok1 := r.point(e, 10)
	radius, ok2 := r.number(e, 40)
	if !ok1 || !ok2 || radius < 1e-3 {
		return nil
	}
	from, sweep := 0.0, 2*math.Pi
	if e.kind == "ARC" {
		a, err1 := strconv.ParseFloat(orZero(e.text(50)), 64)
		b, err2 := strconv.ParseFloat(orZero(e.text(51)), 64)
		if err1 != nil || err2 != nil || !(math.Abs(a) < 1e6 && math.Abs(b) < 1e6) {
			r.tell(dxfNumber, r.lines.at(e.line), shown(e.text(50)), 50, e.kind)
			return nil
		}
		from = a * math.Pi / 180
		sweep = math.Mod(b-a, 360) * math.Pi / 180
		if sweep <= 0 {
			sweep += 2 * math.Pi
		}
	}
	a := c.Add(geom.Pt{X: radius}.Rot(from))
	return tidied(arc(c, a, sweep, c.Add(a.Sub(c).Rot(sweep))))
}

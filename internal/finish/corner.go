package finish

import (
	"math"

	"gusset/internal/construct"
	"gusset/internal/geom"
	"gusset/internal/method"
)

const (
	bluntAt   = 3.0         // times the wider allowance: sharper tips are cut off
	mitreRoom = 5.0         // mm left beyond a mitred corner
	smooth    = math.Pi / 9 // 20°: edges that turn less run on as one
	longLine  = 5000.0      // mm, longer than any piece
	onLine    = 1e-4        // mm
	sameSpot  = 0.01        // mm: cut lines that end this near meet already
)

// joint is how the cut line passes from one run to the next: it leaves the
// first at from (on its extended cut line), follows via and joins the next at
// to.
type joint struct {
	from, to float64
	via      geom.Curve
	slits    [][2]geom.Pt // notches that the corner itself wants
}

// join shapes the corner between two neighbouring runs.
func (b *builder) join(i, j run) joint {
	if i.after != nil {
		return capped(i, j, *i.after)
	}
	c := i.line.End()
	turn := turned(i.line.EndTangent(), j.line.StartTangent())
	di, dj := i.demand, j.demand
	switch {
	case math.Abs(turn) < smooth && math.Abs(di.Width-dj.Width) > sameWidth:
		return straight(i, j, i.end(), j.start())
	case i.turned != j.turned && turn > 0:
		if k, ok := b.hemJoint(i, j, c); ok {
			return k
		}
	case math.Abs(turn) < smooth || turn < 0 || i.turned || j.turned:
	case di.Corner == method.Mitre && dj.Corner == method.Mitre:
		if k, ok := mitred(i, j, c); ok {
			return k
		}
	case shaped(di) != shaped(dj):
		if k, ok := b.shapedJoint(i, j, c); ok {
			return k
		}
	}
	return natural(i, j, c, turn)
}

// shaped reports whether a seam's allowance has an end of its own shape.
func shaped(d construct.Demand) bool {
	return d.Kind == construct.ForSeam && d.Width > 0 && (d.Corner == method.Mirror || d.Corner == method.Square)
}

func turned(a, b geom.Pt) float64 { return math.Atan2(a.Cross(b), a.Dot(b)) }

// straight goes straight over from a place on one cut line to one on the next.
func straight(i, j run, from, to float64) joint {
	return joint{from: from, to: to, via: geom.Polyline(i.ext.At(from), j.ext.At(to))}
}

// natural runs both cut lines on until they meet. Tips that would reach too
// far are cut off square to the bisector.
func natural(i, j run, c geom.Pt, turn float64) joint {
	if i.cut.End().Dist(j.cut.Start()) < sameSpot {
		return straight(i, j, i.end(), j.start())
	}
	x, ok := meeting(i.ext, j.ext, i.end(), j.start())
	limit := bluntAt * math.Max(i.demand.Width, j.demand.Width)
	if ok && (turn <= 0 || x.P.Dist(c) <= limit+onLine) {
		return joint{from: x.A, to: x.B}
	}
	if turn > math.Pi/2 {
		if k, ok := blunt(i, j, c, limit); ok {
			return k
		}
	}
	return straight(i, j, i.end(), j.start())
}

// meeting is the crossing of two curves nearest to the given places on them.
func meeting(a, b geom.Curve, onA, onB float64) (geom.Crossing, bool) {
	var best geom.Crossing
	cost, found := math.Inf(1), false
	for _, x := range geom.Crossings(a, b) {
		if d := math.Abs(x.A-onA) + math.Abs(x.B-onB); d < cost {
			best, cost, found = x, d, true
		}
	}
	return best, found
}

// outward is the direction from a corner away from the piece, along the
// bisector.
func outward(i, j run) geom.Pt {
	u := i.line.EndTangent().Sub(j.line.StartTangent())
	if u.Len() < 1e-6 {
		return i.line.EndTangent().Left().Mul(-1)
	}
	return u.Unit()
}

// blunt cuts a tip off at a distance from the corner.
func blunt(i, j run, c geom.Pt, limit float64) (joint, bool) {
	out := outward(i, j)
	mid := c.Add(out.Mul(limit))
	return chamfer(i, j, []geom.Pt{mid.Sub(out.Left().Mul(longLine)), mid, mid.Add(out.Left().Mul(longLine))})
}

// mitred cuts a corner so that both allowances, turned in, end on the bisector
// of the corner: their ends are the bisector reflected in the stitching lines,
// moved out so that room is left beyond the corner.
func mitred(i, j run, c geom.Pt) (joint, bool) {
	out := outward(i, j)
	if x, ok := meeting(i.ext, j.ext, i.end(), j.start()); !ok || x.P.Dist(c) <= mitreRoom {
		return joint{}, false
	}
	z := c.Add(out.Mul(mitreRoom))
	back := out.Mul(-1)
	ri := geom.MirrorAbout(geom.Pt{}, i.line.EndTangent()).Apply(back)
	rj := geom.MirrorAbout(geom.Pt{}, j.line.StartTangent()).Apply(back)
	return chamfer(i, j, []geom.Pt{z.Add(ri.Mul(longLine)), z, z.Add(rj.Mul(longLine))})
}

// chamfer cuts a corner along a line of two straight parts that comes from
// beside the first run and goes to beside the second.
func chamfer(i, j run, line []geom.Pt) (joint, bool) {
	a, okA := meeting(i.ext, geom.Polyline(line[0], line[1]), i.end(), longLine)
	b, okB := meeting(j.ext, geom.Polyline(line[1], line[2]), j.start(), 0)
	if !okA || !okB {
		return joint{}, false
	}
	if mid := line[1]; mid.Sub(a.P).Cross(b.P.Sub(mid)) > 0 {
		return joint{from: a.A, to: b.A, via: geom.Polyline(a.P, mid, b.P)}, true
	}
	return joint{from: a.A, to: b.A, via: geom.Polyline(a.P, b.P)}, true // no nick into the allowance
}

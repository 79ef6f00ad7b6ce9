package finish

import (
	"math"

	"gusset/internal/geom"
	"gusset/internal/pattern"
)

const (
	flatten    = 0.08 // mm outward; with the rounding it stays below 0.1
	exactTol   = 0.01 // mm
	tinyGap    = 1e-9 // mm
	swallowTol = 1e-3 // mm
)

// outlined is a cut line: its runs, the corners between them and what is left
// of each.
type outlined struct {
	runs   []run
	joints []joint // joints[k] follows runs[k]
	loop   geom.Curve
}

// outline joins the runs into one closed cut line.
func (b *builder) outline(rs []run) (outlined, bool) {
	o := outlined{runs: rs}
	for k := range rs {
		o.joints = append(o.joints, b.join(rs[k], rs[(k+1)%len(rs)]))
	}
	for k, r := range rs {
		from, to := o.kept(k)
		if to < from-swallowTol {
			b.add(swallowed.At(r.demand.Place, where(r.demand), r.demand.Width))
			return o, false
		}
		if to > from+tinyGap {
			o.loop = joined(o.loop, r.ext.Between(from, to))
		}
		o.loop = joined(o.loop, o.joints[k].via)
	}
	o.loop = closed(o.loop)
	return o, true
}

// kept is the part of a run's extended cut line between its two corners.
func (o outlined) kept(k int) (from, to float64) {
	n := len(o.joints)
	return o.joints[(k+n-1)%n].to, o.joints[k].from
}

// joined adds segments, each beginning exactly where the one before ended.
func joined(loop, more geom.Curve) geom.Curve {
	for _, s := range more {
		if n := len(loop); n > 0 {
			s = startingAt(s, loop[n-1].End())
		}
		if s.Start().Dist(s.End()) > tinyGap || s.Length() > 1e-6 {
			loop = append(loop, s)
		}
	}
	return loop
}

func startingAt(s geom.Seg, p geom.Pt) geom.Seg {
	if s.Straight {
		return geom.Line(p, s.End())
	}
	shift := p.Sub(s.P[0])
	return geom.Cubic(p, s.P[1].Add(shift), s.P[2], s.P[3])
}

// closed makes the loop begin exactly where it ends.
func closed(loop geom.Curve) geom.Curve {
	if len(loop) > 0 {
		loop[0] = startingAt(loop[0], loop[len(loop)-1].End())
	}
	return loop
}

// exact is the cut line for printing.
func exact(loop geom.Curve) []geom.Pt {
	pts := loop.Flatten(exactTol)
	return pts[:len(pts)-1]
}

// polygon is the cut line in whole micrometres, without points that lie in one
// line with their neighbours.
func (b *builder) polygon(loop geom.Curve, u pattern.Use) ([]Micron, bool) {
	var out []Micron
	for _, p := range geom.FlattenOutward(loop, flatten) {
		m := micron(p)
		if len(out) == 0 || out[len(out)-1] != m {
			out = append(out, m)
		}
	}
	for len(out) > 1 && out[0] == out[len(out)-1] {
		out = out[:len(out)-1]
	}
	out = withoutInLine(out)
	pts := make([]geom.Pt, len(out))
	for i, m := range out {
		pts[i] = geom.Pt{X: float64(m.X), Y: float64(m.Y)}
	}
	if p, _, _, found := geom.SelfCrossing(pts); found || geom.Area(pts) <= 0 {
		b.add(crossing.At(u.Place.OnPiece(u.Piece, "", ""), u.Piece, p.X/1000, p.Y/1000))
		return out, false
	}
	return out, true
}

func micron(p geom.Pt) Micron {
	return Micron{int64(math.Round(p.X * 1000)), int64(math.Round(p.Y * 1000))}
}

// withoutInLine leaves out points on the straight way between their
// neighbours.
func withoutInLine(pts []Micron) []Micron {
	var out []Micron
	n := len(pts)
	for i, p := range pts {
		a, c := pts[(i+n-1)%n], pts[(i+1)%n]
		if len(out) > 0 {
			a = out[len(out)-1]
		}
		ux, uy, vx, vy := p.X-a.X, p.Y-a.Y, c.X-p.X, c.Y-p.Y
		if ux*vy != uy*vx || ux*vx+uy*vy < 0 {
			out = append(out, p)
		}
	}
	return out
}

// mirrored reports whether b is a turned over, left to right, give or take the
// rounding.
func mirrored(a, b []Micron) bool {
	pa, pb := make([]geom.Pt, len(a)), make([]geom.Pt, len(b))
	for i, m := range turnedOver(a) {
		pa[i] = geom.Pt{X: float64(m.X), Y: float64(m.Y)}
	}
	for i, m := range b {
		pb[i] = geom.Pt{X: float64(m.X), Y: float64(m.Y)}
	}
	const um = 3
	return inStep(pa, pb, um) || within(pa, pb, um) && within(pb, pa, um)
}

// turnedOver returns an outline turned over, left to right, running the same way
// round.
func turnedOver(outline []Micron) []Micron {
	out := make([]Micron, len(outline))
	for i, m := range outline {
		out[len(out)-1-i] = Micron{X: -m.X, Y: m.Y}
	}
	return out
}

// inStep reports whether two outlines have the same corners, each within d of
// its partner, beginning anywhere. It is the usual case, found without
// measuring every corner against every side.
func inStep(a, b []geom.Pt, d float64) bool {
	if len(a) != len(b) {
		return false
	}
next:
	for s := range b {
		for i, p := range a {
			if p.Dist(b[(i+s)%len(b)]) > d {
				continue next
			}
		}
		return true
	}
	return false
}

// within reports whether every corner of a lies within d of the outline b.
func within(a, b []geom.Pt, d float64) bool {
	at := 0 // the side of b that was near last: the next corner is near it or a little further on
next:
	for _, p := range a {
		for k := range b {
			i := (at + k) % len(b)
			if offSide(b[i], b[(i+1)%len(b)], p) <= d {
				at = i
				continue next
			}
		}
		return false
	}
	return true
}

// offSide is how far p lies from the straight side from a to b.
func offSide(a, b, p geom.Pt) float64 {
	v := b.Sub(a)
	t := 0.0
	if l := v.Dot(v); l > 0 {
		t = min(max(p.Sub(a).Dot(v)/l, 0), 1)
	}
	return p.Dist(a.Add(v.Mul(t)))
}

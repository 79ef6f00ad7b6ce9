package geom

import "math"

// smoothTurn is the largest turn at a joint, in radians, that still counts as
// smooth: half a degree, about what rounding of drawn handles leaves.
const smoothTurn = 0.01

// trace is a smooth stretch given by a function: position, direction of travel
// and curvature at u in 0..1.
type trace func(u float64) (p, dir Pt, bend float64)

// fitSamples is how many stretches a trace is sampled in for one cubic. The
// miss of a cubic against a smooth trace has at most a few bumps.
const fitSamples = 20

// fitMargin is the share of the tolerance that a fit may take at its samples:
// between two of them it can lie a few hundredths further out.
const fitMargin = 0.94

// fit returns cubics that stay within tol of the trace between u0 and u1 and
// bend no more sharply than it does, halving the stretch where one does not do.
// from and to fix the ends.
func (f trace) fit(u0, u1 float64, from, to Pt, tol float64, depth int) Curve {
	pts := make([]Pt, fitSamples+1)
	var bends bendRange
	for k := range pts {
		var bend float64
		pts[k], _, bend = f(u0 + float64((u1-u0)*float64(k)/fitSamples))
		bends.add(bend)
	}
	pts[0], pts[fitSamples] = from, to
	_, a, _ := f(u0)
	_, b, _ := f(u1)
	if run := distinct(pts); len(run) < 2 {
		return Curve{Line(from, to)}
	}
	s, miss, _ := fitOne(pts, a, b, tol)
	if miss <= fitMargin*tol && bends.hold(s) || depth == 0 {
		return Curve{s}
	}
	mid := (u0 + u1) / 2
	m, _, _ := f(mid)
	return append(f.fit(u0, mid, from, m, tol, depth-1), f.fit(mid, u1, m, to, tol, depth-1)...)
}

// Refit returns the same curve within tol millimetres in as few segments as
// joining neighbours allows. Corners, and joints between straight and curved
// parts, stay where they are; segments that cannot be joined are kept as they
// are. Nothing is joined that would bend more sharply than its parts do.
// Refitting the result again may join more, as far again from it.
func (c Curve) Refit(tol float64) Curve {
	var out Curve
	for i := 0; i < len(c); {
		s, n := c[i], 1
		for j := i + 2; j <= len(c) && smoothJoint(c[j-2], c[j-1]); j++ {
			joined, ok := oneSegment(c[i:j], tol)
			if !ok {
				break
			}
			s, n = joined, j-i
		}
		out = append(out, s)
		i += n
	}
	return out
}

// smoothJoint reports whether two neighbours are of one kind and meet without
// a corner.
func smoothJoint(a, b Seg) bool {
	return a.Straight == b.Straight && math.Abs(turn(a.Tangent(1), b.Tangent(0))) <= smoothTurn
}

// oneSegment tries to replace a smooth run by one segment.
func oneSegment(c Curve, tol float64) (Seg, bool) {
	if c[0].Straight {
		return Line(c.Start(), c.End()), c.Straight(tol) && c.Length()-c.Start().Dist(c.End()) <= tol
	}
	var pts []Pt
	var bends bendRange
	for _, s := range c {
		for k := range fitSamples {
			u := float64(k) / fitSamples
			pts = append(pts, s.At(u))
			bends.add(s.Curvature(u))
		}
		bends.add(s.Curvature(1))
	}
	pts = distinct(append(pts, c.End()))
	if len(pts) < 3 {
		return Line(c.Start(), c.End()), false
	}
	s, miss, _ := fitOne(pts, c.StartTangent(), c.EndTangent(), tol)
	return s, miss <= fitMargin*tol && bends.hold(s)
}

// MapPoints returns the image of the curve under the smooth displacement f,
// which is given each point and its arc length along the curve and returns
// where the point goes. Curved results are refitted within tol millimetres,
// segment by segment, with their ends exactly where f puts them; joints that
// were smooth stay so. A straight segment whose image is straight within
// 1e-6 mm stays straight. Segments of no length are left out.
func (c Curve) MapPoints(f func(p Pt, at float64) Pt, tol float64) Curve {
	return c.MapSpots(func(s Spot) Pt { return f(s.P, s.At) }, tol)
}

// Spot is a place on a curve.
type Spot struct {
	P   Pt
	At  float64 // arc length along the curve, mm
	seg Seg
	t   float64
}

// Tangent is the unit direction of travel at the place.
func (s Spot) Tangent() Pt { return s.seg.Tangent(s.t) }

// Spot is the place at arc length d from the start, clamped to the ends.
func (c Curve) Spot(d float64) Spot {
	i, t := c.locate(d)
	return Spot{c[i].At(t), d, c[i], t}
}

// MapSpots is MapPoints for a displacement that also asks for the curve's direction.
func (c Curve) MapSpots(f func(Spot) Pt, tol float64) Curve {
	var out Curve
	var at float64
	for i, s := range c {
		l := s.Length()
		if l < 1e-9 {
			continue
		}
		from := f(Spot{s.P[0], at, s, 0})
		if len(out) > 0 {
			from = out.End()
		}
		end := at + l
		if i == len(c)-1 {
			end = c.Length()
		}
		to := f(Spot{s.P[3], end, s, 1})
		out = append(out, s.mapped(f, at, from, to, tol)...)
		at += l
	}
	return out
}

func (s Seg) mapped(f func(Spot) Pt, at float64, from, to Pt, tol float64) Curve {
	if s.Straight && s.imageStraight(f, at, from, to) {
		return Curve{Line(from, to)}
	}
	image := func(u float64) (p, dir Pt, k float64) {
		const h = 1e-4
		mid := min(max(u, h), 1-h) // stay inside the segment
		l := s.LengthTo(mid)
		here := f(Spot{s.At(mid), at + l, s, mid})
		pace, gain := s.Deriv(mid), 0.0
		step := float64(h * pace.Len())
		if step > 0 { // arc length to the second order, as the bend is wanted to it
			gain = h * h / 2 * pace.Dot(s.Deriv2(mid)) / pace.Len()
		}
		before := f(Spot{s.At(mid - h), at + l - step + gain, s, mid - h})
		after := f(Spot{s.At(mid + h), at + l + step + gain, s, mid + h})
		slope := after.Sub(before).Mul(1 / (2 * h))
		bend := after.Sub(here).Sub(here.Sub(before)).Mul(1 / (h * h))
		d := u - mid // not zero at the ends only: carry on by the parabola
		p = here.Add(slope.Mul(d)).Add(bend.Mul(d * d / 2))
		slope = slope.Add(bend.Mul(d))
		return p, unit(slope), bendOf(slope, bend)
	}
	return trace(image).fit(0, 1, from, to, tol, 10)
}

// imageStraight reports whether f maps the straight segment to a straight one.
func (s Seg) imageStraight(f func(Spot) Pt, at float64, from, to Pt) bool {
	const n = 16
	l, dir := s.Length(), unit(to.Sub(from))
	last := 0.0
	for k := 1; k < n; k++ {
		u := float64(k) / n
		v := f(Spot{s.At(u), at + float64(l*u), s, u}).Sub(from)
		x := dir.Dot(v)
		if math.Abs(dir.Cross(v)) > 1e-6 || x < last-1e-6 {
			return false
		}
		last = x
	}
	return true
}

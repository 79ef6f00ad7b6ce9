package outline

import (
	"math"
	"slices"

	"gusset/internal/geom"
)

// FromLegs puts lines and curves through the legs of a closed line, each of
// which leads from one place that the user has pointed at to the next. Corners
// are at places, where the legs before and after run in different directions.
// What lies within unsure mm of a place says nothing: there both legs are
// carried on until they meet.
func FromLegs(legs [][]geom.Pt, places []geom.Pt, unsure, tol float64) Shape {
	if geom.Area(places) < 0 {
		legs, places = turnedRound(legs, places)
	}
	n := len(places)
	sure := make([][]geom.Pt, n)
	for i, l := range legs {
		for _, p := range l {
			if p.Dist(places[i]) > unsure && p.Dist(places[(i+1)%n]) > unsure {
				sure[i] = append(sure[i], p)
			}
		}
	}
	var at []int // places that are corners
	corner := make([]geom.Pt, n)
	for i := range places {
		if q, ok := cornerAt(sure[(i+n-1)%n], sure[i], places[i]); ok {
			at, corner[i] = append(at, i), q
		}
	}
	if len(at) < 2 {
		at = []int{0, n / 2}
		corner[0], corner[n/2] = places[0], places[n/2]
	}
	var s Shape
	for k, i := range at {
		j := at[(k+1)%len(at)]
		pts := []geom.Pt{corner[i]}
		for l := i; ; l = (l + 1) % n {
			pts = append(pts, sure[l]...)
			if (l+1)%n == j {
				break
			}
		}
		s.Edges = append(s.Edges, curve(append(pts, corner[j]), tol))
	}
	return s
}

// turnedRound is the same closed line the other way.
func turnedRound(legs [][]geom.Pt, places []geom.Pt) ([][]geom.Pt, []geom.Pt) {
	n := len(places)
	l, p := make([][]geom.Pt, n), make([]geom.Pt, n)
	for i := range places {
		p[i] = places[n-1-i]
		l[i] = slices.Clone(legs[(2*n-2-i)%n])
		slices.Reverse(l[i])
	}
	return l, p
}

// cornerAt reports whether two legs meet at a place in a corner, and where.
func cornerAt(before, after []geom.Pt, place geom.Pt) (geom.Pt, bool) {
	const reach = 26
	var a, b []geom.Pt
	for _, p := range before {
		if p.Dist(place) < reach {
			a = append(a, p)
		}
	}
	for _, p := range after {
		if p.Dist(place) < reach {
			b = append(b, p)
		}
	}
	if len(a) < 5 || len(b) < 5 {
		return place, true // a short leg ends at corners
	}
	f, g := bendOf(a), bendOf(b)
	u, v := f.slope(f.along(place)), g.slope(g.along(place))
	if u.Dot(a[len(a)-1].Sub(a[0])) < 0 {
		u = u.Mul(-1)
	}
	if v.Dot(b[len(b)-1].Sub(b[0])) < 0 {
		v = v.Mul(-1)
	}
	if math.Abs(math.Atan2(u.Cross(v), u.Dot(v))) < cornerTurn {
		return place, false
	}
	if q, ok := meeting(f, g, place); ok && q.Dist(place) < 6 {
		return q, true
	}
	return place, true
}

package finish

import (
	"math"
	"slices"

	"gusset/internal/construct"
	"gusset/internal/geom"
)

const (
	foldMiss = 0.05     // mm: how far a fold, or what lies on it, may stray
	nearFold = foldMiss // mm: points this near are put on it
	plumb    = 1e-6     // slope of a fold that counts as upright
)

// fold finds the part of a half piece's outline that lies on the fold, and
// puts it exactly on one line where the fold is upright. A hem beside the fold
// must lie on it as well.
func (b *builder) fold(cut *Cut, o outlined) bool {
	for k, r := range o.runs {
		if r.demand.Kind != construct.ForFold {
			continue
		}
		a, u := r.line.Start(), r.line.End().Sub(r.line.Start()).Unit()
		if worst := o.strays(k, a, u); worst > foldMiss {
			b.add(foldBent.At(r.demand.Place, where(r.demand), worst))
			return false
		}
		cut.Fold = onFold(cut.Outline, a, u)
		cut.Outline = betweenEnds(cut.Outline, func(m Micron) geom.Pt { return m.mm() }, a, u)
		cut.Exact = betweenEnds(ontoFold(cut.Exact, a, u), func(p geom.Pt) geom.Pt { return p }, a, u)
		return true
	}
	return false
}

// strays is how far the fold and the hems beside it leave the line through a
// along u.
func (o outlined) strays(k int, a, u geom.Pt) float64 {
	n := len(o.runs)
	beside := o.runs[k].line
	if o.runs[(k+n-1)%n].turned {
		beside = append(append(geom.Curve(nil), beside...), o.joints[(k+n-1)%n].via...)
	}
	if o.runs[(k+1)%n].turned {
		beside = append(append(geom.Curve(nil), beside...), o.joints[k].via...)
	}
	var worst float64
	for _, p := range beside.Flatten(exactTol) {
		worst = math.Max(worst, math.Abs(u.Cross(p.Sub(a))))
	}
	return worst
}

// ontoFold puts the points that lie near an upright fold on it, as onFold does.
func ontoFold(pts []geom.Pt, a, u geom.Pt) []geom.Pt {
	for i, p := range pts {
		if math.Abs(u.X) < plumb && math.Abs(u.Cross(p.Sub(a))) <= nearFold {
			pts[i].X = a.X
		}
	}
	return pts
}

// betweenEnds takes out what lies on the fold between its ends: two points a
// thousandth apart there would let the cut line run back on itself.
func betweenEnds[P any](pts []P, mm func(P) geom.Pt, a, u geom.Pt) []P {
	low, high := math.Inf(1), math.Inf(-1)
	on := func(p P) (float64, bool) {
		v := mm(p).Sub(a)
		return v.Dot(u), math.Abs(u.Cross(v)) <= nearFold
	}
	for _, p := range pts {
		if d, lies := on(p); lies {
			low, high = math.Min(low, d), math.Max(high, d)
		}
	}
	return slices.DeleteFunc(pts, func(p P) bool {
		d, lies := on(p)
		return lies && d > low && d < high
	})
}

// mm is the point in millimetres.
func (m Micron) mm() geom.Pt { return geom.Pt{X: float64(m.X) / 1000, Y: float64(m.Y) / 1000} }

// onFold returns the ends of what lies on the line through a along u.
func onFold(outline []Micron, a, u geom.Pt) [2]Micron {
	var ends [2]Micron
	low, high := math.Inf(1), math.Inf(-1)
	x := micron(a).X
	for i, m := range outline {
		v := m.mm().Sub(a)
		if math.Abs(u.Cross(v)) > nearFold {
			continue
		}
		if math.Abs(u.X) < plumb {
			outline[i].X = x
		}
		if d := v.Dot(u); d < low {
			low, ends[0] = d, outline[i]
		}
		if d := v.Dot(u); d > high {
			high, ends[1] = d, outline[i]
		}
	}
	return ends
}

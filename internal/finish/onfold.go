package finish

import (
	"math"

	"gusset/internal/construct"
	"gusset/internal/geom"
)

const (
	foldMiss = 0.05 // mm: how far a fold, or what lies on it, may stray
	nearFold = 0.02 // mm: points this near are put on it
	plumb    = 1e-6 // slope of a fold that counts as upright
)

// fold finds the part of a half piece's outline that lies on the fold, and
// puts it exactly on one line where the fold is upright. A hem beside the fold
// must lie on it as well.
func (b *builder) fold(outline []Micron, o outlined) ([2]Micron, bool) {
	for k, r := range o.runs {
		if r.demand.Kind != construct.ForFold {
			continue
		}
		a, u := r.line.Start(), r.line.End().Sub(r.line.Start()).Unit()
		if worst := o.strays(k, a, u); worst > foldMiss {
			b.add(foldBent.At(r.demand.Place, where(r.demand), worst))
			return [2]Micron{}, false
		}
		return onFold(outline, a, u), true
	}
	return [2]Micron{}, false
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

// onFold returns the ends of what lies on the line through a along u.
func onFold(outline []Micron, a, u geom.Pt) [2]Micron {
	var ends [2]Micron
	low, high := math.Inf(1), math.Inf(-1)
	x := micron(a).X
	for i, m := range outline {
		v := geom.Pt{X: float64(m.X) / 1000, Y: float64(m.Y) / 1000}.Sub(a)
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

package finish

import (
	"gusset/internal/construct"
	"gusset/internal/geom"
)

// folded is a dart or pleat as it opens to the edge of a piece: cloth that is
// folded in and pressed over its neighbour before the edge is sewn.
type folded struct {
	a, b geom.Pt    // where its lines leave the stitching line, in outline order
	legs [2]geom.Pt // directions from there into the piece
	back bool       // pressed over what comes before it
}

// turnedLegs turns the legs of intakes with the piece.
func turnedLegs(demands []construct.Demand, by geom.Affine) []construct.Demand {
	out := make([]construct.Demand, len(demands))
	zero := by.Apply(geom.Pt{})
	for i, d := range demands {
		for k, l := range d.Intake.Legs {
			d.Intake.Legs[k] = by.Apply(l).Sub(zero)
		}
		out[i] = d
	}
	return out
}

// withIntakes takes the runs of darts and pleats out of the outline and notes
// them between their neighbours.
func (b *builder) withIntakes(rs []run) ([]run, bool) {
	first := -1
	for i, r := range rs {
		if r.demand.Kind != construct.ForIntake {
			first = i
			break
		}
	}
	if first < 0 {
		return nil, false
	}
	var out []run
	var source string // of the intake that is open
	for i := range rs {
		r := rs[(first+i)%len(rs)]
		if r.demand.Kind != construct.ForIntake {
			source = ""
			out = append(out, r)
			continue
		}
		last := &out[len(out)-1]
		switch {
		case last.after == nil:
			in := r.demand.Intake
			last.after = &folded{a: r.line.Start(), b: r.line.End(), legs: in.Legs, back: in.Back}
			source = r.demand.Source
		case source == r.demand.Source:
			last.after.b = r.line.End()
		default:
			b.add(intakesMeet.At(r.demand.Place, source, r.demand.Source))
			return nil, false
		}
	}
	return out, true
}

// capped draws the cut line across a dart or pleat so that it lies edge to edge
// once folded and pressed: the neighbour's cut line reflected in the first leg
// as far as the crease, and from there reflected in the crease to the other leg.
// The crease lies midway between the legs.
func capped(i, j run, f folded) joint {
	legA, legB := lineAlong(f.a, f.legs[0]), lineAlong(f.b, f.legs[1])
	onI, okI := meeting(i.ext, legA, i.end(), longLine)
	onJ, okJ := meeting(j.ext, legB, j.start(), longLine)
	if !okI || !okJ {
		return straight(i, j, i.end(), j.start())
	}
	k := joint{from: onI.A, to: onJ.A, slits: [][2]geom.Pt{
		{onI.P, onI.P.Add(f.legs[0].Mul(min(longestSlit, onI.P.Dist(f.a)/3)))},
		{onJ.P, onJ.P.Add(f.legs[1].Mul(min(longestSlit, onJ.P.Dist(f.b)/3)))},
	}}
	crease := f.legs[0].Add(f.legs[1]).Unit()
	mid := f.a.Lerp(f.b, 0.5)
	over := geom.MirrorAbout(mid, mid.Add(crease))
	var half geom.Curve
	if f.back {
		c := i.ext.Between(0, onI.A).Reverse().Transform(geom.MirrorAbout(f.a, f.a.Add(f.legs[0])))
		half = upTo(c, mid, crease)
		k.via = append(half, half.Transform(over).Reverse()...)
	} else {
		c := j.ext.Between(onJ.A, j.ext.Length()).Transform(geom.MirrorAbout(f.b, f.b.Add(f.legs[1])))
		half = upTo(c, mid, crease)
		k.via = append(half.Transform(over), half.Reverse()...)
	}
	if len(half) == 0 {
		return straight(i, j, onI.A, onJ.A)
	}
	k.via = bridged(i.ext.At(k.from), k.via, j.ext.At(k.to))
	return k
}

// lineAlong is a long line through a point.
func lineAlong(p, u geom.Pt) geom.Curve {
	return geom.Polyline(p.Sub(u.Mul(longLine)), p.Add(u.Mul(longLine)))
}

// upTo is the curve as far as the crease.
func upTo(c geom.Curve, mid, crease geom.Pt) geom.Curve {
	x, ok := meeting(c, lineAlong(mid, crease), 0, longLine)
	if !ok {
		return nil
	}
	return c.Between(0, x.A)
}

// bridged joins the ends of a cap to the cut lines beside it, which it misses
// where the neighbours meet the two legs at different angles.
func bridged(from geom.Pt, via geom.Curve, to geom.Pt) geom.Curve {
	var out geom.Curve
	if from.Dist(via.Start()) > tinyGap {
		out = append(out, geom.Line(from, via.Start()))
	}
	out = append(out, via...)
	if via.End().Dist(to) > tinyGap {
		out = append(out, geom.Line(via.End(), to))
	}
	return out
}

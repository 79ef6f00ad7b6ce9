package main

import (
	"fmt"
	"math"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// printedPiece is a piece as the paper shows it: every edge on its cutting
// line, neighbours running on until they meet.
type printedPiece struct {
	piece.Piece
	cut    []geom.Curve // one per edge, as many segments as the stitching line
	around []geom.Pt    // where each notch stands on the cutting line
}

// printPiece moves every edge out by its allowance. Each segment gives exactly
// one segment, so that a reader can move it back.
func printPiece(p piece.Piece) (printedPiece, error) {
	out := printedPiece{Piece: p}
	n := len(p.Edges)
	starts, ends := make([]float64, n), make([]float64, n)
	for i := range p.Edges {
		j := (i + 1) % n
		a, b, err := meet(p.Edges[i], p.Edges[j])
		if err != nil {
			return out, err
		}
		ends[i], starts[j] = a, b
	}
	for i, e := range p.Edges {
		c, err := moveOut(e, starts[i], ends[i])
		if err != nil {
			return out, err
		}
		out.cut = append(out.cut, c)
	}
	close0(out.cut)
	for _, m := range p.Marks {
		out.around = append(out.around, onCut(p, m))
	}
	return out, nil
}

// outside is the point w mm to the right of travel of the segment at t, which
// may lie beyond its ends: the polynomial simply runs on.
func outside(s geom.Seg, t, w float64) geom.Pt {
	return s.At(t).Sub(s.Tangent(t).Left().Mul(w))
}

// meet finds where the moved edges a and b meet: the parameter on a's last and
// on b's first segment.
func meet(a, b piece.Edge) (ta, tb float64, err error) {
	sa, sb := a.Curve[len(a.Curve)-1], b.Curve[0]
	ta, tb = 1, 0
	gap := func(ta, tb float64) geom.Pt {
		return outside(sa, ta, a.Printed).Sub(outside(sb, tb, b.Printed))
	}
	for range 50 {
		g := gap(ta, tb)
		if g.Len() < 1e-10 {
			return ta, tb, nil
		}
		const h = 1e-6
		da := gap(ta+h, tb).Sub(gap(ta-h, tb)).Mul(1 / (2 * h))
		db := gap(ta, tb+h).Sub(gap(ta, tb-h)).Mul(1 / (2 * h))
		d := da.Cross(db)
		if math.Abs(d) < 1e-9*da.Len()*db.Len() {
			break
		}
		ta -= g.Cross(db) / d
		tb -= da.Cross(g) / d
	}
	if gap(ta, tb).Len() < 1e-7 {
		return ta, tb, nil
	}
	return 0, 0, fmt.Errorf("the cutting lines of %s and %s do not meet (%.3f mm off)", a.Name, b.Name, gap(ta, tb).Len())
}

// moveOut moves an edge out, from parameter t0 on its first segment to t1 on
// its last.
func moveOut(e piece.Edge, t0, t1 float64) (geom.Curve, error) {
	var out geom.Curve
	for i, s := range e.Curve {
		from, to := 0.0, 1.0
		if i == 0 {
			from = t0
		}
		if i == len(e.Curve)-1 {
			to = t1
		}
		if from >= to {
			return nil, fmt.Errorf("%s is too short for its allowance", e.Name)
		}
		moved, off := moveSegment(s, from, to, e.Printed)
		if off > 0.01 {
			return nil, fmt.Errorf("%s, segment %d: the cutting line is %.3f mm off", e.Name, i, off)
		}
		out = append(out, moved)
	}
	return out, nil
}

// moveSegment fits one cubic to the parallel of a segment between two
// parameters. Ends and end directions are exact; the two handle lengths are
// found by least squares on the distance across (Gauss and Newton). It returns
// the largest distance left, in mm.
func moveSegment(s geom.Seg, from, to, w float64) (geom.Seg, float64) {
	a, z := outside(s, from, w), outside(s, to, w)
	if s.Straight {
		return geom.Line(a, z), 0
	}
	da, dz := s.Tangent(from), s.Tangent(to)
	const n = 40
	var target [n]geom.Pt
	for i := range target {
		target[i] = outside(s, from+(to-from)*float64(i+1)/(n+1), w)
	}
	ha, hz := handle(s, from, w)*(to-from), handle(s, to, w)*(to-from)
	fit := geom.Seg{}
	off := 0.0
	for range 30 {
		fit = geom.Cubic(a, a.Add(da.Mul(ha)), z.Sub(dz.Mul(hz)), z)
		var m11, m12, m22, r1, r2 float64
		off = 0
		for _, q := range target {
			t := nearestParam(fit, q)
			normal := fit.Tangent(t).Left()
			miss := q.Sub(fit.At(t)).Dot(normal)
			off = math.Max(off, math.Abs(miss))
			g1 := 3 * t * (1 - t) * (1 - t) * da.Dot(normal)
			g2 := -3 * t * t * (1 - t) * dz.Dot(normal)
			m11 += float64(g1 * g1)
			m12 += float64(g1 * g2)
			m22 += float64(g2 * g2)
			r1 += float64(g1 * miss)
			r2 += float64(g2 * miss)
		}
		// On a nearly straight segment the handles hardly matter across; the
		// damping keeps them where they are.
		m11, m22 = m11+damping, m22+damping
		d := float64(m11*m22) - float64(m12*m12)
		ha += (float64(r1*m22) - float64(r2*m12)) / d
		hz += (float64(m11*r2) - float64(m12*r1)) / d
	}
	return fit, off
}

const damping = 1e-6

// handle is a third of the speed of the parallel at t: its cubic's handle
// length for a unit of parameter.
func handle(s geom.Seg, t, w float64) float64 {
	return s.Deriv(t).Len() * (1 + w*s.Curvature(t)) / 3
}

// nearestParam is the parameter of the point of s nearest to q, by Newton's
// method from the best of a few starts.
func nearestParam(s geom.Seg, q geom.Pt) float64 {
	best, t := math.Inf(1), 0.0
	for i := 0; i <= 16; i++ {
		u := float64(i) / 16
		if d := s.At(u).Dist(q); d < best {
			best, t = d, u
		}
	}
	for range 12 {
		v, d1, d2 := s.At(t).Sub(q), s.Deriv(t), s.Deriv2(t)
		slope := d1.Dot(d1) + v.Dot(d2)
		if math.Abs(slope) < 1e-12 {
			break
		}
		t = math.Min(1, math.Max(0, t-v.Dot(d1)/slope))
	}
	return t
}

// close0 makes neighbouring ends the same point to the last bit.
func close0(cut []geom.Curve) {
	for i, c := range cut {
		next := cut[(i+1)%len(cut)]
		last := &c[len(c)-1]
		if last.Straight {
			*last = geom.Line(last.P[0], next[0].P[0])
		} else {
			last.P[3] = next[0].P[0]
		}
	}
}

// onCut carries a notch out to the cutting line, square to the stitching line;
// other marks stay where they are.
func onCut(p piece.Piece, m piece.Mark) geom.Pt {
	e, ok := p.Edge(m.Edge)
	if !ok {
		return m.P
	}
	return m.P.Sub(e.Curve.TangentAt(m.At).Left().Mul(e.Printed))
}

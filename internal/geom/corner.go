package geom

import "math"

// joinRuns adds a smooth run of parts to those before it, bridging the corner
// before sets[i-1]'s run. next is the index of the first set after the run.
func joinRuns(all, run []part, sets []outset, next int, first outset, d float64) ([]part, error) {
	if len(all) == 0 {
		return run, nil
	}
	k := next - 1
	for k > 0 && !sets[k].cornerly {
		k--
	}
	before, after := sets[k-1], sets[k]
	if opens(before, after, d) {
		return bridge(all, run, before, after, d), nil
	}
	a, b, ok := trim(all, run)
	if !ok {
		return nil, &FoldError{At: after.at, D: d}
	}
	return append(a, b...), nil
}

// opens reports whether the parallel has a gap at the corner: it does when the
// corner turns away from the side of the parallel.
func opens(before, after outset, d float64) bool {
	return float64(turn(before.out, after.in)*d) <= 0
}

// mitre returns the point at d from both lines through a corner.
func mitre(before, after outset, d float64) (Pt, bool) {
	angle := turn(before.out, after.in)
	if math.Abs(angle) > maxMitre {
		return Pt{}, false
	}
	side := unit(before.out.Add(after.in)).Left()
	return after.seg.P[0].Add(side.Mul(d / math.Cos(angle/2))), true
}

// bridge closes the gap at a corner.
func bridge(a, b []part, before, after outset, d float64) []part {
	tip, ok := mitre(before, after, d)
	if !ok {
		end := a[len(a)-1]
		a = append(a, part{Line(end.seg.P[3], b[0].seg.P[0]), end.from})
		return append(a, b...)
	}
	return append(lengthenEnd(a, tip), lengthenStart(b, tip)...)
}

func lengthenEnd(a []part, tip Pt) []part {
	last := &a[len(a)-1]
	if last.seg.Straight {
		last.seg = Line(last.seg.P[0], tip)
		return a
	}
	return append(a, part{Line(last.seg.P[3], tip), last.from})
}

func lengthenStart(b []part, tip Pt) []part {
	if b[0].seg.Straight {
		b[0].seg = Line(tip, b[0].seg.P[3])
		return b
	}
	return append([]part{{Line(tip, b[0].seg.P[0]), b[0].from}}, b...)
}

// closeParts bridges or trims the corner between the last part and the first.
func closeParts(all []part, last, first outset, d float64) ([]part, error) {
	if opens(last, first, d) {
		tip, ok := mitre(last, first, d)
		if !ok {
			end := all[len(all)-1]
			return append(all, part{Line(end.seg.P[3], all[0].seg.P[0]), end.from}), nil
		}
		return lengthenStart(lengthenEnd(all, tip), tip), nil
	}
	// Cross the second half with the first, so that neither meets itself. A
	// lone segment is halved to have two.
	if len(all) == 1 {
		l, r := all[0].seg.Split(0.5)
		all = []part{{l, all[0].from}, {r, all[0].from}}
	}
	half := len(all) / 2
	tail, head, ok := trim(all[half:], all[:half])
	if !ok {
		return nil, &FoldError{At: first.at, D: d}
	}
	return append(append([]part(nil), head...), tail...), nil
}

// trim cuts the end of a and the start of b where they cross, at the crossing
// that takes least away.
func trim(a, b []part) (ta, tb []part, ok bool) {
	ca, cb := segs(a), segs(b)
	la := ca.Length()
	best := math.Inf(1)
	var x Crossing
	for _, c := range Crossings(ca, cb) {
		if lost := la - c.A + c.B; lost < best {
			best, x = lost, c
		}
	}
	if math.IsInf(best, 1) {
		return nil, nil, false
	}
	ta, tb = cutAfter(a, x.A, x.P), cutBefore(b, x.B, x.P)
	return ta, tb, len(ta) > 0 && len(tb) > 0
}

func segs(parts []part) Curve {
	out := make(Curve, len(parts))
	for i, p := range parts {
		out[i] = p.seg
	}
	return out
}

// cutAfter keeps the parts up to arc length at and ends them exactly in p.
func cutAfter(parts []part, at float64, p Pt) []part {
	var out []part
	for _, q := range parts {
		l := q.seg.Length()
		if at >= l-1e-9 {
			out = append(out, q)
			at -= l
			continue
		}
		if at > 1e-9 {
			q.seg = q.seg.Between(0, q.seg.ParamAt(at))
			out = append(out, q)
		}
		break
	}
	if len(out) > 0 {
		out[len(out)-1].seg = out[len(out)-1].seg.endingAt(p)
	}
	return out
}

// cutBefore keeps the parts from arc length at and begins them exactly in p.
func cutBefore(parts []part, at float64, p Pt) []part {
	back := make([]part, len(parts))
	var total float64
	for i, q := range parts {
		back[len(parts)-1-i] = part{q.seg.Reverse(), q.from}
		total += q.seg.Length()
	}
	kept := cutAfter(back, total-at, p)
	out := make([]part, len(kept))
	for i, q := range kept {
		out[len(kept)-1-i] = part{q.seg.Reverse(), q.from}
	}
	return out
}

// endingAt moves the end by the rounding of a cut, handle and all.
func (s Seg) endingAt(p Pt) Seg {
	if s.Straight {
		return Line(s.P[0], p)
	}
	shift := p.Sub(s.P[3])
	s.P[2], s.P[3] = s.P[2].Add(shift), p
	return s
}

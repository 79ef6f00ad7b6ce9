package geom

import "math"

const (
	parallelTol = 0.01  // mm: promised nearness of a parallel
	parallelFit = 0.004 // mm: nearness asked of each fitted segment
	sameFit     = 2e-4  // mm: nearness of the pieces that a kept structure is measured by
	closeGap    = 1e-6  // mm: a curve whose ends are this near is closed
	maxMitre    = 2.6   // radians (149°): sharper corners get a straight bridge, not a spike
)

// Parallel returns the curve at d millimetres to the left of travel (to the
// right when d is negative), within 0.01 mm. Straight segments stay straight;
// curved ones are divided as needed. Smooth joints stay joined. At a corner
// that opens a gap the neighbours are carried on straight until they meet; at
// one that closes they are trimmed where they cross. A curve whose ends meet
// is treated as closed and its closing corner likewise. Where the curve bends
// or turns more tightly than d allows, or a segment is swallowed at a corner,
// the error is a *FoldError. Segments of no length are left out.
func (c Curve) Parallel(d float64) (Curve, error) {
	parts, err := c.parallelParts(d, parallelFit)
	if err != nil {
		return nil, err
	}
	out := make(Curve, len(parts))
	for i, p := range parts {
		out[i] = p.seg
	}
	return out, nil
}

// ParallelSame is Parallel with exactly one segment for each segment of the
// curve, so that the structure stays the same across sizes. It returns the
// largest distance, in millimetres, between the result and the parallel
// proper. A segment of no length gives one of no length.
func (c Curve) ParallelSame(d float64) (Curve, float64, error) {
	parts, err := c.parallelParts(d, sameFit)
	if err != nil {
		return nil, 0, err
	}
	out := make(Curve, len(c))
	var worst, at float64
	k := 0
	for i, s := range c {
		from := k
		for k < len(parts) && parts[k].from == i {
			k++
		}
		switch {
		case k > from:
			var miss float64
			out[i], miss = single(parts[from:k], s.Straight)
			worst = max(worst, miss)
		case s.Length() > 1e-9 || len(parts) == 0:
			return nil, 0, &FoldError{At: at, D: d}
		case from > 0:
			out[i] = Line(parts[from-1].seg.P[3], parts[from-1].seg.P[3])
		default:
			out[i] = Line(parts[0].seg.P[0], parts[0].seg.P[0])
		}
		at += s.Length()
	}
	return out, worst, nil
}

// part is a segment of a parallel with the index of the segment it came from.
type part struct {
	seg  Seg
	from int
}

// single fits one segment to the parts of one origin.
func single(parts []part, straight bool) (Seg, float64) {
	if len(parts) == 1 {
		if straight {
			return parts[0].seg, 0
		}
		return parts[0].seg, sameFit
	}
	var pts []Pt
	for _, p := range parts {
		for k := range 16 {
			pts = append(pts, p.seg.At(float64(k)/16))
		}
	}
	last := parts[len(parts)-1].seg
	pts = distinct(append(pts, last.P[3]))
	if len(pts) < 3 {
		return Line(parts[0].seg.P[0], last.P[3]), 0
	}
	a, b := longEnough(parts)
	s, miss := fitNearest(pts, a.Tangent(0), b.Tangent(1))
	return s, miss + sameFit
}

// sliver is the longest that trimming at a joint with hardly a kink may leave,
// in mm; its direction says nothing.
const sliver = 1e-3

// longEnough returns the first and the last part whose directions can be
// trusted.
func longEnough(parts []part) (first, last Seg) {
	first, last = parts[0].seg, parts[len(parts)-1].seg
	for _, p := range parts {
		if p.seg.Length() > sliver {
			first = p.seg
			break
		}
	}
	for i := len(parts) - 1; i >= 0; i-- {
		if parts[i].seg.Length() > sliver {
			last = parts[i].seg
			break
		}
	}
	return first, last
}

// outset is one segment on its way to its parallel.
type outset struct {
	seg      Seg
	from     int
	at       float64 // arc length of its start
	in, out  Pt      // directions of travel at its ends
	p0, p3   Pt      // ends of its parallel
	cornerly bool    // a corner, not a smooth joint, precedes it
}

func (c Curve) parallelParts(d, tol float64) ([]part, error) {
	sets, closed, err := c.outsets(d)
	if err != nil || len(sets) == 0 {
		return nil, err
	}
	if closed {
		sets = cornerFirst(sets)
	}
	var all, run []part
	first := sets[0]
	for i, o := range sets {
		if i > 0 && o.cornerly {
			if all, err = joinRuns(all, run, sets, i, first, d); err != nil {
				return nil, err
			}
			run = nil
		}
		run = append(run, o.parallel(d, tol)...)
	}
	if all, err = joinRuns(all, run, sets, len(sets), first, d); err != nil {
		return nil, err
	}
	if closed && first.cornerly {
		if all, err = closeParts(all, sets[len(sets)-1], first, d); err != nil {
			return nil, err
		}
	}
	return inOrder(all), nil
}

// outsets prepares the segments that have a length and joins smooth neighbours.
func (c Curve) outsets(d float64) (sets []outset, closed bool, err error) {
	var at float64
	for i, s := range c {
		l := s.Length()
		if l < 1e-9 {
			continue
		}
		if t, folds := s.fold(d); folds {
			return nil, false, &FoldError{At: at + s.LengthTo(t), D: d}
		}
		o := outset{seg: s, from: i, at: at, in: s.Tangent(0), out: s.Tangent(1), cornerly: true}
		o.p0 = s.P[0].Add(o.in.Left().Mul(d))
		o.p3 = s.P[3].Add(o.out.Left().Mul(d))
		sets = append(sets, o)
		at += l
	}
	if len(sets) == 0 {
		return nil, false, nil
	}
	closed = c.Start().Dist(c.End()) <= closeGap
	for i := range sets {
		prev := i - 1
		if i == 0 {
			if !closed {
				continue
			}
			prev = len(sets) - 1
		}
		smoothen(&sets[prev], &sets[i], d)
	}
	return sets, closed, nil
}

// smoothen gives neighbours that meet smoothly one common end: the point at d
// from both tangents.
func smoothen(a, b *outset, d float64) {
	angle := turn(a.out, b.in)
	if math.Abs(angle) > smoothTurn {
		return
	}
	p := b.seg.P[0].Add(unit(a.out.Add(b.in)).Left().Mul(d / math.Cos(angle/2)))
	a.p3, b.p0, b.cornerly = p, p, false
}

// cornerFirst turns a closed list so that it begins at a corner if it has one.
func cornerFirst(sets []outset) []outset {
	for i, o := range sets {
		if o.cornerly {
			return append(append([]outset(nil), sets[i:]...), sets[:i]...)
		}
	}
	return sets
}

// inOrder turns the parts of a closed curve back to their first segment.
func inOrder(all []part) []part {
	for i := 1; i < len(all); i++ {
		if all[i].from < all[i-1].from {
			return append(append([]part(nil), all[i:]...), all[:i]...)
		}
	}
	return all
}

// parallel fits the parallel of one segment between its prepared ends.
func (o outset) parallel(d, tol float64) []part {
	if o.seg.Straight {
		return []part{{Line(o.p0, o.p3), o.from}}
	}
	f := trace(func(u float64) (p, dir Pt, bend float64) {
		dir = o.seg.Tangent(u)
		return o.seg.At(u).Add(dir.Left().Mul(d)), dir, parallelBend(o.seg.Curvature(min(max(u, 1e-6), 1-1e-6)), d)
	})
	var out []part
	for _, s := range f.fit(0, 1, o.p0, o.p3, tol, 12) {
		out = append(out, part{s, o.from})
	}
	return out
}

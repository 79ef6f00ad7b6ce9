package draw

import (
	"math"

	"gusset/internal/geom"
)

// outline returns the area a pen covers along the path, as closed chains to be
// filled by the non-zero rule. Each chain goes up one side of a run and back
// down the other. On the inner side of a corner it passes through the corner
// itself, so it is the sum of the boxes along the parts and the wedges between
// them, all turning the same way: no winding ever cancels another. Chords stay
// within tol of curves and round ends.
func (s Style) outline(p Path, tol float64) [][]geom.Pt {
	pen := pen{half: s.Width / 2, round: s.Cap == CapRound, tol: tol}
	var out [][]geom.Pt
	for _, r := range p.runs(tol) {
		for _, part := range r.clean().dashed(s.dashes()) {
			out = append(out, pen.run(part)...)
		}
	}
	return out
}

// pen is a round nib of the given half width.
type pen struct {
	half  float64
	round bool
	tol   float64
}

func (n pen) run(r run) [][]geom.Pt {
	switch {
	case len(r.pts) == 1:
		return n.dot(r.pts[0])
	case r.closed:
		return [][]geom.Pt{n.side(r.pts, true), n.side(reversed(r.pts), true)}
	}
	chain := n.side(r.pts, false)
	last := len(r.pts) - 1
	chain = append(chain, n.cap(r.pts[last], r.pts[last].Sub(r.pts[last-1]))...)
	chain = append(chain, n.side(reversed(r.pts), false)...)
	return [][]geom.Pt{append(chain, n.cap(r.pts[0], r.pts[0].Sub(r.pts[1]))...)}
}

// dot is what a run without length leaves: a round pen's nib.
func (n pen) dot(p geom.Pt) [][]geom.Pt {
	if !n.round {
		return nil
	}
	return [][]geom.Pt{n.arc(p, geom.Pt{X: n.half}, -2*math.Pi)}
}

// side returns the chain half a width to the left of pts.
func (n pen) side(pts []geom.Pt, closed bool) []geom.Pt {
	var out []geom.Pt
	count := len(pts) - 1
	if closed {
		count++
	}
	at := func(i int) geom.Pt { return pts[i%len(pts)] }
	for i := range count {
		d := at(i + 1).Sub(at(i)).Unit()
		off := d.Left().Mul(n.half)
		out = append(out, at(i).Add(off), at(i+1).Add(off))
		if i+1 < count || closed {
			out = append(out, n.join(at(i+1), d, at(i+2).Sub(at(i+1)).Unit())...)
		}
	}
	return out
}

// join returns the points on the left side between the directions d and e at
// the corner p.
func (n pen) join(p, d, e geom.Pt) []geom.Pt {
	turn := math.Atan2(d.Cross(e), d.Dot(e))
	if turn >= 0 { // a left turn: the inner side
		return []geom.Pt{p}
	}
	return n.arc(p, d.Left().Mul(n.half), turn)
}

// cap returns the round end at p, reached in direction d.
func (n pen) cap(p, d geom.Pt) []geom.Pt {
	if !n.round {
		return nil
	}
	return n.arc(p, d.Unit().Left().Mul(n.half), -math.Pi)
}

// arc returns points on the circle round c from c+from through the angle turn.
// A chord over the angle a strays r·(1−cos(a/2)) from the arc.
func (n pen) arc(c, from geom.Pt, turn float64) []geom.Pt {
	step := math.Pi / 2
	if n.tol < n.half {
		step = min(step, 2*math.Acos(1-n.tol/n.half))
	}
	k := int(math.Ceil(math.Abs(turn)/step)) + 1
	out := make([]geom.Pt, k+1)
	for i := range out {
		out[i] = c.Add(from.Rot(turn * float64(i) / float64(k)))
	}
	return out
}

// clean returns the run without points that repeat the one before them.
func (r run) clean() run {
	out := run{closed: r.closed}
	for _, p := range r.pts {
		if n := len(out.pts); n == 0 || out.pts[n-1].Dist(p) > 1e-9 {
			out.pts = append(out.pts, p)
		}
	}
	if n := len(out.pts); out.closed && n > 1 && out.pts[0].Dist(out.pts[n-1]) <= 1e-9 {
		out.pts = out.pts[:n-1]
	}
	if len(out.pts) == 1 {
		out.closed = false
	}
	return out
}

// dashed cuts the run into its dashes; no lengths leaves it whole.
func (r run) dashed(lengths []float64) []run {
	if lengths == nil || len(r.pts) < 2 {
		return []run{r}
	}
	pts := r.pts
	if r.closed {
		pts = append(append([]geom.Pt{}, pts...), pts[0])
	}
	var out []run
	cur := []geom.Pt{pts[0]}
	k, left := 0, lengths[0]
	for i := 1; i < len(pts); i++ {
		from := pts[i-1]
		for rest := from.Dist(pts[i]); rest > left; rest = from.Dist(pts[i]) {
			from = from.Lerp(pts[i], left/rest)
			if k%2 == 0 {
				out = append(out, run{pts: append(cur, from)}.clean())
			}
			k++
			left = lengths[k%len(lengths)]
			cur = []geom.Pt{from}
		}
		left -= from.Dist(pts[i])
		cur = append(cur, pts[i])
	}
	if k%2 == 0 {
		out = append(out, run{pts: cur}.clean())
	}
	return out
}

func reversed(pts []geom.Pt) []geom.Pt {
	out := make([]geom.Pt, len(pts))
	for i, p := range pts {
		out[len(pts)-1-i] = p
	}
	return out
}

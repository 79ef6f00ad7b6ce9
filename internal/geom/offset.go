package geom

import (
	"math"

	sf "github.com/peterstace/simplefeatures/geom"
)

// OffsetPolyline returns the loops at d millimetres to the left of travel of
// the closed simple polygon pts: for a counter-clockwise loop positive d goes
// inward, negative outward. Corners are carried to a point as far as mitre
// times |d| from the corner (at least 1) and cut square there. Where the loop
// pinches or runs into itself the result has several loops, or holes, which
// run clockwise when pts runs counter-clockwise; where nothing is left it is
// empty.
func OffsetPolyline(pts []Pt, d, mitre float64) [][]Pt {
	pts = openLoop(pts)
	if len(pts) < 3 || d == 0 {
		return [][]Pt{pts}
	}
	if Area(pts) < 0 {
		out := OffsetPolyline(reversed(pts), -d, mitre)
		for i := range out {
			out[i] = reversed(out[i])
		}
		return out
	}
	mitre = max(mitre, 1)
	if out, sound := plainOffset(pts, d, mitre); sound {
		return [][]Pt{out}
	}
	return bandedOffset(pts, d, mitre)
}

// openLoop drops repeated corners, the closing one among them.
func openLoop(pts []Pt) []Pt {
	pts = distinct(pts)
	for len(pts) > 1 && pts[0].Dist(pts[len(pts)-1]) <= 1e-9 {
		pts = pts[:len(pts)-1]
	}
	return pts
}

func reversed(pts []Pt) []Pt {
	out := make([]Pt, len(pts))
	for i, p := range pts {
		out[len(pts)-1-i] = p
	}
	return out
}

// cornerPoints returns the one or two points that replace the corner at q.
// Both neighbours' parallels run through them; two where the mitre is cut.
func cornerPoints(p, q, r Pt, d, mitre float64) []Pt {
	in, out := unit(q.Sub(p)), unit(r.Sub(q))
	angle := turn(in, out)
	half := math.Cos(angle / 2)
	opens := float64(angle*d) < 0
	if !opens && half > 1e-6 || half*mitre >= 1 {
		side := unit(in.Add(out)).Left()
		return []Pt{q.Add(side.Mul(d / half))}
	}
	// Cut square at mitre·|d|: walk on from each parallel's end to the cut.
	s := math.Abs(math.Sin(angle / 2))
	on := max(mitre-half, 0) / max(s, 1e-12) * math.Abs(d)
	a, b := q.Add(in.Left().Mul(d)), q.Add(out.Left().Mul(d))
	return []Pt{a.Add(in.Mul(on)), b.Sub(out.Mul(on))}
}

// plainOffset moves every edge and joins neighbours. It is sound when every
// edge still runs its own way and the loop does not meet itself.
func plainOffset(pts []Pt, d, mitre float64) (out []Pt, sound bool) {
	n := len(pts)
	first := make([]Pt, n) // end of the edge that arrives at corner i
	last := make([]Pt, n)  // start of the edge that leaves it
	for i, q := range pts {
		c := cornerPoints(pts[(i+n-1)%n], q, pts[(i+1)%n], d, mitre)
		first[i], last[i] = c[0], c[len(c)-1]
		out = append(out, c...)
	}
	for i, q := range pts {
		j := (i + 1) % n
		if first[j].Sub(last[i]).Dot(pts[j].Sub(q)) <= 0 {
			return nil, false
		}
	}
	if _, _, _, crosses := SelfCrossing(out); crosses {
		return nil, false
	}
	return out, true
}

// bandedOffset adds to the polygon, or takes from it, the band along each edge
// and the tip at each opening corner, one at a time.
func bandedOffset(pts []Pt, d, mitre float64) [][]Pt {
	op := boolean(sf.Difference)
	if d < 0 {
		op = sf.Union
	}
	loops, n := [][]Pt{pts}, len(pts)
	for i, q := range pts {
		p, r := pts[(i+n-1)%n], pts[(i+1)%n]
		side := unit(r.Sub(q)).Left().Mul(d)
		bands := [][]Pt{{q, r, r.Add(side), q.Add(side)}}
		if float64(turn(q.Sub(p), r.Sub(q))*d) < 0 {
			tip := []Pt{q, q.Add(unit(q.Sub(p)).Left().Mul(d))}
			tip = append(tip, cornerPoints(p, q, r, d, mitre)...)
			bands = append(bands, append(tip, q.Add(side)))
		}
		for _, b := range bands {
			if b = openLoop(b); len(b) >= 3 && math.Abs(Area(b)) > 1e-9 {
				loops = withoutSlivers(combine(op, loops, b))
			}
			if len(loops) == 0 {
				return nil
			}
		}
	}
	return loops
}

// withoutSlivers drops loops of no area that rounding leaves along edges.
func withoutSlivers(loops [][]Pt) [][]Pt {
	out := loops[:0]
	for _, l := range loops {
		if math.Abs(Area(l)) > 1e-6 {
			out = append(out, l)
		}
	}
	return out
}

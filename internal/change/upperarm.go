package change

import (
	"fmt"
	"math"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// upperArm makes a sleeve wider at the upper arm or, by less than nothing,
// narrower. The trade cuts it down the middle and across the head and spreads
// it: both underarm edges go out by half of the amount at the level, less and
// less down to the wrist, and the head, spread at its foot and not at its
// crown, comes down until it is as long as it was. So it fits its armhole as
// before; where more height is wanted, the hem or the head can be raised after.
func upperArm(j *job) string {
	by := j.step.By.MM()
	done := false
	for _, name := range j.names() {
		p := j.g.Pieces[name].Clone()
		l, ok := p.Line(piece.Level, j.step.At)
		if !ok {
			continue
		}
		done = true
		if why := j.spreadArm(&p, height(l.Curve), by); why != "" {
			j.tell(noArm, name, j.step.By, why)
			return ""
		}
		j.g.Pieces[name] = p
	}
	if !done {
		j.tell(noLevelAnywhere, j.step.At)
		return ""
	}
	words := map[bool]string{true: "wider", false: "narrower"}
	return fmt.Sprintf("sleeve %s by %s at the %s", words[by > 0], strings.TrimLeft(j.step.By.String(), "+-"), j.step.At)
}

// spreadArm spreads one sleeve at height y; a reason when it cannot be.
func (j *job) spreadArm(p *piece.Piece, y, by float64) string {
	head := headOf(*p, y)
	switch {
	case len(head) == 0:
		return "no edge lies above the level"
	case len(head) == len(p.Edges):
		return "every edge lies above the level"
	}
	first, last := p.Edges[head[0]].Curve.Start(), p.Edges[head[len(head)-1]].Curve.End()
	left, right := math.Min(first.X, last.X), math.Max(first.X, last.X)
	wide, mid := right-left, (left+right)/2
	if wide+by < leastArm || wide < 1 {
		return "too little would be left"
	}
	lo, _ := geom.BoundsOf(p.Outline(0.5))
	k := 1 + by/wide
	var old float64
	for _, i := range head {
		old += p.Edges[i].Curve.Length()
	}
	foot := math.Min(first.Y, last.Y)
	down, ok := headDown(*p, head, k, mid, foot, old)
	if !ok {
		return "the head cannot come down so far"
	}
	above := spreadHead(k, down, mid, foot)
	below := func(q geom.Pt) geom.Pt {
		out := by / 2 * math.Copysign(1, q.X-mid) * smooth((q.Y-lo.Y)/(y-lo.Y))
		q.X += out
		return q
	}
	isHead := map[int]bool{}
	for _, i := range head {
		isHead[i] = true
	}
	for i := range p.Edges {
		f := below
		if isHead[i] {
			f = above
		}
		j.mapFine(p, i, func(q geom.Pt, _ float64) geom.Pt { return f(q) })
	}
	closeCorners(p)
	for i, ln := range p.Lines {
		if ln.Kind == piece.Level || ln.Kind == piece.Lengthen {
			h := height(ln.Curve)
			span := acrossAt(*p, h)
			p.Lines[i].Curve = geom.Polyline(geom.Pt{X: span[0], Y: h}, geom.Pt{X: span[1], Y: h})
		}
	}
	return ""
}

// leastArm is the least a sleeve keeps round the upper arm, mm.
const leastArm = 120

// headOf lists the edges of a sleeve that lie above a height, in outline order.
func headOf(p piece.Piece, y float64) []int {
	n := len(p.Edges)
	above := func(i int) bool {
		lo, _ := p.Edges[i%n].Curve.Bounds()
		return lo.Y >= y-0.5
	}
	for i := range n {
		if above(i) || !above(i+1) {
			continue
		}
		var out []int
		for k := i + 1; above(k) && len(out) < n; k++ {
			out = append(out, k%n)
		}
		return out
	}
	return nil
}

// spreadHead widens a head by a factor about its middle and brings it down by
// another above its foot.
func spreadHead(k, down, mid, foot float64) func(geom.Pt) geom.Pt {
	return func(q geom.Pt) geom.Pt {
		return geom.Pt{X: mid + (q.X-mid)*k, Y: foot + (q.Y-foot)*down}
	}
}

// headDown finds how far the spread head comes down to be as long as it was.
func headDown(p piece.Piece, head []int, k, mid, foot, want float64) (float64, bool) {
	return headOfLength(p, head, 0.3, want, func(down float64) func(geom.Pt) geom.Pt { return spreadHead(k, down, mid, foot) })
}

// headOfLength finds the share, between least and 2, by which a map makes the
// sleeve head as long as wanted: by halving, since a larger share is a longer
// head.
func headOfLength(p piece.Piece, head []int, least, want float64, by func(share float64) func(geom.Pt) geom.Pt) (float64, bool) {
	long := func(share float64) float64 {
		f := by(share)
		var sum float64
		for _, i := range head {
			for _, s := range p.Edges[i].Curve {
				for n := range s.P {
					s.P[n] = f(s.P[n])
				}
				sum += s.Length()
			}
		}
		return sum
	}
	lo, hi := least, 2.0
	if long(lo) > want || long(hi) < want {
		return 0, false
	}
	for range 60 {
		if m := (lo + hi) / 2; long(m) > want {
			hi = m
		} else {
			lo = m
		}
	}
	return (lo + hi) / 2, true
}

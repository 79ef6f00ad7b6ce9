package change

import (
	"fmt"
	"math"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
	"gusset/internal/seam"
)

// armholeDepth makes the armhole deeper or, by less than nothing, shallower.
// Its foot goes down the side seam by the amount; the armhole is drawn longer
// below its hollow, where it runs upright, so that it stays smooth and meets
// shoulder and side as before. The head of the sleeve gets as much higher from
// its crown down, and as much wider or narrower as makes it longer by what the
// armhole has gained; the underarm seam gets shorter by the amount.
func armholeDepth(j *job) string {
	by := j.step.By.MM()
	hole, ok := j.seamOf(j.step.Edge)
	if !ok {
		return ""
	}
	bodies := j.bodices()
	grown, isBody := 0.0, map[string]bool{}
	for _, b := range bodies {
		was := b.p.Edges[b.armhole].Curve.Length()
		if !j.deepen(&b, by) {
			j.tell(steepShoulder, b.name, j.step.By)
			return ""
		}
		grown += b.p.Edges[b.armhole].Curve.Length() - was
		isBody[b.name] = true
		j.g.Pieces[b.name] = b.p
	}
	for _, name := range j.drawingsIn(hole) {
		if isBody[name] || j.found.Stops() > 0 {
			continue
		}
		p := j.g.Pieces[name].Clone()
		if why := j.heighten(&p, hole, by, grown); why != "" {
			j.tell(noArm, name, j.step.By, why)
			return ""
		}
		j.g.Pieces[name] = p
	}
	words := map[bool]string{true: "deeper", false: "shallower"}
	return fmt.Sprintf("%s %s by %s", j.step.Edge, words[by > 0], strings.TrimLeft(j.step.By.String(), "+-"))
}

// deepen brings the foot of one armhole down.
func (j *job) deepen(b *bodice, by float64) bool {
	hole, side := b.fromTip(b.armhole), b.fromTip(b.side)
	foot := side.Start()
	hollow := hollowOf(hole)
	deep := hollow.Y - foot.Y
	line := geom.Polyline(foot.Add(geom.Pt{X: -1, Y: -by}), foot.Add(geom.Pt{X: 1, Y: -by}))
	run, ok := endAt(side.Reverse(), line)
	if !ok || deep < leastPart || deep+by < leastPart {
		return false
	}
	across := run.End().X - foot.X
	j.mapFine(&b.p, b.armhole, func(q geom.Pt, _ float64) geom.Pt {
		u := (hollow.Y - q.Y) / deep
		if u <= 0 {
			return q
		}
		return geom.Pt{X: q.X + across*smooth(u), Y: hollow.Y - u*(deep+by)}
	})
	j.set(b, b.side, run.Reverse(), run.Length()-side.Length())
	closeCorners(&b.p)
	return true
}

// hollowOf is where an armhole, walked down from the tip, runs upright: its
// point nearest to the middle of the body.
func hollowOf(hole geom.Curve) geom.Pt {
	l := hole.Length()
	in := math.Copysign(1, hole.Start().X-hole.End().X) // from the foot towards the body
	best := hole.Start()
	at := 0.0
	for k := range 401 {
		if q := hole.At(l * float64(k) / 400); in*(q.X-best.X) > 0 {
			best, at = q, l*float64(k)/400
		}
	}
	// To the last bits, by halving on the direction of travel.
	lo, hi := math.Max(at-l/400, 0), math.Min(at+l/400, l)
	if in*hole.TangentAt(lo).X <= 0 || in*hole.TangentAt(hi).X >= 0 {
		return best
	}
	for range 60 {
		if m := (lo + hi) / 2; in*hole.TangentAt(m).X > 0 {
			lo = m
		} else {
			hi = m
		}
	}
	return hole.At((lo + hi) / 2)
}

// heighten makes one sleeve head higher by an amount and longer by another; a
// reason when it cannot be.
func (j *job) heighten(p *piece.Piece, hole seam.Seam, by, longer float64) string {
	n := len(p.Edges)
	var head []int
	for i := range n { // in outline order, from where the seam begins
		if inSeam(*p, i, hole) && !inSeam(*p, (i+n-1)%n, hole) {
			for k := i; inSeam(*p, k%n, hole) && len(head) < n; k++ {
				head = append(head, k%n)
			}
			break
		}
	}
	if len(head) == 0 || len(head) > n-2 {
		return "its head has no feet"
	}
	first, last := p.Edges[head[0]].Curve.Start(), p.Edges[head[len(head)-1]].Curve.End()
	mid, foot := (first.X+last.X)/2, (first.Y+last.Y)/2
	crown, want := math.Inf(-1), longer
	for _, i := range head {
		_, hi := p.Edges[i].Curve.Bounds()
		crown = math.Max(crown, hi.Y)
		want += p.Edges[i].Curve.Length()
	}
	high := crown - foot
	if high+by < leastPart {
		return "too little would be left of its head"
	}
	k := (high + by) / high
	wide, ok := headWide(*p, head, k, mid, crown, want)
	if !ok {
		return "no width makes its head fit"
	}
	f := spreadHead(wide, k, mid, crown)
	for _, i := range head {
		j.mapFine(p, i, func(q geom.Pt, _ float64) geom.Pt { return f(q) })
	}
	j.followFoot(p, (head[0]+n-1)%n, true, f(first).Sub(first))
	j.followFoot(p, (head[len(head)-1]+1)%n, false, f(last).Sub(last))
	closeCorners(p)
	respan(p)
	return ""
}

// headWide finds how much wider a head must be to have the length wanted.
func headWide(p piece.Piece, head []int, k, mid, crown, want float64) (float64, bool) {
	return headOfLength(p, head, 0.5, want, func(wide float64) func(geom.Pt) geom.Pt { return spreadHead(wide, k, mid, crown) })
}

// followFoot takes the upper end of an underarm edge along with the foot of the
// head, less and less down to the wrist.
func (j *job) followFoot(p *piece.Piece, i int, upIsEnd bool, by geom.Pt) {
	c := p.Edges[i].Curve
	top, low := c.Start(), c.End()
	if upIsEnd {
		top, low = low, top
	}
	tall := top.Y - low.Y
	j.mapFine(p, i, func(q geom.Pt, _ float64) geom.Pt {
		u := (q.Y - low.Y) / tall
		return geom.Pt{X: q.X + by.X*smooth(u), Y: low.Y + u*(tall+by.Y)}
	})
}

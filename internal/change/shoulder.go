package change

import (
	"fmt"
	"math"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// bodice is a front or back seen from its armhole: the shoulder edge, the
// armhole that meets it at the tip, and the side edge that meets the armhole at
// its foot.
type bodice struct {
	name                    string
	p                       piece.Piece
	shoulder, armhole, side int
	tipLast                 bool // the shoulder edge ends at the tip
}

// bodices finds the drawings that have an edge in the shoulder seam next to one
// in the armhole seam. It tells when there is none.
func (j *job) bodices() []bodice {
	shoulder, ok1 := j.seamOf(j.step.Item)
	armhole, ok2 := j.seamOf(j.step.Edge)
	if !ok1 || !ok2 {
		return nil
	}
	var out []bodice
	for _, name := range j.drawingsIn(shoulder) {
		p := j.g.Pieces[name].Clone()
		n := len(p.Edges)
		for i := range p.Edges {
			after, before := (i+1)%n, (i+n-1)%n
			switch {
			case !inSeam(p, i, shoulder):
			case inSeam(p, after, armhole):
				out = append(out, bodice{name, p, i, after, (i + 2) % n, true})
			case inSeam(p, before, armhole):
				out = append(out, bodice{name, p, i, before, (i + n - 2) % n, false})
			}
		}
	}
	if len(out) == 0 {
		j.tell(noArmhole, j.step.Item, j.step.Edge)
	}
	return out
}

// fromTip is an edge walked away from the tip (shoulder, armhole) or, for the
// side, away from the armhole's foot.
func (b bodice) fromTip(i int) geom.Curve {
	c := b.p.Edges[i].Curve
	if (i == b.shoulder) == b.tipLast {
		return c.Reverse()
	}
	return c
}

// set puts back an edge that was walked as fromTip gives it.
func (j *job) set(b *bodice, i int, c geom.Curve, grown float64) {
	back := (i == b.shoulder) == b.tipLast
	if back {
		c = c.Reverse()
	}
	b.p.Edges[i].Curve = c
	j.mark(&b.p.Edges[i])
	if back {
		grown = 0
	}
	j.keepNotches(&b.p, i, grown)
}

// mapFine is mapEdge with a closer fit.
func (j *job) mapFine(p *piece.Piece, i int, f func(q geom.Pt, at float64) geom.Pt) {
	j.mapSpots(p, i, func(s geom.Spot) geom.Pt { return f(s.P, s.At) }, fineFit)
}

// shoulderSlope makes the shoulders squarer or, by less than nothing, more
// sloping. The trade cuts from the armhole towards the neck point and hinges
// there: the seam keeps its length and turns about the neck point until its tip
// stands higher by the amount. The whole armhole goes up with it, so that it
// keeps its shape and the sleeve still fits, and the side seam runs on to its
// foot.
func shoulderSlope(j *job) string {
	by := j.step.By.MM()
	for _, b := range j.bodices() {
		if !j.tilt(&b, by) {
			j.tell(steepShoulder, b.name, j.step.By)
			return ""
		}
		j.g.Pieces[b.name] = b.p
	}
	return shoulderText(j, map[bool]string{true: "squarer", false: "more sloping"})
}

func shoulderText(j *job, words map[bool]string) string {
	return fmt.Sprintf("%s %s by %s", j.step.Item, words[j.step.By.MM() > 0], strings.TrimLeft(j.step.By.String(), "+-"))
}

// tilt turns the shoulder of one piece and raises its armhole.
func (j *job) tilt(b *bodice, by float64) bool {
	seamLine := b.fromTip(b.shoulder)
	tip, neck := seamLine.Start(), seamLine.End()
	out := tip.Sub(neck)
	rise := (out.Y + by) / out.Len()
	if math.Abs(rise) > 0.9 || math.Abs(out.X) < 1 {
		return false
	}
	turn := math.Asin(rise) - math.Asin(out.Y/out.Len())
	if out.X < 0 {
		turn = -turn
	}
	side := b.fromTip(b.side)
	foot := side.Start()
	line := geom.Polyline(foot.Add(geom.Pt{X: -1, Y: by}), foot.Add(geom.Pt{X: 1, Y: by}))
	run, ok := endAt(side.Reverse(), line)
	if !ok {
		return false
	}
	atTip := neck.Add(out.Rot(turn)).Sub(tip)
	atFoot := run.End().Sub(foot)
	j.mapFine(&b.p, b.shoulder, func(q geom.Pt, _ float64) geom.Pt { return neck.Add(q.Sub(neck).Rot(turn)) })
	j.mapFine(&b.p, b.armhole, func(q geom.Pt, _ float64) geom.Pt {
		return q.Add(atTip.Lerp(atFoot, smooth((tip.Y-q.Y)/(tip.Y-foot.Y))))
	})
	j.set(b, b.side, run.Reverse(), run.Length()-side.Length())
	return true
}

// shoulderWidth makes the shoulders wider or, by less than nothing, narrower:
// the seam runs on, or is cut off, along its own line, and the armhole is drawn
// into the old one down to its foot, so that it bends one way as before.
func shoulderWidth(j *job) string {
	by := j.step.By.MM()
	for _, b := range j.bodices() {
		seamLine := b.fromTip(b.shoulder)
		out := seamLine.StartTangent().Mul(-1)
		if seamLine.Length()+by < leastShoulder {
			j.tell(steepShoulder, b.name, j.step.By)
			return ""
		}
		tip, neck := seamLine.Start(), seamLine.End()
		length := tip.Dist(neck)
		j.mapFine(&b.p, b.shoulder, func(q geom.Pt, _ float64) geom.Pt {
			return q.Add(out.Mul(by * q.Dist(neck) / length))
		})
		// The shift runs along the seam, so the distance square to the seam stays
		// what it was: the amount is told by that.
		hole := b.fromTip(b.armhole)
		fade := widthFade * math.Abs(hole.End().Sub(tip).Cross(out))
		j.mapFine(&b.p, b.armhole, func(q geom.Pt, _ float64) geom.Pt {
			return q.Add(out.Mul(by * smooth(1-math.Abs(q.Sub(tip).Cross(out))/fade)))
		})
		j.g.Pieces[b.name] = b.p
	}
	return shoulderText(j, map[bool]string{true: "wider", false: "narrower"})
}

const (
	leastShoulder = 20  // mm of a shoulder seam that stay
	widthFade     = 1.0 // share of the armhole in which a wider shoulder dies out
)

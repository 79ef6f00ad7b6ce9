package change

import (
	"fmt"
	"math"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// The full bust is made by cut and spread. The front is cut from the hem up to
// the bust point and on to a hinge on the armhole, and from the side to the bust
// point. What lies between the two cuts turns about the hinge until the bust
// point stands further out by the amount; the side below follows it without
// turning, so that the upright cut opens evenly down to the hem; and the front
// below the bust goes down as far as the side did, which gives it the length
// that a fuller bust takes. At the side a dart has opened. Turning and shifting
// change no length: armhole and side seam still fit with the dart closed.
//
// By less than nothing the same is undone: the dart gets smaller, and closes.

// The edges of the dart that opens at the side.
const (
	dartLower = "bust-dart-lower"
	dartUpper = "bust-dart-upper"
)

const (
	dartShort = 25.0 // mm from the dart's point to the bust point (common practice: 2 to 3 cm)
	bustBand  = 40.0 // mm to either side of the bust point over which length and width are let in
	hingeBand = 30.0 // mm to either side of the hinge over which the armhole bends into its new course
	closedGap = 0.05 // mm: a dart this narrow is closed
	mostTurn  = 0.45 // radians (26°): a sharper dart wants to be two (common practice)
)

// fullBust spreads, or closes, every front that has a bust point.
func fullBust(j *job) string {
	by := j.step.By.MM()
	hole, ok1 := j.seamOf(j.step.Edge)
	if _, ok2 := j.seamOf(j.step.Item); !ok1 || !ok2 {
		return ""
	}
	done := false
	for _, name := range j.drawingsIn(hole) {
		b, why := j.bustOf(name)
		if why == "" && b.mark < 0 {
			continue // a back or a sleeve
		}
		done = true
		if why == "" {
			why = j.spreadBust(&b, by)
		}
		switch why {
		case "":
		case noDartThere:
			j.tell(noBustDart, name, j.say(-by), j.step.Item, j.say(-by/2), b.levelAtBust())
			return ""
		default:
			j.tell(noBust, name, j.step.By, why)
			return ""
		}
		j.g.Pieces[name] = b.p
	}
	if !done {
		j.tell(noApex, j.step.At, j.step.Edge)
		return ""
	}
	words := map[bool]string{true: "let in for a full bust", false: "taken out for a smaller bust"}
	return fmt.Sprintf("%s %s on each front", strings.TrimLeft(j.step.By.String(), "+-"), words[by > 0])
}

// spreadBust does the cut and spread on one front; a reason when it cannot.
func (j *job) spreadBust(b *bust, by float64) string {
	arm := b.apex.Sub(b.hinge)
	turn, ok := turnOut(arm, b.out*by)
	if !ok {
		return "the bust point cannot swing so far about the armhole"
	}
	apex := b.hinge.Add(arm.Rot(turn))
	v := apex.Sub(b.apex)
	lower := b.lower.Transform(geom.Shift(v))
	upper := b.upper.Transform(geom.Turn(turn, b.hinge))
	foot, head := lower.End(), upper.Start() // the two lips of the dart
	open := head.Sub(apex).Cross(foot.Sub(apex)) / (head.Dist(apex) * foot.Dist(apex))
	if b.upper.End().X < b.apex.X {
		open = -open
	}
	open = -open // the upper lip lies above the lower
	gap := foot.Dist(head)
	switch {
	case gap > closedGap && open < 0:
		return noDartThere
	case math.Asin(math.Min(open, 1)) > mostTurn:
		return fmt.Sprintf("the dart would open by more than %.0f degrees", mostTurn*180/math.Pi)
	}
	b.moveRest(j, v)
	j.bendArmhole(b, turn)
	b.p.Marks[b.mark].P = apex
	mouth := foot.Lerp(head, 0.5)
	tip := apex.Add(mouth.Sub(apex).Unit().Mul(math.Min(dartShort, mouth.Dist(apex)/2)))
	b.layside(j, lower, upper, tip, gap <= closedGap)
	closeCorners(&b.p)
	respan(&b.p)
	j.tellPocketsOnDart(b.p)
	return ""
}

// tellPocketsOnDart tells of what is set across the dart.
func (j *job) tellPocketsOnDart(p piece.Piece) {
	for _, leg := range []string{dartLower, dartUpper} {
		e, ok := p.Edge(leg)
		for _, l := range p.Lines {
			if ok && j.isSet(p.Name, l.Name) && len(geom.Crossings(e.Curve, l.Curve)) > 0 {
				j.tell(pocketOnDart, l.Name, p.Name)
				return
			}
		}
	}
}

// noDartThere is why a bust is not made smaller.
const noDartThere = "there is no bust dart to take it from"

// levelAtBust is the level nearest to the bust point.
func (b *bust) levelAtBust() string {
	best, name := math.Inf(1), ""
	for _, l := range b.p.Lines {
		if off := math.Abs(height(l.Curve) - b.apex.Y); l.Kind == piece.Level && off < best {
			best, name = off, l.Name
		}
	}
	return name
}

// turnOut is the angle that turns an arm so that its end moves across by an
// amount.
func turnOut(arm geom.Pt, across float64) (float64, bool) {
	r := arm.Len()
	from, to := math.Asin(arm.X/r), (arm.X+across)/r
	if math.Abs(to) > 0.95 || arm.Y >= 0 {
		return 0, false
	}
	// The arm hangs down from the hinge: turning it to the left swings it to greater x.
	return math.Asin(to) - from, true
}

// moveRest lets length in below the bust and width beside the upright cut, on
// all edges but those of side and armhole, and on what lies inside.
func (b *bust) moveRest(j *job, v geom.Pt) {
	at := b.apex
	f := func(q geom.Pt) geom.Pt {
		low := smooth((at.Y + bustBand - q.Y) / (2 * bustBand))
		wide := smooth((b.out*(q.X-at.X) + bustBand) / (2 * bustBand))
		return geom.Pt{X: q.X + v.X*low*wide, Y: q.Y + v.Y*low}
	}
	was := b.p.Clone()
	for i, e := range b.p.Edges {
		if e.Name != b.sideName && i != b.side && i != b.armhole && e.Name != dartLower && e.Name != dartUpper {
			j.mapFine(&b.p, i, func(q geom.Pt, _ float64) geom.Pt { return f(q) })
		}
	}
	for i, l := range was.Lines {
		switch {
		case l.Kind == piece.Grain:
		case l.Kind == piece.Level || l.Kind == piece.Lengthen || j.isSet(b.p.Name, l.Name):
			lo, hi := l.Curve.Bounds()
			mid := lo.Lerp(hi, 0.5)
			by := f(mid).Sub(mid)
			if math.Abs(mid.Y-at.Y) < 1 { // the bust line itself
				by = geom.Pt{}
			}
			b.p.Lines[i].Curve = l.Curve.Transform(geom.Shift(by))
		default:
			b.p.Lines[i].Curve = l.Curve.MapPoints(func(q geom.Pt, _ float64) geom.Pt { return f(q) }, fineFit)
		}
	}
	for i, m := range was.Marks {
		if m.Kind != piece.Notch && i != b.mark {
			b.p.Marks[i].P = f(m.P)
		}
	}
}

// bendArmhole turns the armhole below the hinge. How much of the turn a point
// takes is told by its distance from the hinge, which turning does not change.
func (j *job) bendArmhole(b *bust, turn float64) {
	at, _ := b.p.Edges[b.armhole].Curve.Nearest(b.hinge)
	j.mapFine(&b.p, b.armhole, func(q geom.Pt, walked float64) geom.Pt {
		below := walked < at
		if !b.sideFirst {
			below = walked > at
		}
		far := q.Dist(b.hinge)
		if !below {
			far = -far
		}
		return b.hinge.Add(q.Sub(b.hinge).Rot(turn * smooth((far+hingeBand)/(2*hingeBand))))
	})
}

// respan draws the levels and lengthen lines of a piece from side to side.
func respan(p *piece.Piece) {
	for i, l := range p.Lines {
		if l.Kind == piece.Level || l.Kind == piece.Lengthen {
			h := height(l.Curve)
			span := acrossAt(*p, h)
			p.Lines[i].Curve = geom.Polyline(geom.Pt{X: span[0], Y: h}, geom.Pt{X: span[1], Y: h})
		}
	}
}

package change

import (
	"math"

	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// A closure lies along a line drawn inside a piece: buttons along the centre
// front, from just below the neck to just above the hem. When a step moves the
// edges that the line runs up to, the line is cut off or runs on, so that it
// ends as far from them as before, and the buttons are counted anew on it.

// endGap is how near to an edge a closure's line ends on purpose, mm.
const endGap = 40.0

// followClosures fits the lines of closures to the pieces that the step has
// changed. Only straight lines can run on.
func (j *job) followClosures(before pattern.Garment) {
	for _, c := range j.g.View.Closures {
		for _, r := range c.Along {
			for _, name := range j.names() {
				if p := j.g.Pieces[name]; r.Inside && p.Name == r.Piece && touched(p, j.step.ID) {
					j.followClosure(name, r.Edge, before.Pieces[name])
				}
			}
		}
	}
}

func (j *job) followClosure(name, line string, was piece.Piece) {
	p := j.g.Pieces[name].Clone()
	old, ok := was.LineNamed(line)
	if !ok || !old.Curve.Straight(0.05) {
		return
	}
	for i, l := range p.Lines {
		if l.Name != line || !l.Curve.Straight(0.05) {
			continue
		}
		a, b := l.Curve.Start(), l.Curve.End()
		if gap, ok := runOnBy(was, old.Curve.Reverse()); ok {
			a = endsAt(p, l.Curve.Reverse(), gap)
		}
		if gap, ok := runOnBy(was, old.Curve); ok {
			b = endsAt(p, l.Curve, gap)
		}
		if a.Dist(b) > leastPart {
			p.Lines[i].Curve = geom.Polyline(a, b)
		}
	}
	j.g.Pieces[name] = p
}

// runOnBy is how far beyond its end a line that runs on meets the outline, and
// whether it is near.
func runOnBy(p piece.Piece, line geom.Curve) (float64, bool) {
	at := outlineAlong(p, line)
	return at - line.Length(), at-line.Length() < endGap
}

// endsAt is where a line ends that stays so far from the outline.
func endsAt(p piece.Piece, line geom.Curve, gap float64) geom.Pt {
	at := outlineAlong(p, line)
	if math.IsInf(at, 1) {
		return line.End()
	}
	return line.Start().Add(line.EndTangent().Mul(at - gap))
}

// outlineAlong is how far from its start a straight line, run on, leaves the
// piece; infinite when it does not.
func outlineAlong(p piece.Piece, line geom.Curve) float64 {
	mid := line.At(line.Length() / 2)
	ray := geom.Polyline(mid, mid.Add(line.EndTangent().Mul(farOff)))
	least := math.Inf(1)
	for _, e := range p.Edges {
		for _, c := range geom.Crossings(ray, e.Curve) {
			least = math.Min(least, c.A+line.Length()/2)
		}
	}
	return least
}

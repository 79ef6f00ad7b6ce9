package change

import (
	"math"
	"slices"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// bust is one front at work.
type bust struct {
	name          string
	p             piece.Piece
	side, armhole int
	sideFirst     bool // the outline runs up the side into the armhole
	apex, hinge   geom.Pt
	lower, upper  geom.Curve // the side below and above the dart, away from the hem
	out           float64    // +1: the side lies at greater x
	mark          int        // the bust point among the marks
	hadDart       bool
	sideName      string
}

// bustOf looks at a drawing from its bust point; a reason when it has one and
// still cannot be spread.
func (j *job) bustOf(name string) (bust, string) {
	p := j.g.Pieces[name].Clone()
	b := bust{name: name, p: p, mark: slices.IndexFunc(p.Marks, func(m piece.Mark) bool { return m.Name == j.step.At && m.Kind != piece.Notch })}
	if b.mark < 0 {
		return b, ""
	}
	b.apex = p.Marks[b.mark].P
	side, _ := j.seamOf(j.step.Item)
	hole, _ := j.seamOf(j.step.Edge)
	n := len(p.Edges)
	found := false
	for i := range p.Edges {
		if !inSeam(p, i, hole) {
			continue
		}
		before, after := (i+n-1)%n, (i+1)%n
		switch {
		case inSeam(p, before, side):
			b.armhole, b.side, b.sideFirst, found = i, before, true, true
		case inSeam(p, after, side):
			b.armhole, b.side, b.sideFirst, found = i, after, false, true
		}
	}
	if !found {
		return b, "its armhole does not meet the side seam"
	}
	b.hinge = hingeOn(p, b.armhole, b.sideFirst)
	if b.hadDart = p.Index(dartLower) >= 0; b.hadDart {
		return b.withDart()
	}
	return b.withoutDart(j.step.Where.MM())
}

// hingeOn is where an armhole is hinged: at its notch nearest the foot, else a
// third of the way up.
func hingeOn(p piece.Piece, armhole int, footFirst bool) geom.Pt {
	c := p.Edges[armhole].Curve
	l := c.Length()
	at := l / 3
	for _, m := range p.Marks {
		up := m.At
		if !footFirst {
			up = l - m.At
		}
		if m.Kind == piece.Notch && m.Edge == p.Edges[armhole].Name && up > 2*hingeBand {
			at = up
			break
		}
	}
	if !footFirst {
		at = l - at
	}
	return c.At(at)
}

// withoutDart cuts the side a given way below the armhole.
func (b bust) withoutDart(down float64) (bust, string) {
	b.sideName = b.p.Edges[b.side].Name
	c := b.upwards(b.side)
	l := c.Length()
	if l-down < leastPart || down < leastPart {
		return b, "the side is too short for a dart there"
	}
	b.lower, b.upper = c.Split(l - down)
	b.out = math.Copysign(1, c.End().X-b.apex.X)
	return b, ""
}

// withDart takes the two parts of a side that a dart divides already.
func (b bust) withDart() (bust, string) {
	n := len(b.p.Edges)
	low := (b.side + n - 3) % n
	if !b.sideFirst {
		low = (b.side + 3) % n
	}
	b.sideName = b.p.Edges[low].Name
	b.upper, b.lower = b.upwards(b.side), b.upwards(low)
	b.out = math.Copysign(1, b.upper.End().X-b.apex.X)
	return b, ""
}

// upwards is an edge of the side walked towards the armhole.
func (b bust) upwards(i int) geom.Curve {
	if b.sideFirst {
		return b.p.Edges[i].Curve
	}
	return b.p.Edges[i].Curve.Reverse()
}

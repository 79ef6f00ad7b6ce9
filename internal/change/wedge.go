package change

import (
	"fmt"
	"math"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
	"gusset/internal/seam"
)

// A wedge is let in or taken out across a piece: it is cut from one seam nearly
// to the opposite edge, and opened or lapped there like a hinge. The seam gets
// longer or shorter by the amount, the opposite edge keeps its length. A full
// seat wants a wedge at the hip; a hollow back has one taken out below the
// waist.

// fullSeat lets a wedge in at a level; a flat seat, with a negative amount, has
// one taken out.
func fullSeat(j *job) string {
	return j.wedge(j.step.By.MM(), map[bool]string{true: "let in for a full seat", false: "taken out for a flat seat"})
}

// hollowBack takes a wedge out at a level; a negative amount lets one in, for a
// round or erect lower back.
func hollowBack(j *job) string {
	return j.wedge(-j.step.By.MM(), map[bool]string{true: "let in above the hollow", false: "taken out for a hollow back"})
}

func (j *job) wedge(by float64, words map[bool]string) string {
	s, ok := j.seamOf(j.step.Item)
	if !ok {
		return ""
	}
	done, levels := false, map[string]bool{}
	for _, name := range j.drawingsIn(s) {
		p := j.g.Pieces[name]
		for _, n := range levelNames(p) {
			levels[n] = true
		}
		if l, ok := p.Line(piece.Level, j.step.At); ok && j.openAt(name, s, height(l.Curve), by) {
			done = true
		}
	}
	if !done && j.found.Stops() == 0 {
		j.tell(levelOffSeam, j.step.Item, j.step.At, strings.Join(sorted(levels), ", "))
	}
	if j.found.Stops() > 0 {
		return ""
	}
	return fmt.Sprintf("%s %s at the %s of the %s", strings.TrimLeft(j.step.By.String(), "+-"), words[by > 0], j.step.At, j.step.Item)
}

// openAt turns what lies above a level about the point where the opposite edge
// crosses it, so far that the seam's edge opens by the amount. The turn sets in
// smoothly within a band about the level.
func (j *job) openAt(name string, s seam.Seam, y, by float64) bool {
	p := j.g.Pieces[name].Clone()
	line := geom.Polyline(geom.Pt{X: -farOff, Y: y}, geom.Pt{X: farOff, Y: y})
	var open, hinge geom.Pt
	found := [2]bool{}
	for i, e := range p.Edges {
		for _, c := range geom.Crossings(e.Curve, line) {
			if inSeam(p, i, s) {
				open, found[0] = c.P, true
			} else {
				hinge, found[1] = c.P, true
			}
		}
	}
	if !found[0] || !found[1] {
		return false
	}
	width := math.Abs(open.X - hinge.X)
	if math.Abs(by) > mostWedge*width {
		j.tell(wideWedge, j.step.By, name, j.say(mostWedge*width))
		return false
	}
	turn := by / width
	if open.X < hinge.X {
		turn = -turn
	}
	half := math.Min(widestBand, reach(p, y))
	if half < leastBand {
		j.tell(noRoom, j.step.By, j.step.At, name, j.say(0))
		return false
	}
	j.moveAll(&p, func(q geom.Pt) geom.Pt {
		t := smooth((q.Y - y + half) / (2 * half))
		return hinge.Add(q.Sub(hinge).Rot(turn * t))
	})
	keepGrain(&p, j.g.Pieces[name])
	j.g.Pieces[name] = p
	return true
}

// mostWedge is the steepest wedge, as a share of the width across: steeper
// wants a dart or two levels.
const mostWedge = 0.25

func inSeam(p piece.Piece, edge int, s seam.Seam) bool {
	for _, chain := range s.Sides {
		for _, st := range chain {
			if st.Piece == p.Name && st.Edge == p.Edges[edge].Name && !st.Inside {
				return true
			}
		}
	}
	return false
}

// keepGrain gives back the grain of the part below, which has not turned, and
// the levels, which stay level.
func keepGrain(p *piece.Piece, was piece.Piece) {
	for i, l := range p.Lines {
		switch l.Kind {
		case piece.Grain:
			p.Lines[i].Curve = was.Lines[i].Curve
		case piece.Level, piece.Lengthen:
			old := was.Lines[i].Curve
			p.Lines[i].Curve = old.Transform(geom.Shift(geom.Pt{Y: height(l.Curve) - height(old)}))
		}
	}
}

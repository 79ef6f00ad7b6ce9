package change

import (
	"fmt"
	"math"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// roundBack makes the upper back longer for a rounded one or, by less than
// nothing, shorter for an erect one. The trade cuts across the back from the
// centre to the armhole at the shoulder blades, hinges at the armhole and opens
// the centre by the amount. Here the centre goes straight up, so that it stays on its
// fold, the armhole stays at the hinge, and what lies between goes up evenly
// less: straight edges stay straight, and the cut is spread smoothly over a
// band about the level.
func roundBack(j *job) string {
	by := j.step.By.MM()
	hole, ok := j.seamOf(j.step.Edge)
	if !ok {
		return ""
	}
	done := false
	for _, name := range j.drawingsIn(hole) {
		p := j.g.Pieces[name].Clone()
		l, ok := p.Line(piece.Level, j.step.At)
		if !ok {
			continue
		}
		y := height(l.Curve)
		line := geom.Polyline(geom.Pt{X: -farOff, Y: y}, geom.Pt{X: farOff, Y: y})
		var centre, hinge geom.Pt
		var found [2]bool
		for i, e := range p.Edges {
			for _, c := range geom.Crossings(e.Curve, line) {
				if inSeam(p, i, hole) {
					hinge, found[0] = c.P, true
				} else {
					centre, found[1] = c.P, true
				}
			}
		}
		if !found[0] || !found[1] {
			continue
		}
		done = true
		width := hinge.X - centre.X
		if math.Abs(by) > mostWedge*math.Abs(width) {
			j.tell(wideWedge, j.step.By, name, j.say(mostWedge*math.Abs(width)))
			return ""
		}
		half := math.Min(bladeBand, reach(p, y))
		// Above the band everything goes up by its share; the share is told by the
		// place across, which does not change, and the band by where it came from.
		j.moveAll(&p, func(q geom.Pt) geom.Pt {
			q.Y += by * (hinge.X - q.X) / width * smooth((q.Y-y+half)/(2*half))
			return q
		})
		keepGrain(&p, j.g.Pieces[name])
		for i, ln := range p.Lines {
			if ln.Kind == piece.Level && ln.Name == j.step.At {
				p.Lines[i].Curve = l.Curve // where the cut was made
			}
		}
		j.g.Pieces[name] = p
	}
	if !done {
		j.tell(noBlade, j.step.At, j.step.Edge)
		return ""
	}
	words := map[bool]string{true: "let in for a round back", false: "taken out for an erect back"}
	return fmt.Sprintf("%s %s at the %s", strings.TrimLeft(j.step.By.String(), "+-"), words[by > 0], j.step.At)
}

// bladeBand is how far to either side of the level the cut is spread, mm.
const bladeBand = 40

package change

import (
	"fmt"
	"math"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// straighten takes the flare or the taper out of a leg: below a level both sides
// run straight down the grain, as wide as the leg is at the level, or as wide as
// is asked for round the leg, each side edge taking its share.
func straighten(j *job) string {
	ring := j.hemRing(j.step.Edge)
	var girthAt float64
	levels := make([]float64, len(ring))
	spans := make([][2]float64, len(ring))
	for k, h := range ring {
		l, ok := h.p.Line(piece.Level, j.step.From)
		if !ok {
			j.tell(noLevel, h.name, j.step.From, strings.Join(levelNames(h.p), ", "))
			continue
		}
		levels[k] = height(l.Curve)
		if levels[k] < h.y+1 {
			j.tell(levelBelow, j.step.From, h.name)
			continue
		}
		spans[k] = acrossAt(h.p, levels[k])
		girthAt += spans[k][1] - spans[k][0]
	}
	if j.found.Stops() > 0 {
		return ""
	}
	each := 0.0
	if !j.step.To.IsZero() {
		each = (j.step.To.MM() - girthAt) / float64(2*len(ring))
	}
	for k, h := range ring {
		j.warnPlacements(h, levels[k])
		j.runStraight(h, levels[k], spans[k][0]-each, spans[k][1]+each)
	}
	text := fmt.Sprintf("leg straight from the %s", j.step.From)
	if !j.step.To.IsZero() {
		text += ", " + j.step.To.String() + " round"
	}
	return text
}

// acrossAt is where a piece begins and ends across at a height.
func acrossAt(p piece.Piece, y float64) [2]float64 {
	line := geom.Polyline(geom.Pt{X: -farOff, Y: y}, geom.Pt{X: farOff, Y: y})
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, e := range p.Edges {
		for _, c := range geom.Crossings(e.Curve, line) {
			lo, hi = math.Min(lo, c.P.X), math.Max(hi, c.P.X)
		}
	}
	return [2]float64{lo, hi}
}

// runStraight draws both sides of a piece straight down at x0 and x1. They leave
// the old line at the level and have reached the new one a third of the way
// down, so that there is no kink.
func (j *job) runStraight(h hemPiece, level, x0, x1 float64) {
	p := h.p.Clone()
	blend := math.Min((level-h.y)/3, 200)
	for _, s := range sidesOf([]hemPiece{h}, []float64{level}) {
		x := x0
		if s.out > 0 {
			x = x1
		}
		for _, i := range s.edges {
			j.moveEdge(&p, i, func(q geom.Pt) geom.Pt {
				t := smooth((level - q.Y) / blend)
				q.X += (x - q.X) * t
				return q
			})
		}
	}
	j.setStraight(&p, h.i)
	j.g.Pieces[h.name] = p
}

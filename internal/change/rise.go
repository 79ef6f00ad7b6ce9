package change

import (
	"fmt"
	"math"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// crotchDepth makes the rise deeper or shallower: the trade cuts across front
// and back between waist and fork and spreads or overlaps evenly. Everything
// above the level goes up along the grain, with a smooth band round the level so
// that the sides come out trued; levels above go along.
func crotchDepth(j *job) string {
	by := j.step.By.MM()
	var at []string
	half := math.Inf(1)
	for _, name := range j.names() {
		p := j.g.Pieces[name]
		if l, ok := p.Line(piece.Level, j.step.At); ok {
			at = append(at, name)
			half = math.Min(half, reach(p, height(l.Curve)))
		}
	}
	if len(at) == 0 {
		j.tell(noLevelAnywhere, j.step.At)
		return ""
	}
	half = math.Min(half, widestBand)
	if need := math.Abs(by) / steepest * ramp1; half < leastBand || by < 0 && need > half {
		j.tell(noRoom, j.step.By, j.step.At, at[0], j.say(half*steepest/ramp1))
		return ""
	}
	for _, name := range at {
		p := j.g.Pieces[name].Clone()
		l, _ := p.Line(piece.Level, j.step.At)
		y0 := height(l.Curve)
		j.moveAll(&p, func(q geom.Pt) geom.Pt {
			q.Y += by * smooth((q.Y-y0+half)/(2*half))
			return q
		})
		j.g.Pieces[name] = p
	}
	word := "deeper"
	if by < 0 {
		word = "shallower"
	}
	return fmt.Sprintf("rise %s %s at the %s", strings.TrimLeft(j.step.By.String(), "+-"), word, j.step.At)
}

package change

import (
	"fmt"
	"math"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// Where a lengthening is spread. The trade cuts at the line, spreads or
// overlaps, and trues the sides; a smooth displacement over a band round the
// line gives the trued sides in one step.
const (
	widestBand = 120 // mm to either side of the line
	leastBand  = 10  // the same: a line nearer to an end of its piece has no room to be cut at
	steepest   = 0.8 // how much of the band a shortening may take up
)

// lengthen moves everything below the named line along the grain, on every
// piece that has the line, by the same ramp.
func lengthen(j *job) string {
	by := j.step.By.MM()
	half := math.Inf(1)
	var at []string
	for _, name := range j.names() {
		p := j.g.Pieces[name]
		if l, ok := p.Line(piece.Lengthen, j.step.At); ok {
			at = append(at, name)
			half = math.Min(half, clear(p, height(l.Curve)))
		}
	}
	if len(at) == 0 {
		j.tell(noLine, j.step.At, strings.Join(j.lengthenLines(), ", "))
		return ""
	}
	half = math.Min(math.Max(half, math.Abs(by)/steepest*ramp1), widestBand)
	for _, name := range at {
		p := j.g.Pieces[name]
		l, _ := p.Line(piece.Lengthen, j.step.At)
		if room := reach(p, height(l.Curve)); room < half {
			j.tell(noRoom, j.step.By, j.step.At, name, j.say(room*steepest/ramp1))
			return ""
		}
		y0 := height(l.Curve)
		j.moveAll(&p, func(q geom.Pt) geom.Pt {
			q.Y -= by * smooth((y0+half-q.Y)/(2*half))
			return q
		})
		j.g.Pieces[name] = p
	}
	word := "longer"
	if by < 0 {
		word = "shorter"
	}
	return fmt.Sprintf("%s %s at %s", strings.TrimLeft(j.step.By.String(), "+-"), word, j.step.At)
}

// ramp1 is the steepest slope of smooth over a band of two halves: 15/8 over 2.
const ramp1 = 15.0 / 16

// smooth rises from 0 to 1 with no kink and no jump of curvature.
func smooth(t float64) float64 {
	t = math.Min(math.Max(t, 0), 1)
	return t * t * t * (t*(t*6-15) + 10)
}

// clear is how far the band may run from height y before it meets a level, a
// notch, a placement or a corner, where nothing should be stretched.
func clear(p piece.Piece, y float64) float64 {
	room := reach(p, y)
	near := func(q geom.Pt) {
		if d := math.Abs(q.Y - y); d > 1 {
			room = math.Min(room, d)
		}
	}
	for _, l := range p.Lines {
		if l.Kind == piece.Level || l.Kind == piece.Placement {
			lo, hi := l.Curve.Bounds()
			near(lo)
			near(hi)
		}
	}
	for _, m := range p.Marks {
		near(m.P)
	}
	for _, e := range p.Edges {
		near(e.Curve.Start())
	}
	return room
}

// reach is how far height y lies from the nearer end of the piece.
func reach(p piece.Piece, y float64) float64 {
	lo, hi := geom.BoundsOf(p.Outline(1))
	return math.Max(0, math.Min(hi.Y-y, y-lo.Y))
}

func (j *job) lengthenLines() []string {
	var names []string
	seen := map[string]bool{}
	for _, n := range j.names() {
		for _, l := range j.g.Pieces[n].Lines {
			if l.Kind == piece.Lengthen && !seen[l.Name] {
				seen[l.Name] = true
				names = append(names, l.Name)
			}
		}
	}
	return names
}

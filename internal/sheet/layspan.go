package sheet

import (
	"math"
	"slices"

	"gusset/internal/draw"
	"gusset/internal/geom"
	"gusset/internal/lay"
)

// span is the part of a lay that one chart shows: the whole, or one section.
type span struct {
	lay      lay.Lay
	sections []int
	from, to float64 // mm along the cloth
	wide     float64
}

// wholeOf is all of a lay, from the squared line on.
func wholeOf(l lay.Lay) span {
	s := span{lay: l, from: lay.Squaring, to: l.Length}
	for i, sec := range l.Sections {
		s.sections = append(s.sections, i)
		s.wide = max(s.wide, sec.Width)
	}
	return s
}

// sectionOf is one section, as it lies on the table.
func sectionOf(l lay.Lay, i int) span {
	s := l.Sections[i]
	return span{lay: l, sections: []int{i}, from: max(s.From, lay.Squaring), to: s.To, wide: s.Width}
}

// scale is the scale, 1 to so many, at which a span fits a box: a whole
// number, so that the chart can be measured with a rule.
func (s span) scale(box draw.Rect) float64 {
	room := box.Inset(chartMargin)
	return max(leastScale, math.Ceil(max((s.to-s.from)/room.W(), s.wide/room.H())))
}

// height is what the picture of a span takes of a page's room.
func (s span) height(width, room float64) float64 {
	return min(room, s.wide/s.scale(draw.Box(0, 0, width, room))+2*chartMargin)
}

// onChart is the map from the cloth to the paper: the beginning of the span at
// the left, the side that is measured from at the foot.
func (s span) onChart(box draw.Rect) (to geom.Affine, scale float64, ok bool) {
	if s.to <= s.from || s.wide <= 0 {
		return to, 0, false
	}
	scale = s.scale(box)
	room := box.Inset(chartMargin)
	return geom.Affine{A: 1 / scale, D: 1 / scale, E: room.Min.X - s.from/scale, F: room.Max.Y - s.wide/scale}, scale, true
}

// placed are the pieces of a span in the order of cutting, which is that of the
// lay, with their numbers.
func (s span) placed() []numbered {
	var out []numbered
	for i, p := range s.lay.Placed {
		if slices.Contains(s.sections, p.Section) {
			out = append(out, numbered{p, i + 1})
		}
	}
	return out
}

// numbered is a placed piece with its number in the order of cutting.
type numbered struct {
	lay.Placed
	number int
}

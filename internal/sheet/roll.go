package sheet

import (
	"gusset/internal/draw"
	"gusset/internal/finding"
	"gusset/internal/finish"
	"gusset/internal/geom"
	"gusset/internal/unit"
)

// rollEdge is the paper left blank at the sides and ends of a roll sheet, in
// mm, and rollFoot the room for the foot line.
const (
	rollEdge = 10.0
	rollFoot = 8.0
	// longestOnRoll is the length of paper for pieces on one page.
	longestOnRoll = draw.MaxSide - 2*rollEdge - rollFoot
)

// Roll returns the pattern on a roll of paper of the given width in mm, at true
// scale, as long as it needs and in several pages where it is longer than a PDF
// page can be. A piece that is wider than the roll is a finding, and then there
// are no pages.
func Roll(h Heading, cuts []finish.Cut, width float64) (draw.Doc, finding.List) {
	const name = "pattern, roll"
	inner := width - 2*rollEdge
	pieces := showEach(cuts)
	rest := append(parts(h, pieces), scaleBlock())
	var told finding.List
	for _, p := range rest {
		if least := p.least() + 2*rollEdge; least > width {
			told = append(told, rollNarrow.At(finding.Place{}, p.name, unit.Format(least, h.Unit), unit.Format(width, h.Unit)))
		} else if long := p.longest(); long > longestOnRoll {
			told = append(told, rollLong.At(finding.Place{}, p.name, unit.Format(long, h.Unit), unit.Format(longestOnRoll, h.Unit)))
		}
	}
	if len(told) > 0 {
		return h.doc(name, nil), told
	}
	var pages []draw.Page
	for len(rest) > 0 {
		var a arrangement
		a, rest = arrange(rest, inner, longestOnRoll)
		pages = append(pages, rollPage(h.Docket+", "+name, a, width))
	}
	for i, p := range pages {
		draw.FootLine(p.List, draw.Box(rollEdge, rollEdge-2, inner, 6), h.foot(name), pageOf(i+1, len(pages)))
	}
	return h.doc(name, pages), nil
}

// rollPage puts an arrangement on a page as long as it needs.
func rollPage(title string, a arrangement, width float64) draw.Page {
	l := &draw.List{Title: title}
	l.Transform(geom.Shift(geom.Pt{X: rollEdge, Y: rollEdge + rollFoot}), func(l *draw.List) { l.Append(a.list(title)) })
	return draw.Page{Width: width, Height: a.height + 2*rollEdge + rollFoot, List: l}
}

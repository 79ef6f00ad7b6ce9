package sheet

import (
	"gusset/internal/draw"
	"gusset/internal/geom"
	"gusset/internal/lay"
	"gusset/internal/unit"
)

// Pictures of lays by themselves have one scale for all lays of up to 5 m, so
// that two of them can be compared.
const (
	pictureScale = leastScale
	pictureWords = 4.0
	pictureLeast = 120.0 // mm, so that the words find room
)

// LayPicture is one lay as a picture by itself, with its length in words above.
func LayPicture(l lay.Lay, u unit.Unit) draw.Page {
	whole := wholeOf(l)
	wide := min((whole.to-whole.from)/pictureScale+2*chartMargin, draw.MaxSide/2)
	words := draw.Block{Width: max(pictureLeast, wide-2*chartMargin), Size: pictureWords}
	title := layTitle(u, l)
	head := words.Height(title) + 3
	chart := draw.Box(0, 0, max(wide, words.Width+2*chartMargin)+0.01, whole.wide/pictureScale+2*chartMargin+0.01)
	p := draw.Page{Width: chart.W(), Height: chart.H() + head, List: &draw.List{Title: title}}
	p.List.Rect(draw.Fill(draw.Gray(255)), p.Area())
	layPicture(p.List, whole, chart, u)
	words.Draw(p.List, geom.Pt{X: chartMargin, Y: p.Height - 4}, title)
	return p
}

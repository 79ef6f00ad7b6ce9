package sheet

import (
	"strconv"

	"gusset/internal/draw"
	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/piece"
)

// Spot is a finding's number at its place on a piece.
type Spot struct {
	Number int
	Heavy  bool // it stops the work
	Place  finding.Place
}

// Layer is the layer of a picture that has the mark.
func (s Spot) Layer() string { return "found:" + strconv.Itoa(s.Number) }

// ofDrawn are the spots on a piece of which some copy is drawn; paired tells that
// the drawing serves both hands.
func ofDrawn(spots []Spot, name string, paired bool, drawn piece.Copy) []Spot {
	var out []Spot
	for _, s := range spots {
		if s.Place.Piece == name && (paired || s.Place.Copy == "" || s.Place.Copy == string(drawn)) {
			out = append(out, s)
		}
	}
	return out
}

// spotsOn marks findings on a piece that is drawn within lo and hi: at the place
// on the edge, in the middle of an edge of which no place is told, or in the
// middle of the piece. A place on the right copy is shown on the left one that is
// drawn, its mirror image.
func spotsOn(l *draw.List, p piece.Piece, drawn piece.Copy, spots []Spot, lo, hi geom.Pt) {
	r := 0.028 * max(hi.X-lo.X, hi.Y-lo.Y)
	taken := map[geom.Pt]int{}
	for _, s := range spots {
		at := lo.Lerp(hi, 0.5)
		if e, ok := p.Edge(s.Place.Edge); ok && len(e.Curve) > 0 {
			d := e.Curve.Length() / 2
			if s.Place.HasAt {
				d = min(max(s.Place.At, 0), e.Curve.Length())
				if drawn == piece.Left && s.Place.Copy == string(piece.Right) {
					d = e.Curve.Length() - d
				}
			}
			at = e.Curve.At(d)
		}
		n := taken[at]
		taken[at]++
		at.X = min(max(at.X, lo.X+r/2), hi.X-r/2) + 2.1*r*float64(n) // several at one place stand beside each other
		ink := draw.RGB(107, 67, 0)
		if s.Heavy {
			ink = draw.RGB(143, 20, 32)
		}
		l.Layer(s.Layer(), func(l *draw.List) {
			l.Circle(draw.Style{Stroke: ink, Width: r / 5, Fill: draw.Gray(255)}, at, r)
			l.Text(draw.Text{At: at.Sub(geom.Pt{Y: 0.42 * r}), Size: 1.15 * r, Anchor: draw.Middle, Bold: true, Color: ink, Body: strconv.Itoa(s.Number)})
		})
	}
}

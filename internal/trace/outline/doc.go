// Package outline finds the edge of a paper piece in photos whose map to the
// table is known: first roughly, by telling paper from table by colour on a
// grid of a millimetre, and then each place of the edge by where the light
// falls off most steeply in the photo itself. From the points come notches,
// corners, and lines and cubic curves between corners.
//
// What is found lies on the table's plane in the frame of the cards. Loops run
// counter-clockwise seen from above, so that paper is on the left.
package outline

import (
	"math"

	"gusset/internal/geom"
	"gusset/internal/trace/camera"
	"gusset/internal/trace/photo"
)

// Shot is a photo with its view.
type Shot struct {
	Photo *photo.Photo
	View  camera.View
}

// Card is a card that lies on the table: its middle and turn, and the side of
// its paper in mm.
type Card struct {
	At    geom.Pt
	Angle float64
	Side  float64
}

// covers reports whether p lies on the card or within margin mm of it.
func (c Card) covers(p geom.Pt, margin float64) bool {
	d := p.Sub(c.At)
	if far := math.Sqrt2 * (c.Side/2 + margin); max(d.X, -d.X, d.Y, -d.Y) > far {
		return false // most places are far from most cards
	}
	d = d.Rot(-c.Angle)
	return max(d.X, -d.X, d.Y, -d.Y) <= c.Side/2+margin
}

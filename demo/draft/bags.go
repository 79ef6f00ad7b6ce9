package main

import (
	"gusset/internal/geom"
	"gusset/internal/piece"
)

// draftBags draws the two halves of the side pocket's bag as they lie beside
// the outseam before they are turned in. The mouth is the very curve of the
// outseam between the pocket notches; the rest is a rounded bag that hangs
// forward of the seam. The back half is the front half's mirror image.
func draftBags(f frontDraft) (front, back piece.Piece) {
	lo, _ := f.piece.Notch("outseam", "pocket-bottom")
	hi, _ := f.piece.Notch("outseam", "pocket-top")
	mouth := f.outseam.Between(lo.At, hi.At)
	mouth = mouth.Transform(geom.Shift(geom.Pt{}.Sub(mouth.Start())))
	foot, head := mouth.Start(), mouth.End()
	// The bag deepens and widens by a millimetre or two a size.
	at := func(x, y float64) geom.Pt {
		return geom.Pt{X: foot.X + x*(1+0.01*float64(f.step)), Y: foot.Y + y*(1+0.02*float64(f.step))}
	}
	round := geom.Smooth([]geom.Pt{
		foot, at(48, -72), at(98, -90), at(146, -56), at(154, 8),
		{X: at(122, 0).X, Y: foot.Y + 84}, {X: at(66, 0).X, Y: head.Y - 24}, head,
	}, geom.Pt{X: 0.42, Y: -0.91}, geom.Pt{X: -0.97, Y: 0.24})
	front = piece.Piece{
		Name: "bag-front",
		Edges: []piece.Edge{
			edge("mouth", seam, mouth.Reverse()),
			edge("round", seam, round),
		},
		Lines: []piece.Line{grainAt(60, -30, 70)},
	}
	back = front.Mirror()
	back.Name = "bag-back"
	return front, back
}

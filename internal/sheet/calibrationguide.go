package sheet

import (
	"gusset/internal/cards"
	"gusset/internal/draw"
	"gusset/internal/geom"
)

// cardGuide is the page of instructions before the cards: what worked, and how
// much a slip costs, was measured on rendered photos (internal/trace/scene).
var cardGuide = []struct {
	head    string
	lines   []string
	height  float64 // of the picture
	picture func(*draw.List, draw.Rect)
}{
	{"Lay out", []string{
		"Spread a dark plain cloth or coloured paper on a flat table: the edge of the piece is found by the difference in lightness.",
		"Press the piece flat and lay it down, grain upright. Weigh it down in many places with something flat that stays inside the outline. A hem that stands up by 5 mm is drawn up to 3 mm wrong, and one photo cannot show it.",
		"Put a card near every corner of the piece, at least four, all arrows the same way, 3 cm or more away from the piece; for a long piece a further one at the middle of each long side. Tape every card down along its sides.",
	}, 0, nil},
	{"Tape", []string{
		"Hold a steel tape or a good tape measure from cross to cross and read it to the millimetre, on a small piece to the half, best along both diagonals, corner card to corner card. The size of everything comes from these readings, not from the printer.",
		"Example: gusset trace photo.jpg --tape \"A-D 118,4 cm\" --tape \"B-C 117,9 cm\" --to front.svg",
	}, 68, drawCardLayout},
	{"Photograph", []string{
		"Light the table evenly, with no glare and no lamp behind you; do not use the flash. Use the main lens without zoom, portrait, panorama or filter. Have every card whole in the picture, with room round it.",
		"Stand so that you look down on the piece, tilted by no more than a third of a right angle. Take a second photo from the opposite side: only two photos can show that the paper was not flat.",
		"A piece longer than 1.2 m: take it in parts. Neighbouring photos must share two cards, better four; do not move cards or piece between photos.",
	}, 0, nil},
	{"Before you rely on it", []string{
		"Once for each phone: cut a rectangle of 400 x 600 mm from stiff paper with a knife and a steel rule (mind the fingers: cut away from the hand that holds the rule), photograph it five times from different places, trace each and compare sides and diagonals with the rule. Trust the phone as far as these five agree.",
	}, 0, nil},
}

// drawCardLayout draws a piece with six cards round it and two tapes.
func drawCardLayout(l *draw.List, box draw.Rect) {
	const k = 0.085 // of true size
	c := box.Center()
	l.Transform(geom.Affine{A: k, D: k, E: c.X, F: c.Y}, func(l *draw.List) {
		l.Rect(draw.Style{Fill: draw.Gray(205)}, draw.Box(-760, -395, 1520, 790))
		l.Path(draw.Style{Fill: draw.White, Stroke: draw.Black, Width: 0.25}, layoutPiece())
		l.Line(penGrain, geom.Pt{X: -300, Y: 10}, geom.Pt{X: 260, Y: 10})
		l.Text(draw.Text{At: geom.Pt{Y: 30}, Size: 30, Anchor: draw.Middle, Body: "grain"})
		for i, x := range []float64{-620, 620, 0} {
			for j, y := range []float64{290, -290} {
				drawLayoutCard(l, cards.ID(2*i+j), geom.Pt{X: x, Y: y})
			}
		}
		drawLayoutTapes(l)
	})
}

// drawLayoutTapes draws the two diagonals from cross to cross. The arrows of
// the cards point along the grain, to the right, so a cross stands at the left.
func drawLayoutTapes(l *draw.List) {
	cross := func(x, y float64) geom.Pt { return geom.Pt{X: x - cards.Reach, Y: y} }
	tape := draw.DashPen(draw.Gray(70), 0.3, 1.6, 0.8)
	l.Line(tape, cross(-620, 290), cross(620, -290))
	l.Line(tape, cross(-620, -290), cross(620, 290))
	l.Text(draw.Text{At: geom.Pt{X: -560, Y: 150}, Size: 30, Body: "A-D"})
	l.Text(draw.Text{At: geom.Pt{X: -560, Y: -190}, Size: 30, Body: "B-C"})
}

// drawLayoutCard draws one small card, its arrow along the grain.
func drawLayoutCard(l *draw.List, id cards.ID, at geom.Pt) {
	l.Rect(draw.Style{Fill: draw.White, Stroke: draw.Black, Width: 0.15}, draw.Box(at.X-cards.Cut/2, at.Y-cards.Cut/2, cards.Cut, cards.Cut))
	l.Rect(draw.Style{Fill: draw.Gray(110)}, draw.Box(at.X-26, at.Y-26, 52, 52))
	l.Text(draw.Text{At: geom.Pt{X: at.X, Y: at.Y - 15}, Size: 42, Anchor: draw.Middle, Bold: true, Body: id.String(), Color: draw.White})
	l.Path(draw.Fill(draw.Black), draw.Polygon(at.Add(geom.Pt{X: 52}), at.Add(geom.Pt{X: 32, Y: 12}), at.Add(geom.Pt{X: 32, Y: -12})))
}

// layoutPiece is a trouser leg's outline, lying on its side.
func layoutPiece() draw.Path {
	var p draw.Path
	p.Move(geom.Pt{X: -480, Y: -190})
	p.Line(geom.Pt{X: 500, Y: -160})
	p.Line(geom.Pt{X: 500, Y: 160})
	p.Cubic(geom.Pt{X: 200, Y: 140}, geom.Pt{X: -60, Y: 150}, geom.Pt{X: -200, Y: 215})
	p.Cubic(geom.Pt{X: -260, Y: 130}, geom.Pt{X: -380, Y: 125}, geom.Pt{X: -500, Y: 95})
	p.Close()
	return p
}

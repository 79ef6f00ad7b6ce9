package draw

import "gusset/internal/geom"

// Joint marks. Where two sheets meet, a small ring is printed half on either
// side of the joint, on both sheets at the same place of the drawing. Each half
// holds the name of the sheet it belongs to, so a ring that closes says at once
// that the right sheets lie together, in the right place.
const (
	jointRing   = 4.0 // radius in mm
	jointLetter = 3.0 // text size in mm
	jointPen    = 0.15
)

// jointLayer is the layer of everything that only serves to join sheets.
const jointLayer = "sheet joints"

var jointInk = Gray(90)

// side is one of a tile's four sides: the way to the neighbour.
type side struct{ right, down int }

var sides = []side{{right: 1}, {right: -1}, {down: 1}, {down: -1}}

// joints draws, in the drawing's own coordinates, the sides of a tile where a
// neighbour is joined: the line to cut or to glue up to, and its rings.
func (t Tiles) joints(l *List, tile Tile) {
	l.Layer(jointLayer, func(l *List) {
		for _, s := range sides {
			column, row := tile.Column+s.right, tile.Row+s.down
			if t.grid.has(column, row) {
				t.joint(l, tile, s, tileName(column, row))
			}
		}
	})
}

func (t Tiles) joint(l *List, tile Tile, s side, neighbour string) {
	a, b := tile.Live.sideLine(s)
	l.Line(DashPen(jointInk, jointPen, 3, 2), a, b)
	out := geom.Pt{X: float64(s.right), Y: -float64(s.down)}
	for _, at := range []float64{0.25, 0.75} {
		c := a.Lerp(b, at)
		l.Circle(Pen(jointInk, jointPen), c, jointRing)
		jointName(l, c.Sub(out.Mul(jointRing/2)), tile.Name, out)
		jointName(l, c.Add(out.Mul(jointRing/2)), neighbour, out)
	}
	l.Text(jointWords(a.Lerp(b, 0.5), s, neighbour))
}

// jointWords says what to do at the middle of a side: on the sheets to the
// right and below, whose sides are cut, and on the strips that go under them.
func jointWords(mid geom.Pt, s side, neighbour string) Text {
	const size = 2.6
	t := Text{At: mid, Size: size, Anchor: Middle, Color: jointInk, Body: "cut here, glue on " + neighbour}
	if s.right+s.down > 0 {
		t.Body = "glue strip, goes under " + neighbour
	}
	const gap = 1.2
	// To the right of an upright joint and below a level one lies the strip of
	// one sheet, and the cut sheet's own window.
	if s.right != 0 {
		t.Angle = 90
		t.At.X += gap + Ascent*size
	} else {
		t.At.Y -= gap + Ascent*size
	}
	return t
}

// jointName prints a sheet's name in its half of a ring, along the joint.
func jointName(l *List, at geom.Pt, name string, out geom.Pt) {
	t := Text{Size: jointLetter, Anchor: Middle, Color: jointInk, Body: name}
	drop := geom.Pt{Y: -CapHeight * jointLetter / 2}
	if out.X != 0 {
		t.Angle = 90
		drop = geom.Pt{X: CapHeight * jointLetter / 2}
	}
	t.At = at.Add(drop)
	l.Text(t)
}

// sideLine returns the ends of one side of the box, from the left or from the
// bottom.
func (r Rect) sideLine(s side) (a, b geom.Pt) {
	lo, hi := r.Min, r.Max
	switch {
	case s.right > 0:
		return geom.Pt{X: hi.X, Y: lo.Y}, hi
	case s.right < 0:
		return lo, geom.Pt{X: lo.X, Y: hi.Y}
	case s.down > 0:
		return lo, geom.Pt{X: hi.X, Y: lo.Y}
	}
	return geom.Pt{X: lo.X, Y: hi.Y}, hi
}

package draw

import (
	"math"

	"gusset/internal/geom"
)

// Anchor says which point of a line of text stands at its place.
type Anchor uint8

// The start, the middle or the end of the base line.
const (
	Start Anchor = iota
	Middle
	End
)

// Text is one line of text.
type Text struct {
	At     geom.Pt // where the anchor of the base line stands
	Size   float64 // font size in mm; a capital is CapHeight (0.72) of it high
	Angle  float64 // degrees counter-clockwise
	Anchor Anchor
	Bold   bool
	Body   string
	Color  Color // none (the zero value) is black
}

// ink returns the colour to print with.
func (t Text) ink() Color {
	if t.Color.None() {
		return Black
	}
	return t.Color
}

// width returns the length of the line in mm.
func (t Text) width() float64 { return TextWidth(t.Body, t.Size, t.Bold) }

// frame returns the map from the line's own coordinates (base line from 0 along
// x, in mm) to where it stands.
func (t Text) frame() geom.Affine {
	back := 0.0
	switch t.Anchor {
	case Middle:
		back = t.width() / 2
	case End:
		back = t.width()
	}
	a := math.Mod(t.Angle, 360) * math.Pi / 180
	return geom.Shift(geom.Pt{X: -back}).Then(geom.Turn(a, geom.Pt{})).Then(geom.Shift(t.At))
}

// corners returns the corners of the box the text stands in, turned with it.
func (t Text) corners() [4]geom.Pt {
	w := t.width()
	c := Rect{geom.Pt{Y: -Descent * t.Size}, geom.Pt{X: w, Y: Ascent * t.Size}}.corners()
	m := t.frame()
	for i := range c {
		c[i] = m.Apply(c[i])
	}
	return c
}

// outline returns the shapes of the letters, to be filled.
func (t Text) outline() Path {
	f, m := faceOf(t.Bold), t.frame()
	var p Path
	x := 0.0
	for _, r := range f.printable(t.Body) {
		g := f.glyph(r)
		to := geom.Affine{A: t.Size, D: t.Size, E: x}.Then(m)
		p.Append(g.shape.Transform(to))
		x += float64(g.advance) / 1000 * t.Size
	}
	return p
}

// transform returns the text under m: placed, turned and scaled, never
// mirrored. Where m turns the plane over, a line keeps its direction along
// the paper and is read from the other side.
func (t Text) transform(m geom.Affine) Text {
	a := t.Angle * math.Pi / 180
	o := m.Apply(geom.Pt{})
	dir := m.Apply(geom.Pt{X: math.Cos(a), Y: math.Sin(a)}).Sub(o)
	if m.Mirrors() && dir.X < 0 {
		// Flip the reading direction and the anchor with it, so that a
		// mirrored label is neither upside down nor moved.
		dir = dir.Mul(-1)
		t.Anchor = End - t.Anchor
	}
	t.At = m.Apply(t.At)
	t.Angle = dir.Angle() * 180 / math.Pi
	t.Size *= math.Sqrt(math.Abs(float64(m.A*m.D) - float64(m.B*m.C)))
	return t
}

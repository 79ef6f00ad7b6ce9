package draw

import "fmt"

// Color is an sRGB colour with straight (not premultiplied) opacity A. The
// zero value has no opacity and means none: no stroke, no fill.
type Color struct{ R, G, B, A uint8 }

// RGB returns an opaque colour.
func RGB(r, g, b uint8) Color { return Color{r, g, b, 255} }

// Gray returns an opaque grey, 0 black to 255 white.
func Gray(v uint8) Color { return Color{v, v, v, 255} }

// Black is the colour of cutting lines and plain text.
var Black = Gray(0)

// White is the colour of the paper.
var White = Gray(255)

// None reports whether nothing is to be painted.
func (c Color) None() bool { return c.A == 0 }

// Fade returns the colour with its opacity multiplied by k, 0..1.
func (c Color) Fade(k float64) Color {
	c.A = uint8(float64(c.A)*min(max(k, 0), 1) + 0.5)
	return c
}

// hex returns the colour without its opacity as #rrggbb.
func (c Color) hex() string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// opacity returns A as a fraction.
func (c Color) opacity() float64 { return float64(c.A) / 255 }

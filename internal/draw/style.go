package draw

// Cap is the shape of the ends of an open line and of its dashes.
type Cap uint8

// A round end reaches half the pen width past the point, a butt end stops at
// it. A line that is itself a measure, like a rule, wants butt ends.
const (
	CapRound Cap = iota
	CapButt
)

// Style says how a path is painted: first its inside with Fill, then its line
// with Stroke. Corners are round. What is inside follows the non-zero winding
// rule, so a hole runs the other way round.
type Style struct {
	Stroke Color
	Width  float64   // pen width in mm; 0 draws no line
	Dash   []float64 // lengths on, off, on, ... in mm; none for a full line
	Cap    Cap
	Fill   Color
}

// Pen returns the style of a full line of the given width in mm.
func Pen(c Color, width float64) Style { return Style{Stroke: c, Width: width} }

// DashPen returns the style of a dashed line; lengths in mm, on and off in turn.
func DashPen(c Color, width float64, lengths ...float64) Style {
	return Style{Stroke: c, Width: width, Dash: lengths}
}

// Fill returns the style of an area without an outline.
func Fill(c Color) Style { return Style{Fill: c} }

// strokes reports whether a line is drawn.
func (s Style) strokes() bool { return s.Width > 0 && !s.Stroke.None() }

// fills reports whether an area is painted.
func (s Style) fills() bool { return !s.Fill.None() }

// halo returns how far paint reaches outside the path.
func (s Style) halo() float64 {
	if s.strokes() {
		return s.Width / 2
	}
	return 0
}

// dashes returns the dash lengths, or nil when they cannot make a pattern
// (negative or all nothing): such a line is drawn full. An odd list is written
// twice, as SVG does it, so that every renderer counts on and off alike.
func (s Style) dashes() []float64 {
	var sum float64
	for _, d := range s.Dash {
		if !(d >= 0) {
			return nil
		}
		sum += d
	}
	if !(sum > 0) {
		return nil
	}
	if len(s.Dash)%2 == 1 {
		return append(append([]float64{}, s.Dash...), s.Dash...)
	}
	return s.Dash
}

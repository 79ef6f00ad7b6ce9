package draw

import (
	"strings"

	"gusset/internal/geom"
)

// Block is a column of text set in lines.
type Block struct {
	Width   float64 // of the column in mm
	Size    float64 // of the text in mm
	Leading float64 // from base line to base line in mm; 0 is 1.3 of the size
	Bold    bool
	Anchor  Anchor // lines stand at the left, the middle or the right
	Color   Color
}

func (b Block) leading() float64 {
	if b.Leading > 0 {
		return b.Leading
	}
	return 1.3 * b.Size
}

// Lines breaks text between words so that each line fits the column. A line
// feed begins a new line; a word wider than the column is broken anywhere.
// Empty text has no lines.
func (b Block) Lines(text string) []string {
	if text == "" {
		return nil
	}
	var out []string
	for _, paragraph := range strings.Split(text, "\n") {
		line := ""
		for _, word := range strings.Fields(paragraph) {
			switch {
			case line == "":
				line = word
			case b.fits(line + " " + word):
				line += " " + word
			default:
				out = append(out, line)
				line = word
			}
			for !b.fits(line) {
				head, tail := b.broken(line)
				out = append(out, head)
				line = tail
			}
		}
		out = append(out, line)
	}
	return out
}

// fits reports whether a line fits the column. One letter always does.
func (b Block) fits(line string) bool {
	return len([]rune(line)) < 2 || TextWidth(line, b.Size, b.Bold) <= b.Width+1e-9
}

// broken cuts off as many letters of a word as fit.
func (b Block) broken(word string) (head, tail string) {
	letters := []rune(word)
	n := 1
	for n < len(letters)-1 && b.fits(string(letters[:n+1])) {
		n++
	}
	return string(letters[:n]), string(letters[n:])
}

// Height returns the height text takes in the column.
func (b Block) Height(text string) float64 {
	return float64(len(b.Lines(text))) * b.leading()
}

// Draw prints text with its top left corner at the given place and returns the
// height it took.
func (b Block) Draw(l *List, top geom.Pt, text string) float64 {
	x := top.X + b.Width*[...]float64{Start: 0, Middle: 0.5, End: 1}[b.Anchor]
	lines := b.Lines(text)
	// The letters stand in the middle of their line's height.
	drop := (b.leading() + CapHeight*b.Size) / 2
	for i, line := range lines {
		l.Text(Text{
			At:   geom.Pt{X: x, Y: top.Y - drop - float64(float64(i)*b.leading())},
			Size: b.Size, Anchor: b.Anchor, Bold: b.Bold, Color: b.Color, Body: line,
		})
	}
	return float64(len(lines)) * b.leading()
}

package sheet

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"gusset/internal/draw"
	"gusset/internal/geom"
	"gusset/internal/lay"
)

// Sizes of the words in pieces on a lay chart, mm, from the largest to the
// least that is still read at arm's length.
var layNames = []float64{4, 3.5, 3, 2.6, 2.2}

// layLabel prints a piece's number and name inside its outline, clear of the
// grain line from a to b and of the places ringed on it where that can be. The name stands level or, in a
// narrow piece, upright, and over two lines or three where one is too long. A
// piece without room for a name has its number, always level: an upright 6
// looks like a 9.
func layLabel(out *draw.List, number int, p lay.Placed, ring []geom.Pt, a, b geom.Pt, ringed []geom.Pt) {
	name := strconv.Itoa(number) + " " + pieceOf(p)
	unringed := within(ring)
	for _, q := range ringed {
		unringed.lines = append(unringed.lines, barrier{q, q, matchRing + 0.2})
	}
	clear := unringed
	clear.lines = append(slices.Clone(clear.lines), barrier{a, b, 0.8})
	for _, inside := range []space{clear, unringed, within(ring)} {
		for _, size := range layNames {
			for _, lines := range [][]string{{name}, folded(name, 2), folded(name, 3)} {
				for _, turned := range []bool{false, true} {
					w := words{lines, size, turned}
					if at, ok := w.place(inside); ok {
						w.print(out, at, clothPen(p).Fill)
						return
					}
				}
			}
		}
	}
	numberLabel(out, number, ring, clothPen(p).Fill)
}

// numberLabel prints a number level in the roomiest place of a piece; where
// even that has no room, over its middle.
func numberLabel(out *draw.List, number int, ring []geom.Pt, ground draw.Color) {
	for _, size := range []float64{3.5, 3, 2.6, 2.2, 1.9} {
		w := words{[]string{strconv.Itoa(number)}, size, false}
		if at, ok := w.place(within(ring)); ok {
			w.print(out, at, ground)
			return
		}
	}
	lo, hi := geom.BoundsOf(ring)
	words{[]string{strconv.Itoa(number)}, 1.9, false}.print(out, lo.Lerp(hi, 0.5), ground)
}

// words are lines set close, bold, level or reading upwards.
type words struct {
	lines  []string
	size   float64
	turned bool
}

// frame is the width and height of the letters themselves, as they stand.
func (w words) frame() (across, high float64) {
	for _, line := range w.lines {
		across = max(across, draw.TextWidth(line, w.size, true))
	}
	high = w.size * (draw.CapHeight + 1.2*float64(len(w.lines)-1))
	if w.turned {
		return high, across
	}
	return across, high
}

// place finds where the words keep the most distance from the lines of a
// space, up to 2 mm; nearest to the middle among equals.
func (w words) place(s space) (geom.Pt, bool) {
	const enough, plenty, step = 0.35, 2.0, 1.0
	across, high := w.frame()
	lo, hi := geom.BoundsOf(s.ring)
	mid := lo.Lerp(hi, 0.5)
	if hi.X-lo.X < across || hi.Y-lo.Y < high {
		return mid, false
	}
	best, room, off := mid, 0.0, math.Inf(1)
	nx, ny := math.Floor((hi.X-lo.X-across)/2/step), math.Floor((hi.Y-lo.Y-high)/2/step)
	for i := -nx; i <= nx; i++ {
		for k := -ny; k <= ny; k++ {
			p := mid.Add(geom.Pt{X: i * step, Y: k * step})
			d := p.Dist(mid)
			if room == plenty && d >= off { // no better place
				continue
			}
			r := min(plenty, s.room(draw.Box(p.X-across/2, p.Y-high/2, across, high), max(enough, room)))
			if r >= enough && (r > room || r == room && d < off) {
				best, room, off = p, r, d
			}
		}
	}
	return best, room > 0
}

// print draws the words about a point on a ground that hides what runs below.
func (w words) print(out *draw.List, at geom.Pt, ground draw.Color) {
	across, high := w.frame()
	out.Rect(draw.Fill(ground), draw.Box(at.X-across/2-0.2, at.Y-high/2-0.2, across+0.4, high+0.4))
	down, angle, tall := geom.Pt{Y: -1}, 0.0, high
	if w.turned {
		down, angle, tall = geom.Pt{X: 1}, 90, across
	}
	base := at.Add(down.Mul(w.size*draw.CapHeight - tall/2))
	for i, line := range w.lines {
		out.Text(draw.Text{At: base.Add(down.Mul(float64(i) * 1.2 * w.size)), Size: w.size, Angle: angle, Anchor: draw.Middle, Bold: true, Body: line})
	}
}

// folded breaks a text between words into at most n lines, the longest of them
// as short as can be.
func folded(text string, n int) []string {
	all := strings.Fields(text)
	if n < 2 || len(all) < 2 {
		return []string{text}
	}
	best := []string{text}
	longest := func(lines []string) (most float64) {
		for _, l := range lines {
			most = max(most, draw.TextWidth(l, 1, true))
		}
		return most
	}
	for i := 1; i < len(all); i++ {
		lines := append([]string{strings.Join(all[:i], " ")}, folded(strings.Join(all[i:], " "), n-1)...)
		if longest(lines) < longest(best) {
			best = lines
		}
	}
	return best
}

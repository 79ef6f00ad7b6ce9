package draw

import (
	"math"
	"strings"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"gusset/internal/geom"
)

// Heights of the type face as fractions of the text size, from the tables of
// the Go fonts (2048 units to the size).
const (
	Ascent    = 1935.0 / 2048 // tallest accent above the base line
	Descent   = 432.0 / 2048  // deepest tail below it
	CapHeight = 1480.0 / 2048 // capital letter
)

// face is one parsed type face and its metrics in thousandths of the size,
// rounded the way a PDF states widths, so that every renderer agrees.
type face struct {
	data []byte
	font *sfnt.Font
	em   fixed.Int26_6

	mu       sync.Mutex // sfnt keeps scratch space in buf; glyphs caches lookups
	buf      sfnt.Buffer
	glyphs   map[rune]glyph
	advances map[string]int // of whole lines of text
}

// glyph is what a renderer needs of one letter: how far it moves the pen, in
// thousandths of the size, and its shape at size 1.
type glyph struct {
	advance int
	known   bool
	shape   Path
}

var (
	regular = sync.OnceValue(func() *face { return parse(goregular.TTF) })
	bold    = sync.OnceValue(func() *face { return parse(gobold.TTF) })
)

// faceOf returns the face of plain or bold text.
func faceOf(isBold bool) *face {
	if isBold {
		return bold()
	}
	return regular()
}

// parse reads an embedded font; one that cannot be read is a broken build.
func parse(data []byte) *face {
	f, err := sfnt.Parse(data)
	if err != nil {
		panic("draw: embedded font: " + err.Error())
	}
	return &face{data: data, font: f, em: fixed.I(int(f.UnitsPerEm())), glyphs: map[rune]glyph{}}
}

// glyph returns the letter for r, or the face's box for an unknown one.
func (f *face) glyph(r rune) glyph {
	f.mu.Lock()
	defer f.mu.Unlock()
	g, ok := f.glyphs[r]
	if !ok {
		g = f.load(r)
		f.glyphs[r] = g
	}
	return g
}

func (f *face) load(r rune) glyph {
	index, err := f.font.GlyphIndex(&f.buf, r)
	if err != nil {
		return glyph{}
	}
	adv, err := f.font.GlyphAdvance(&f.buf, index, f.em, font.HintingNone)
	if err != nil {
		return glyph{}
	}
	g := glyph{known: index != 0, advance: int(math.Round(1000 * float64(adv) / float64(f.em)))}
	if segs, err := f.font.LoadGlyph(&f.buf, index, f.em, nil); err == nil {
		g.shape = shapeOf(segs, float64(f.em))
	}
	return g
}

// shapeOf turns font outlines (y down, quadratic curves) into a path at size
// 1, y up.
func shapeOf(segs sfnt.Segments, em float64) Path {
	var p Path
	at := func(q fixed.Point26_6) geom.Pt {
		return geom.Pt{X: float64(q.X) / em, Y: -float64(q.Y) / em}
	}
	var pen geom.Pt
	for i, s := range segs {
		a := at(s.Args[0])
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if i > 0 {
				p.Close()
			}
			p.Move(a)
			pen = a
		case sfnt.SegmentOpLineTo:
			p.Line(a)
			pen = a
		case sfnt.SegmentOpQuadTo: // raised to a cubic with the same curve
			b := at(s.Args[1])
			p.Cubic(pen.Lerp(a, 2.0/3), b.Lerp(a, 2.0/3), b)
			pen = b
		case sfnt.SegmentOpCubeTo:
			p.Cubic(a, at(s.Args[1]), at(s.Args[2]))
			pen = at(s.Args[2])
		}
	}
	if len(segs) > 0 {
		p.Close()
	}
	return p
}

// shown returns what is printed for body: one line, with every control
// character a space.
func shown(body string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(body, "?"))
}

// printable is shown with the letters the face lacks replaced by "?".
func (f *face) printable(body string) string {
	return strings.Map(func(r rune) rune {
		if f.glyph(r).known {
			return r
		}
		return '?'
	}, shown(body))
}

// Missing returns the letters of body that the embedded fonts cannot show and
// that PDF and PNG print as "?". SVG leaves them to the browser's fonts.
func Missing(body string) []rune {
	var out []rune
	for _, r := range shown(body) {
		if !regular().glyph(r).known || !bold().glyph(r).known {
			out = append(out, r)
		}
	}
	return out
}

// TextWidth returns the width in mm of one line of text of the given size in
// mm. All renderers place letters by it.
func TextWidth(body string, size float64, isBold bool) float64 {
	return float64(faceOf(isBold).advance(body)) / 1000 * size
}

// mostKept bounds the lines of text whose advance a face remembers: tiling asks
// for the same few hundred again and again.
const mostKept = 10000

// advance is how far a line of text goes on, in thousandths of its size.
func (f *face) advance(body string) int {
	f.mu.Lock()
	sum, ok := f.advances[body]
	f.mu.Unlock()
	if ok {
		return sum
	}
	for _, r := range f.printable(body) {
		sum += f.glyph(r).advance
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	if len(f.advances) >= mostKept || f.advances == nil {
		f.advances = map[string]int{}
	}
	f.advances[body] = sum
	return sum
}

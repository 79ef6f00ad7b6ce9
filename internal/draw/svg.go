package draw

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"gusset/internal/geom"
)

// SVG writes the page as a drawing for browsers, in mm. Text stays text in the
// reader's own sans-serif type, stretched to the width it has in print; layers
// are groups of class "layer" whose data-layer attribute is the name.
func SVG(w io.Writer, p Page) error {
	if err := p.check(); err != nil {
		return fmt.Errorf("svg: %w", err)
	}
	s := svgWriter{height: p.Height}
	fmt.Fprintf(&s.b, `<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s" role="img">`+"\n",
		num(p.Width), num(p.Height), num(p.Width), num(p.Height))
	if p.List.Title != "" {
		fmt.Fprintf(&s.b, "<title>%s</title>\n", escaped(p.List.Title))
	}
	s.items(p.List.items)
	s.b.WriteString("</svg>\n")
	_, err := w.Write(s.b.Bytes())
	return err
}

// svgWriter collects the document; height turns y round.
type svgWriter struct {
	b      bytes.Buffer
	height float64
	clips  int
}

func (s *svgWriter) items(items []item) {
	for _, it := range items {
		switch {
		case it.shape != nil:
			s.shape(*it.shape)
		case it.text != nil:
			s.text(*it.text)
		case it.group != nil:
			s.group(*it.group)
		}
	}
}

func (s *svgWriter) group(g group) {
	attr := ""
	if g.layer != "" {
		attr += fmt.Sprintf(` class="layer" data-layer="%s"`, escaped(g.layer))
	}
	if g.clip != nil {
		id := s.clipID(*g.clip)
		fmt.Fprintf(&s.b, `<clipPath id="%s"><path d="%s"/></clipPath>`+"\n", id, s.data(*g.clip))
		attr += fmt.Sprintf(` clip-path="url(#%s)"`, id)
	}
	fmt.Fprintf(&s.b, "<g%s>\n", attr)
	s.items(g.items)
	s.b.WriteString("</g>\n")
}

// clipID names a clip by its number and its shape: several drawings may stand
// in one web page, where ids are shared, and then only equal clips share one.
func (s *svgWriter) clipID(clip Path) string {
	s.clips++
	sum := uint64(14695981039346656037) // FNV-1a
	for _, c := range []byte(s.data(clip)) {
		sum = (sum ^ uint64(c)) * 1099511628211
	}
	return fmt.Sprintf("clip%d-%012x", s.clips, sum>>16)
}

func (s *svgWriter) shape(sh shape) {
	st := sh.style
	attr := ` fill="none"`
	if st.fills() {
		attr = paint("fill", st.Fill)
	}
	if st.strokes() {
		attr += paint("stroke", st.Stroke) + fmt.Sprintf(` stroke-width="%s" stroke-linejoin="round"`, num(st.Width))
		if st.Cap == CapRound {
			attr += ` stroke-linecap="round"`
		}
		if d := st.dashes(); d != nil {
			attr += fmt.Sprintf(` stroke-dasharray="%s"`, nums(d, " "))
		}
	}
	fmt.Fprintf(&s.b, `<path d="%s"%s/>`+"\n", s.data(sh.path), attr)
}

// paint returns the attributes that set one colour.
func paint(what string, c Color) string {
	a := fmt.Sprintf(` %s="%s"`, what, c.hex())
	if c.A < 255 {
		a += fmt.Sprintf(` %s-opacity="%s"`, what, num(c.opacity()))
	}
	return a
}

var svgAnchors = map[Anchor]string{Middle: ` text-anchor="middle"`, End: ` text-anchor="end"`}

func (s *svgWriter) text(t Text) {
	attr := svgAnchors[t.Anchor]
	if t.Bold {
		attr += ` font-weight="bold"`
	}
	if len(Missing(t.Body)) == 0 {
		// Only what our own metrics know can be held to them.
		attr += fmt.Sprintf(` textLength="%s" lengthAdjust="spacingAndGlyphs"`, num(t.width()))
	}
	x, y := num(t.At.X), num(s.height-t.At.Y)
	if a := math.Mod(t.Angle, 360); a != 0 {
		attr += fmt.Sprintf(` transform="rotate(%s %s %s)"`, num(-a), x, y)
	}
	fmt.Fprintf(&s.b, `<text x="%s" y="%s" font-family="sans-serif" font-size="%s"%s%s xml:space="preserve">%s</text>`+"\n",
		x, y, num(t.Size), attr, paint("fill", t.ink()), escaped(shown(t.Body)))
}

// data returns the path in SVG's own notation.
func (s *svgWriter) data(p Path) string {
	letters := [...]string{Move: "M", LineTo: "L", CubicTo: "C", Close: "Z"}
	counts := [...]int{Move: 1, LineTo: 1, CubicTo: 3, Close: 0}
	var b strings.Builder
	for _, st := range p.Steps {
		b.WriteString(letters[st.Op])
		for i := range counts[st.Op] {
			if i > 0 {
				b.WriteByte(' ')
			}
			b.WriteString(s.point(st.P[i]))
		}
	}
	return b.String()
}

func (s *svgWriter) point(p geom.Pt) string { return num(p.X) + " " + num(s.height-p.Y) }

// num writes a length to 0.1 µm without needless zeros.
func num(v float64) string {
	t := strconv.FormatFloat(v, 'f', 4, 64)
	t = strings.TrimRight(strings.TrimRight(t, "0"), ".")
	if t == "-0" {
		return "0"
	}
	return t
}

// nums writes a list of lengths.
func nums(vs []float64, sep string) string {
	out := make([]string, len(vs))
	for i, v := range vs {
		out[i] = num(v)
	}
	return strings.Join(out, sep)
}

// escaped returns s as XML character data.
func escaped(s string) string {
	var b bytes.Buffer
	_ = xml.EscapeText(&b, []byte(s)) // writing to memory cannot fail
	return b.String()
}

package draw

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"gusset/internal/geom"
)

// Doc is a document to print.
type Doc struct {
	Title   string
	Subject string    // what the pages were made from, such as an input digest
	Date    time.Time // stated date of making; the zero time states none
	Pages   []Page
}

// pointsPerMM is the size of a PDF unit: 1/72 in.
const pointsPerMM = 72 / 25.4

// PDF writes the pages at true scale: the same document gives the same bytes.
// Text can be searched and copied, and layers can be switched off. A page
// longer than MaxSide, or a document without pages, is an error.
func PDF(w io.Writer, d Doc) error {
	if len(d.Pages) == 0 {
		return fmt.Errorf("pdf %q: no pages", d.Title)
	}
	for i, p := range d.Pages {
		if err := p.check(); err != nil {
			return fmt.Errorf("pdf %q: page %d: %w", d.Title, i+1, err)
		}
	}
	out := pdfWriter{f: newPDF(d), layers: map[string]int{}}
	for _, p := range d.Pages {
		out.page(p)
	}
	var b bytes.Buffer
	if err := out.f.Output(&b); err != nil {
		return fmt.Errorf("pdf %q: %w", d.Title, err)
	}
	data, err := settle(b.Bytes(), d.Date.IsZero())
	if err != nil {
		return fmt.Errorf("pdf %q: %w", d.Title, err)
	}
	_, err = w.Write(data)
	return err
}

// newPDF returns an empty document with our fonts and fixed dates.
func newPDF(d Doc) *fpdf.Fpdf {
	first := d.Pages[0]
	f := fpdf.NewCustom(&fpdf.InitType{
		UnitStr: "mm", OrientationStr: "P", Size: fpdf.SizeType{Wd: first.Width, Ht: first.Height},
	})
	f.SetCatalogSort(true)
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(0, 0, 0)
	f.SetProducer("gusset", true)
	f.SetTitle(d.Title, true)
	f.SetSubject(d.Subject, true)
	f.SetLang("en")
	date := d.Date
	if date.IsZero() {
		date = noDate
	}
	f.SetCreationDate(date)
	f.SetModificationDate(date)
	f.AddUTF8FontFromBytes(fontFamily, "", regular().data)
	f.AddUTF8FontFromBytes(fontFamily, "B", bold().data)
	return f
}

const fontFamily = "gusset"

// pdfWriter draws pages through the PDF library, which keeps the document, the
// fonts and the list of layers. Paths are written as content operators of our
// own (ISO 32000-1 8.5), because the library rounds them to 0.01 point.
type pdfWriter struct {
	f      *fpdf.Fpdf
	layers map[string]int
}

func (w *pdfWriter) page(p Page) {
	w.f.AddPageFormat("P", fpdf.SizeType{Wd: p.Width, Ht: p.Height})
	w.f.RawWriteStr("1 j")
	w.items(p.List.items)
}

func (w *pdfWriter) items(items []item) {
	for _, it := range items {
		switch {
		case it.shape != nil:
			w.shape(*it.shape)
		case it.text != nil:
			w.text(*it.text)
		case it.group != nil:
			w.group(*it.group)
		}
	}
}

func (w *pdfWriter) group(g group) {
	if g.layer != "" {
		w.f.RawWriteStr(fmt.Sprintf("/OC /OC%d BDC", w.layer(g.layer)))
	}
	if g.clip != nil {
		w.f.RawWriteStr("q " + pdfPath(*g.clip) + "W n")
	}
	w.items(g.items)
	if g.clip != nil {
		w.f.RawWriteStr("Q")
	}
	if g.layer != "" {
		w.f.RawWriteStr("EMC")
	}
}

// layer returns the number of a named layer, making it on first use.
func (w *pdfWriter) layer(name string) int {
	id, ok := w.layers[name]
	if !ok {
		id = w.f.AddLayer(name, true)
		w.layers[name] = id
	}
	return id
}

func (w *pdfWriter) shape(s shape) {
	st := s.style
	if st.fills() && st.strokes() && st.Fill.A != st.Stroke.A {
		// One opacity is in force at a time, so paint in two goes.
		w.paint(Style{Fill: st.Fill}, s.path)
		st.Fill = Color{}
	}
	w.paint(st, s.path)
}

func (w *pdfWriter) paint(st Style, p Path) {
	w.f.RawWriteStr("q")
	op := "S"
	if st.fills() {
		w.opacity(st.Fill)
		w.f.RawWriteStr(pdfColor(st.Fill) + " rg")
		op = "f"
	}
	if st.strokes() {
		w.opacity(st.Stroke)
		w.f.RawWriteStr(pdfPen(st))
		if st.fills() {
			op = "B"
		}
	}
	w.f.RawWriteStr(pdfPath(p) + op + " Q")
}

func (w *pdfWriter) opacity(c Color) {
	if c.A < 255 {
		w.f.SetAlpha(c.opacity(), "Normal")
	}
}

// text places a line by a matrix and lets the library print it at the origin,
// at a fixed size, so that neither place nor size is rounded by it.
func (w *pdfWriter) text(t Text) {
	const set = 100 // points
	m := t.frame()
	k := t.Size * pointsPerMM / set
	w.f.RawWriteStr("q")
	w.opacity(t.ink())
	w.f.RawWriteStr(fmt.Sprintf("%s %s %s %s %s %s cm", fix(m.A*k), fix(m.B*k), fix(m.C*k), fix(m.D*k),
		pt(m.E), pt(m.F)))
	c := t.ink()
	w.f.SetTextColor(int(c.R), int(c.G), int(c.B))
	w.f.RawWriteStr(pdfColor(c) + " rg")
	style := ""
	if t.Bold {
		style = "B"
	}
	w.f.SetFont(fontFamily, style, set)
	_, height := w.f.GetPageSize()
	w.f.Text(0, height, faceOf(t.Bold).printable(t.Body))
	w.f.RawWriteStr("Q")
}

// pdfPen returns the operators that set up a pen.
func pdfPen(st Style) string {
	dash := make([]string, 0, len(st.Dash))
	for _, d := range st.dashes() {
		dash = append(dash, pt(d))
	}
	lineCap := 1
	if st.Cap == CapButt {
		lineCap = 0
	}
	return fmt.Sprintf("%s RG %s w %d J [%s] 0 d", pdfColor(st.Stroke), pt(st.Width), lineCap, strings.Join(dash, " "))
}

// pdfColor returns the three components of a colour.
func pdfColor(c Color) string {
	part := func(v uint8) string { return strconv.FormatFloat(float64(v)/255, 'f', 4, 64) }
	return part(c.R) + " " + part(c.G) + " " + part(c.B)
}

// pdfPath returns the operators that build a path.
func pdfPath(p Path) string {
	ops := [...]string{Move: "m ", LineTo: "l ", CubicTo: "c ", Close: "h "}
	counts := [...]int{Move: 1, LineTo: 1, CubicTo: 3, Close: 0}
	var b strings.Builder
	for _, s := range p.Steps {
		for _, q := range s.P[:counts[s.Op]] {
			b.WriteString(pdfPoint(q))
		}
		b.WriteString(ops[s.Op])
	}
	return b.String()
}

func pdfPoint(p geom.Pt) string { return pt(p.X) + " " + pt(p.Y) + " " }

// pt writes a length in points, to 0.0001.
func pt(mm float64) string { return num(mm * pointsPerMM) }

// fix writes a plain number to nine places.
func fix(v float64) string {
	if math.Abs(v) < 5e-10 {
		return "0"
	}
	return strconv.FormatFloat(v, 'f', 9, 64)
}

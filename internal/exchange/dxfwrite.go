package exchange

import (
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"

	"gusset/internal/geom"
	"gusset/internal/unit"
)

// Style is what goes out in one file: the pieces of one garment or pattern.
type Style struct {
	Title  string
	Sizes  []string  // in order
	Sample string    // the size that the others are graded from, or the only one
	Date   time.Time // of making; the zero time is left out
	Parts  []Part
}

// flatTol is how far the straight lines that stand for a curve may lie from it,
// in mm.
const flatTol = 0.002

// The layers of ASTM D6673.
const (
	layerBoundary = 1
	layerTurn     = 2
	layerCurve    = 3
	layerNotch    = 4
	layerGrade    = 5
	layerMirror   = 6
	layerGrain    = 7
	layerInternal = 8
	layerStripe   = 9
	layerPlaid    = 10
	layerCutout   = 11
	layerDrill    = 13
	layerSew      = 14
	layerText     = 15
)

// dxfLayers are the layers written, with a colour of the index of release 12
// each, so that they can be told apart in any viewer.
var dxfLayers = []struct{ number, colour int }{
	{layerBoundary, 7}, {layerTurn, 1}, {layerCurve, 5}, {layerNotch, 1}, {layerMirror, 6}, {layerGrain, 3},
	{layerInternal, 8}, {layerDrill, 1}, {layerSew, 4}, {layerText, 9},
}

// WriteDXF writes a style in the form of ASTM D6673, in millimetres (METRIC) or
// inches (ENGLISH). Curves become straight lines within 0.002 mm. Names of edges,
// lines and marks go out as annotation text at the place they name, which the
// standard leaves free:
//
//	EDGE hem           where the edge begins
//	LINE level hip     where the line begins
//	NOTCH side hip     at the notch, on the stitching line
//	MARK button neck   at the mark
func WriteDXF(w io.Writer, s Style, u unit.Unit) error {
	d := &dxfWriter{scale: 1, places: 6}
	system := "METRIC"
	switch u {
	case unit.Millimetre:
	case unit.Inch:
		d.scale, d.places, system = 1/25.4, 8, "ENGLISH"
	default:
		return fmt.Errorf("dxf: pieces go out in mm or in, not in %s", u)
	}
	d.header(s)
	d.tables()
	names := blockNames(s.Parts)
	d.section("BLOCKS", func() {
		for i, p := range s.Parts {
			d.block(names[i], p)
		}
	})
	d.section("ENTITIES", func() {
		lines := []string{"STYLE NAME: " + s.Title, "SAMPLE SIZE: " + s.Sample, "UNITS: " + system}
		if !s.Date.IsZero() {
			lines = append(lines, s.Date.Format("CREATION DATE: 2006-01-02"), s.Date.Format("CREATION TIME: 15:04"))
		}
		for i, line := range lines {
			d.text(layerBoundary, geom.Pt{Y: float64(-10 * (i + 1))}, line)
		}
		for i := range s.Parts {
			d.put(0, "INSERT")
			d.put(8, strconv.Itoa(layerBoundary))
			d.put(2, names[i])
			d.point(geom.Pt{})
		}
	})
	d.put(0, "EOF")
	_, err := io.WriteString(w, d.b.String())
	return err
}

type dxfWriter struct {
	b      strings.Builder
	scale  float64
	places int
}

func (d *dxfWriter) put(code int, value string) { fmt.Fprintf(&d.b, "%3d\n%s\n", code, value) }

func (d *dxfWriter) number(code int, v float64) {
	t := strconv.FormatFloat(v, 'f', d.places, 64)
	if strings.Trim(t, "-0.") == "" {
		t = "0.0"
	}
	d.put(code, t)
}

// point writes a place in the file's unit.
func (d *dxfWriter) point(p geom.Pt) {
	d.number(10, p.X*d.scale)
	d.number(20, p.Y*d.scale)
	d.number(30, 0)
}

func (d *dxfWriter) section(name string, f func()) {
	d.put(0, "SECTION")
	d.put(2, name)
	f()
	d.put(0, "ENDSEC")
}

func (d *dxfWriter) header(s Style) {
	d.section("HEADER", func() {
		d.put(9, "$ACADVER")
		d.put(1, "AC1009")
		var lo, hi geom.Pt
		for i, p := range s.Parts {
			a, b := p.bounds()
			if i == 0 {
				lo, hi = a, b
			}
			lo, hi = geom.Pt{X: min(lo.X, a.X), Y: min(lo.Y, a.Y)}, geom.Pt{X: max(hi.X, b.X), Y: max(hi.Y, b.Y)}
		}
		d.put(9, "$EXTMIN")
		d.point(lo)
		d.put(9, "$EXTMAX")
		d.point(hi)
	})
}

func (d *dxfWriter) tables() {
	d.section("TABLES", func() {
		d.put(0, "TABLE")
		d.put(2, "LTYPE")
		d.put(70, "1")
		d.put(0, "LTYPE")
		d.put(2, "CONTINUOUS")
		d.put(70, "0")
		d.put(3, "Solid line")
		d.put(72, "65")
		d.put(73, "0")
		d.number(40, 0)
		d.put(0, "ENDTAB")
		d.put(0, "TABLE")
		d.put(2, "LAYER")
		d.put(70, strconv.Itoa(len(dxfLayers)))
		for _, l := range dxfLayers {
			d.put(0, "LAYER")
			d.put(2, strconv.Itoa(l.number))
			d.put(70, "0")
			d.put(62, strconv.Itoa(l.colour))
			d.put(6, "CONTINUOUS")
		}
		d.put(0, "ENDTAB")
	})
}

func (d *dxfWriter) polyline(layer int, pts []geom.Pt, closed bool) {
	flag := "0"
	if closed {
		flag = "1"
	}
	d.put(0, "POLYLINE")
	d.put(8, strconv.Itoa(layer))
	d.put(66, "1")
	d.put(70, flag)
	d.point(geom.Pt{})
	for _, p := range pts {
		d.put(0, "VERTEX")
		d.put(8, strconv.Itoa(layer))
		d.point(p)
	}
	d.put(0, "SEQEND")
	d.put(8, strconv.Itoa(layer))
}

func (d *dxfWriter) dot(layer int, p geom.Pt) {
	d.put(0, "POINT")
	d.put(8, strconv.Itoa(layer))
	d.point(p)
}

// textHeight is the size of the text, in mm.
const textHeight = 4

func (d *dxfWriter) text(layer int, at geom.Pt, text string) {
	d.put(0, "TEXT")
	d.put(8, strconv.Itoa(layer))
	d.point(at)
	d.number(40, textHeight*d.scale)
	d.put(1, dxfEscaped(text))
}

// dxfEscaped writes what is not plain ASCII as \U+XXXX, as DXF does.
func dxfEscaped(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r < ' ' || r == 0x7f:
			b.WriteByte(' ')
		case r < 0x7f && r != '\\':
			b.WriteRune(r)
		case r <= 0xffff:
			fmt.Fprintf(&b, `\U+%04X`, r)
		default:
			b.WriteByte('?')
		}
	}
	return b.String()
}

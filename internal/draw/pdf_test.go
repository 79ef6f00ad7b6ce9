package draw

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"gusset/internal/geom"
)

const (
	testDPI = 1200
	perMM   = testDPI / 25.4
	// trueScale is how far a printed length may be from what was drawn, in mm.
	trueScale = 0.05
)

// scalePage has a 100 mm square at (40, 60) and rules of 250 mm on both axes,
// each between two short ticks.
func scalePage() Page {
	l := &List{Title: "scale"}
	l.Rect(Fill(Black), Box(40, 60, 100, 100))
	tick := Pen(Black, 0.2)
	tick.Cap = CapButt
	for _, x := range []float64{20, 270} {
		l.Line(tick, geom.Pt{X: x, Y: 20}, geom.Pt{X: x, Y: 30})
	}
	for _, y := range []float64{20, 270} {
		l.Line(tick, geom.Pt{X: 5, Y: y}, geom.Pt{X: 15, Y: y})
	}
	return Page{Width: 297, Height: 297, List: l}
}

// px returns a length in mm as whole pixels.
func px(mm float64) int { return int(math.Round(mm * perMM)) }

// printsTrue fails when a measured length is not the drawn one.
func printsTrue(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > trueScale {
		t.Errorf("%s: printed %.4f mm, drawn %g mm", what, got, want)
	}
	t.Logf("%s: %.4f mm", what, got)
}

// Lengths are measured on what an independent PDF renderer (poppler) paints.
func TestPDFIsTrueToScale(t *testing.T) {
	p := scalePage()
	file := pdfFile(t, Doc{Title: "scale", Pages: []Page{p}})
	top := func(y float64) int { return px(p.Height - y) }

	band := rasterised(t, file, 1, testDPI, pixelCrop{px(30), top(111), px(120), px(2)})
	printsTrue(t, "square across", total(darkness(band, true))/float64(band.Bounds().Dy())/perMM, 100)
	band = rasterised(t, file, 1, testDPI, pixelCrop{px(89), top(170), px(2), px(120)})
	printsTrue(t, "square up", total(darkness(band, false))/float64(band.Bounds().Dx())/perMM, 100)

	at := func(x float64) float64 {
		c := rasterised(t, file, 1, testDPI, pixelCrop{px(x - 2), top(26), px(4), px(2)})
		return float64(px(x-2)) + center(darkness(c, true))
	}
	printsTrue(t, "rule across", (at(270)-at(20))/perMM, 250)
	up := func(y float64) float64 {
		c := rasterised(t, file, 1, testDPI, pixelCrop{px(9), top(y + 2), px(2), px(4)})
		return float64(top(y+2)) + center(darkness(c, false))
	}
	printsTrue(t, "rule up", (up(20)-up(270))/perMM, 250)
	printsTrue(t, "rule's place from the left edge", at(20)/perMM, 20)
}

func TestPDFPageSize(t *testing.T) {
	l := &List{}
	l.Rect(Fill(Black), Box(10, 10, 10, 10))
	file := pdfFile(t, Doc{Pages: []Page{{210, 297, l}, {900, 5080, l}}})
	info := string(runTool(t, "pdfinfo", "-f", "1", "-l", "2", file))
	// A4 is 210 × 297 mm (ISO 216), 595.276 × 841.890 pt.
	for _, want := range []string{"595.28 x 841.89 pts (A4)", "2551.18 x 14400 pts"} {
		if !strings.Contains(info, want) {
			t.Errorf("pdfinfo does not state %q:\n%s", want, info)
		}
	}
	if strings.Contains(info, "CreationDate") {
		t.Errorf("a date that nobody stated:\n%s", info)
	}
}

func TestPDFStatedDate(t *testing.T) {
	d := Doc{Title: "cape", Subject: "9f3a", Date: time.Date(2024, 3, 5, 0, 0, 0, 0, time.UTC), Pages: []Page{scalePage()}}
	info := string(runTool(t, "pdfinfo", "-isodates", pdfFile(t, d)))
	for _, want := range []string{"2024-03-05", "cape", "9f3a"} {
		if !strings.Contains(info, want) {
			t.Errorf("pdfinfo does not state %q:\n%s", want, info)
		}
	}
}

func TestPDFRefusals(t *testing.T) {
	l := &List{}
	nan := &List{}
	nan.Line(Pen(Black, 1), geom.Pt{}, geom.Pt{X: math.NaN()})
	lost := &List{}
	lost.Text(Text{Body: "hem", Size: 4, At: geom.Pt{Y: math.Inf(1)}})
	for name, c := range map[string]struct {
		d    Doc
		want string
	}{
		"no pages":  {Doc{}, "no pages"},
		"too long":  {Doc{Pages: []Page{{900, 5080.5, l}}}, "at most 5080 mm"},
		"no width":  {Doc{Pages: []Page{{0, 10, l}}}, "above 0"},
		"no list":   {Doc{Pages: []Page{{10, 10, nil}}}, "no list"},
		"no number": {Doc{Pages: []Page{{10, 10, nan}}}, "a path is placed where there is no number"},
		"lost text": {Doc{Pages: []Page{{10, 10, lost}}}, `text "hem" is placed`},
	} {
		var b bytes.Buffer
		err := PDF(&b, c.d)
		if err == nil || !strings.Contains(err.Error(), c.want) || b.Len() > 0 {
			t.Errorf("%s: error %v, %d bytes, want %q and none", name, err, b.Len(), c.want)
		}
	}
}

func TestPDFRerunsAreEqual(t *testing.T) {
	d := Doc{Title: "sampler", Subject: "digest", Pages: []Page{sampler(), scalePage()}}
	var a, b bytes.Buffer
	if err := PDF(&a, d); err != nil {
		t.Fatal(err)
	}
	if err := PDF(&b, d); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Error("two runs differ")
	}
}

func TestPDFTextIsFound(t *testing.T) {
	file := pdfFile(t, Doc{Title: "sampler", Pages: []Page{sampler()}})
	text := string(runTool(t, "pdftotext", "-layout", file, "-"))
	for _, want := range []string{"Front × 2 – 12½ cm, 45°", "café éàü", "bold edge"} {
		if !strings.Contains(text, want) {
			t.Errorf("pdftotext does not find %q in\n%s", want, text)
		}
	}
}

// A layer switched off by default would not be printed, so all are on; that
// they are layers at all is read from the file's own tables (ISO 32000-1 8.11).
func TestPDFLayers(t *testing.T) {
	var b bytes.Buffer
	if err := PDF(&b, Doc{Pages: []Page{sampler()}}); err != nil {
		t.Fatal(err)
	}
	pdf := b.String()
	for _, name := range []string{"cut line", "stitching line"} {
		utf16 := "\xfe\xff"
		for _, r := range name {
			utf16 += "\x00" + string(r)
		}
		if !strings.Contains(pdf, "/Type /OCG") || !strings.Contains(pdf, utf16) && !strings.Contains(pdf, "("+name+")") {
			t.Errorf("no layer %q", name)
		}
	}
	if got := fmt.Sprint(sampler().List.Layers()); got != "[cut line stitching line]" {
		t.Errorf("layers of the list: %s", got)
	}
	if !strings.Contains(pdf, "/PrintScaling /None") {
		t.Error("print dialogs are not asked for true scale")
	}
}

package exchange

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"gusset/internal/draw"
	"gusset/internal/piece"
	"gusset/internal/source"
)

// A pattern that goes out as PDF comes in again, on one large page and cut into
// sheets: every outline within two hundredths of a millimetre, sizes and pieces
// by their layers, notches and grain in place. Names of edges are not in a PDF.
func TestPDFRoundTrip(t *testing.T) {
	p := quay(t)
	for _, c := range []struct {
		name  string
		paper draw.Paper
		sizes []string
	}{{"roll", draw.Paper{}, nil}, {"A4", draw.A4, []string{"12", "14"}}, {"Letter", draw.Letter, []string{"20"}}} {
		style, _ := OfPattern(p, c.sizes)
		var b bytes.Buffer
		if err := WritePDF(&b, style, c.paper); err != nil {
			t.Fatal(err)
		}
		back, found := ReadPDF(source.File{Path: "quay.pdf", Data: b.Bytes()}, Tiles{})
		if found.Stops() > 0 {
			t.Fatalf("%s: %s", c.name, found[len(found)-1].Text())
		}
		pieces, sizes, found := Grade(back, nil, nil)
		if found.Stops() > 0 || len(pieces) != len(p.Order) || !slices.Equal(sizes, style.Sizes) {
			for _, g := range pieces {
				t.Log(g.Name, g.In[0].EdgeNames())
			}
			t.Fatalf("%s: %d pieces in %v: %v", c.name, len(pieces), sizes, found.Codes())
		}
		if found.Has("exchange.pdf-pages") {
			t.Errorf("%s: a page stands by itself", c.name)
		}
		worst := 0.0
		for _, g := range pieces {
			for k, size := range sizes {
				want, got := p.Pieces[g.Name].In[p.SizeIndex(size)], g.In[k]
				a, b := whole(edgesOf(want)), whole(edgesOf(got))
				lo, _ := a.Bounds()
				lo2, _ := b.Bounds()
				d := apart(a.Transform(shiftBy(lo2.Sub(lo))), b)
				worst = max(worst, d)
				if d > 0.02 || math.Abs(a.Length()-b.Length()) > 0.02 {
					t.Errorf("%s: %s %s comes back %.4f mm off", c.name, g.Name, size, d)
				}
				if n, m := notchCount(want), notchCount(got); n != m {
					t.Errorf("%s: %s %s comes back with %d notches, not %d", c.name, g.Name, size, m, n)
				}
				for _, m := range want.Marks {
					near := math.Inf(1)
					for _, q := range got.Marks {
						near = min(near, q.P.Dist(m.P.Add(lo2.Sub(lo))))
					}
					if near > 0.1 {
						t.Errorf("%s: %s %s: %s %s comes back %.3f mm off", c.name, g.Name, size, m.Kind, m.Name, near)
					}
				}
			}
		}
		t.Logf("%s: %d kB, farthest off %.4f mm", c.name, b.Len()>>10, worst)
	}
}

func notchCount(p piece.Piece) int {
	n := 0
	for _, m := range p.Marks {
		if m.Kind == piece.Notch {
			n++
		}
	}
	return n
}

// Source of the check: a PDF made by another program (librsvg with cairo) from the
// plain drawing is read with the same lengths.
func TestPDFOfAnotherMaker(t *testing.T) {
	program, err := exec.LookPath("rsvg-convert")
	if err != nil {
		t.Skip("rsvg-convert is not installed: ./check installs it")
	}
	dir := t.TempDir()
	text := strings.Replace(plainSVG, "<svg ", `<svg width="500mm" height="300mm" fill="none" stroke="black" stroke-width="0.5" `, 1)
	if err := os.WriteFile(filepath.Join(dir, "a.svg"), []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, format := range []string{"pdf", "pdf1.5"} {
		out, err := exec.Command(program, "-f", format, filepath.Join(dir, "a.svg")).Output()
		if err != nil && format == "pdf1.5" {
			continue // an older librsvg
		}
		if err != nil {
			t.Fatal(err)
		}
		style, found := ReadPDF(source.File{Path: "a.pdf", Data: out}, Tiles{})
		if found.Stops() > 0 || len(style.Parts) != 2 {
			t.Fatalf("%s: %d parts: %v", format, len(style.Parts), found.Codes())
		}
		want, _ := ReadSVG(source.File{Path: "a.svg", Data: []byte(text)})
		for i, p := range style.Parts {
			a, b := whole(p.Cut).Length(), whole(want.Parts[i].Cut).Length()
			if math.Abs(a-b) > 0.01 {
				t.Errorf("%s: outline %d is %.4f mm long, want %.4f", format, i, a, b)
			}
		}
	}
}

// pdfOf is a file of the given objects, with a root and one page whose content is
// the stream 4.
func pdfOf(content string, objects ...string) []byte {
	var b bytes.Buffer
	b.WriteString("%PDF-1.5\n1 0 obj <</Type/Catalog/Pages 2 0 R>> endobj\n2 0 obj <</Type/Pages/Kids[3 0 R]/Count 1>> endobj\n")
	b.WriteString("3 0 obj <</Type/Page/Parent 2 0 R/MediaBox[0 0 720 720]/Contents 4 0 R/Resources<</XObject<</F 5 0 R>>/Properties<</L 6 0 R>>>>>> endobj\n")
	fmt.Fprintf(&b, "4 0 obj <</Length %d>> stream\n%s\nendstream endobj\n", len(content), content)
	for _, o := range objects {
		b.WriteString(o + "\n")
	}
	b.WriteString("trailer <</Root 1 0 R>>\n%%EOF\n")
	return b.Bytes()
}

const square = "72 72 m 216 72 l 216 216 l 72 216 l s"

// deflated is a stream object that unfolds to n copies of a text.
func deflated(number int, dict, text string, n int) string {
	var z bytes.Buffer
	w, _ := zlib.NewWriterLevel(&z, 9)
	chunk := []byte(strings.Repeat(text, 1+(1<<16)/len(text)))
	for left := n * len(text); left > 0; left -= len(chunk) {
		_, _ = w.Write(chunk[:min(left, len(chunk))])
	}
	_ = w.Close()
	return fmt.Sprintf("%d 0 obj <<%s/Filter/FlateDecode/Length %d>> stream\n%s\nendstream endobj", number, dict, z.Len(), z.String())
}

// The parts of the standard that drawings use.
func TestPDFForms(t *testing.T) {
	for name, c := range map[string]struct {
		data  []byte
		mm    float64 // the length round
		parts int
		size  string
	}{
		"plain":      {pdfOf(square), 4 * 50.8, 1, ""},
		"rectangle":  {pdfOf("72 72 144 144 re S"), 4 * 50.8, 1, ""},
		"scaled":     {pdfOf("2 0 0 2 0 0 cm " + square), 8 * 50.8, 1, ""},
		"saved":      {pdfOf("q 2 0 0 2 0 0 cm Q " + square), 4 * 50.8, 1, ""},
		"in a layer": {pdfOf("/OC /L BDC "+square+" EMC", "6 0 obj <</Type/OCG/Name(size 12)>> endobj"), 4 * 50.8, 1, "12"},
		"layer in UTF-16": {pdfOf("/OC /L BDC "+square+" EMC", "6 0 obj <</Type/OCG/Name<FEFF00730069007A00650020004D>>> endobj"),
			4 * 50.8, 1, "M"},
		"a form":         {pdfOf("/F Do", "5 0 obj <</Subtype/Form/Matrix[.5 0 0 .5 0 0]/Length 37>> stream\n"+square+"\nendstream endobj"), 2 * 50.8, 1, ""},
		"a form's layer": {pdfOf("/F Do", "6 0 obj <</Type/OCG/Name(size 8)>> endobj\n5 0 obj <</Subtype/Form/OC 6 0 R>> stream\n"+square+"\nendstream endobj"), 4 * 50.8, 1, "8"},
		"written again":  {append(pdfOf("0 0 m 10 10 l S"), "4 0 obj <<>> stream\n"+square+"\nendstream endobj\n"...), 4 * 50.8, 1, ""},
		"two pieces":     {pdfOf(square + " 1 0 0 1 200 0 cm " + square), 4 * 50.8, 2, ""},
		"packed":         {pdfOf("/F Do", deflated(5, "/Subtype/Form", square+" ", 1)), 4 * 50.8, 1, ""},
		"page of an object stream": {[]byte("%PDF-1.5\n" + deflated(9, "/Type/ObjStm/N 3/First 14", "1 0 2 29 3 64 <</Type/Catalog/Pages 2 0 R>><</Type/Pages/Kids[3 0 R]/Count 1>><</Type/Page/MediaBox[0 0 720 720]/Contents 4 0 R>>", 1) +
			"\n4 0 obj <<>> stream\n" + square + "\nendstream endobj\n"), 4 * 50.8, 1, ""},
	} {
		style, found := ReadPDF(source.File{Path: "a.pdf", Data: c.data}, Tiles{})
		if found.Stops() > 0 || len(style.Parts) != c.parts {
			t.Errorf("%s: %d parts: %v", name, len(style.Parts), found.Codes())
			continue
		}
		p := style.Parts[0]
		if l := whole(p.Cut).Length(); math.Abs(l-c.mm) > 0.01 || p.Size != c.size {
			t.Errorf("%s: %.3f mm round in size %q, want %.3f in %q", name, l, p.Size, c.mm, c.size)
		}
	}
}

// Bombs are refused with a word, within bounded memory.
func TestPDFBombs(t *testing.T) {
	if os.Getenv("GUSSET_QUICK") != "" {
		t.Skip("quick: bombs are tried in full without the race detector")
	}
	nested := strings.Repeat("[", 100_000)
	ring := "5 0 obj <</Subtype/Form/Resources<</XObject<</F 5 0 R>>>>/Length 5>> stream\n/F Do\nendstream endobj"
	wide := "5 0 obj <</Subtype/Form/Resources<</XObject<</F 7 0 R>>>>>> stream\n" + strings.Repeat("/F Do ", 1000) + "\nendstream endobj\n" +
		"7 0 obj <</Subtype/Form/Resources<</XObject<</F 8 0 R>>>>>> stream\n" + strings.Repeat("/F Do ", 1000) + "\nendstream endobj\n" +
		"8 0 obj <</Subtype/Form>> stream\n" + strings.Repeat(square+" ", 100) + "\nendstream endobj"
	pages := "%PDF-1.4\n1 0 obj <</Type/Catalog/Pages 2 0 R>> endobj\n2 0 obj <</Type/Pages/Kids[2 0 R]>> endobj\n"
	for name, c := range map[string]struct {
		data []byte
		code string
	}{
		"a form that unfolds":           {pdfOf("/F Do", deflated(5, "/Subtype/Form", " ", 400<<20)), "pdf-unfolds"},
		"an object stream that unfolds": {pdfOf(square, deflated(9, "/Type/ObjStm/N 1/First 4", " ", 400<<20)), "pdf-unfolds"},
		"a form that unfolds to lines":  {pdfOf("/F Do", deflated(5, "/Subtype/Form", "1 1 l ", 4<<20)), "too-much"},
		"a form within itself":          {pdfOf("/F Do", ring), "pdf-deep"},
		"forms used a million times":    {pdfOf("/F Do", wide), "too-much"},
		"pages in a ring":               {[]byte(pages), "pdf-ring"},
		"brackets":                      {pdfOf(square, "9 0 obj "+nested), ""},
		"dictionaries":                  {pdfOf(square, "9 0 obj "+strings.Repeat("<</A", 100_000)), ""},
		"many words":                    {pdfOf(square, "9 0 obj ["+strings.Repeat("0 ", maxPDFTokens)+"] endobj"), "too-much"},
		"many objects":                  {append(pdfOf(square), manyObjects(maxPDFObjects+10)...), "too-much"},
	} {
		var before, after runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&before)
		style, found := ReadPDF(source.File{Path: "bomb.pdf", Data: c.data}, Tiles{})
		runtime.ReadMemStats(&after)
		if c.code != "" && !found.Has("exchange."+c.code) {
			t.Errorf("%s: %d parts, %v, want %s", name, len(style.Parts), found.Codes(), c.code)
		}
		if grown := (after.TotalAlloc - before.TotalAlloc) >> 20; grown > 700 {
			t.Errorf("%s: %d MB allocated", name, grown)
		} else {
			t.Logf("%s: %d bytes, %d MB allocated in all", name, len(c.data), grown)
		}
	}
}

func manyObjects(n int) []byte {
	var b bytes.Buffer
	for i := range n {
		fmt.Fprintf(&b, "%d 0 obj 1 endobj\n", i+100)
	}
	return b.Bytes()
}

// FuzzPDF: no file makes the reader panic.
func FuzzPDF(f *testing.F) {
	f.Add(pdfOf(square))
	f.Add(pdfOf("/OC /L BDC q 1 0 0 1 5 5 cm 0 0 m 9 9 50 50 70 0 c h B* Q EMC /F Do", "6 0 obj <</Type/OCMD/OCGs[7 0 R]>> endobj 7 0 obj <</Name(size 12)>> endobj",
		"5 0 obj <</Subtype/Form/Filter[/ASCIIHexDecode]>> stream\n30203020353020353020726520530a>\nendstream endobj"))
	f.Add(pdfOf("/F Do", deflated(5, "/Subtype/Form", square+" ", 2)))
	f.Add(pdfOf("/F Do", "5 0 obj <</Subtype/Form/Filter[/AHx/LZW]/DecodeParms[null<</EarlyChange 0>>]>> stream\n800B6050220C0C8501>\nendstream endobj"))
	f.Add(pdfOf("/F Do", "5 0 obj <</Subtype/Form/Filter/AHx/DecodeParms<</Predictor 12/Columns 4>>>> stream\n0030203020 026D000000 0431305330>\nendstream endobj"))
	f.Fuzz(func(_ *testing.T, data []byte) {
		s, _ := ReadPDF(source.File{Path: "x.pdf", Data: data}, Tiles{})
		Grade(s, nil, nil)
	})
}

// Sheets whose drawing was cut at their borders are laid together as they were
// said to lie: a circle of 100 mm radius on four pages, each rounded off on its
// own, is 628.32 mm round (identity).
func TestPDFTiles(t *testing.T) {
	const k = 0.5522847498 * 100
	at := func(x, y float64) string { return fmt.Sprintf("%.1f %.1f ", x*72/25.4, y*72/25.4) } // to 0.035 mm
	page := func(mx, my float64) string {                                                      // the quarter of the circle in the quadrant (mx, my)
		cx, cy := 160.0, 190.0 // the centre of the circle, at a corner of the window
		if mx > 0 {
			cx = 40
		}
		if my > 0 {
			cy = 60
		}
		p := func(x, y float64) string { return at(cx+mx*x, cy+my*y) }
		return p(100, 0) + "m " + p(100, k) + p(k, 100) + p(0, 100) + "c S"
	}
	var b bytes.Buffer
	b.WriteString("%PDF-1.4\n1 0 obj <</Type/Catalog/Pages 2 0 R>> endobj\n2 0 obj <</Type/Pages/MediaBox[0 0 566.929 708.661]/Kids[11 0 R 12 0 R 13 0 R 14 0 R]>> endobj\n")
	for i, c := range []string{page(-1, 1), page(1, 1), page(-1, -1), page(1, -1)} {
		fmt.Fprintf(&b, "%d 0 obj <</Type/Page/Contents %d 0 R>> endobj\n%d 0 obj <<>> stream\n%s\nendstream endobj\n", 11+i, 21+i, 21+i, c)
	}
	f := source.File{Path: "a.pdf", Data: b.Bytes()}
	style, found := ReadPDF(f, Tiles{Columns: 2, Rows: 2, Width: 120, Height: 130})
	if found.Stops() > 0 || len(style.Parts) != 1 {
		t.Fatalf("%d parts: %v", len(style.Parts), found.Codes())
	}
	if l := whole(style.Parts[0].Cut).Length(); math.Abs(l-200*math.Pi) > 0.5 {
		t.Errorf("the circle is %.3f mm round, want %.3f", l, 200*math.Pi)
	}
	if _, found := ReadPDF(f, Tiles{Columns: 3, Rows: 2, Width: 120, Height: 130}); !found.Has("exchange.pdf-tiles") {
		t.Errorf("six sheets are taken for four: %v", found.Codes())
	}
}

// A page is turned by its Rotate, clockwise (ISO 32000-1, table 30): a box near the
// lower left corner of a page 10 in wide and high comes to the upper left, upper
// right and lower right.
func TestPDFRotate(t *testing.T) {
	const in = 25.4
	for turn, want := range map[string][4]float64{ // left, lower, right, upper, in inches
		"0": {1, 1, 3, 2}, "90": {1, 7, 2, 9}, "180": {7, 8, 9, 9}, "270": {8, 1, 9, 3}, "-90": {8, 1, 9, 3},
	} {
		text := strings.Replace(string(pdfOf("72 72 144 72 re S")), "/Contents", "/Rotate "+turn+"/Contents", 1)
		style, found := ReadPDF(source.File{Path: "a.pdf", Data: []byte(text)}, Tiles{})
		if found.Stops() > 0 || len(style.Parts) != 1 {
			t.Fatal(found.Codes())
		}
		lo, hi := style.Parts[0].bounds()
		for i, got := range [4]float64{lo.X / in, lo.Y / in, hi.X / in, hi.Y / in} {
			if math.Abs(got-want[i]) > 1e-6 {
				t.Errorf("turned by %s: side %d at %.3f in, want %.0f", turn, i, got, want[i])
			}
		}
	}
}

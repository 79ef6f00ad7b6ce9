package exchange

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"gusset/internal/draw"
	"gusset/internal/source"
)

// A pattern that goes out as SVG and comes in again is the same: curves stay
// curves.
func TestSVGRoundTrip(t *testing.T) {
	p := quay(t)
	style, _ := OfPattern(p, nil)
	var b bytes.Buffer
	if err := WriteSVG(&b, style); err != nil {
		t.Fatal(err)
	}
	back, found := ReadSVG(source.File{Path: "quay.svg", Data: b.Bytes()})
	if len(found) > 0 {
		t.Fatalf("%s %s", found[0].Place, found[0].Text())
	}
	pieces, sizes, found := Grade(back, nil, nil)
	if found.Stops() > 0 || len(pieces) != len(p.Order) || len(sizes) != len(p.Sizes) {
		t.Fatalf("%d pieces in %d sizes: %v", len(pieces), len(sizes), found.Codes())
	}
	worst := 0.0
	for _, g := range pieces {
		want := p.Pieces[g.Name]
		if len(want.In) == 0 {
			t.Errorf("there is no piece %s", g.Name)
			continue
		}
		shift := want.In[0].Edges[0].Curve.Start().Sub(g.In[0].Edges[0].Curve.Start())
		for k, size := range sizes {
			worst = max(worst, samePiece(t, size, want.In[k], g.In[k].Transform(shiftBy(shift)), 0.001))
		}
	}
	t.Logf("%d bytes, farthest off %.5f mm", b.Len(), worst)
}

// A plain drawing, without groups of ours: two closed outlines, one drawn in
// parts that meet end to end, with a word in each and an open line.
const plainSVG = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 500 300">
<g id="layer1">
<path d="M20 20 H220 V120 H20 Z"/>
<text x="60" y="70">Cuff</text>
<path id="grain-1" d="M120 100 V40"/>
<path d="M300 20 C340 20 380 40 400 20"/><path d="M300 20 V200 H400"/><path d="M400 20 V200"/>
<text x="330" y="90">Cape panel</text>
<path d="M320 150 H380"/>
</g></svg>`

func TestPlainSVG(t *testing.T) {
	style, found := ReadSVG(source.File{Path: "plain.svg", Data: []byte(plainSVG)})
	if found.Stops() > 0 || len(style.Parts) != 2 {
		t.Fatalf("%d parts: %v", len(style.Parts), found.Codes())
	}
	pieces, sizes, found := Grade(style, []string{"M"}, nil)
	if found.Stops() > 0 || len(sizes) != 1 || sizes[0] != "M" {
		t.Fatalf("%v: %v", sizes, found.Codes())
	}
	cuff, panel := pieces[0], pieces[1]
	if cuff.Name != "cuff" || panel.Name != "cape-panel" || cuff.Sewn {
		t.Errorf("called %s and %s", cuff.Name, panel.Name)
	}
	if got := strings.Join(cuff.In[0].EdgeNames(), " "); !strings.Contains("lower right upper left lower right upper", got) {
		t.Errorf("edges of the cuff: %s", got)
	}
	lower, _ := cuff.In[0].Edge("lower")
	if l := lower.Curve.Length(); math.Abs(l-200) > 1e-6 {
		t.Errorf("the cuff is %.3f mm wide", l)
	}
	if len(panel.In[0].Edges) != 4 || len(panel.In[0].Lines) != 2 {
		t.Errorf("panel: edges %v, lines %v", panel.In[0].EdgeNames(), panel.In[0].Lines)
	}
	if _, found := loaded(t, Folder(pieces, sizes, Said{Line: "stitching"}), 1); found.Stops() > 0 {
		t.Errorf("%s", found[0].Text())
	}
}

// Source of the check: two independent renderers. The SVG drawn by librsvg and the
// PDF drawn by poppler show the piece's outline where it is: the box round the ink
// has the piece's size within a pixel.
func TestRenderers(t *testing.T) {
	style, _ := OfPattern(quay(t), []string{"14"})
	for i := range style.Parts {
		if style.Parts[i].Name == "yoke" {
			style.Parts = style.Parts[i : i+1]
			break
		}
	}
	lo, hi := style.Parts[0].bounds()
	for _, program := range []string{"rsvg-convert", "pdftoppm"} {
		if _, err := exec.LookPath(program); err != nil {
			t.Skipf("%s is not installed: ./check installs it", program)
		}
	}
	dir := t.TempDir()
	var svg, pdf bytes.Buffer
	if err := WriteSVG(&svg, style); err != nil {
		t.Fatal(err)
	}
	if err := WritePDF(&pdf, style, draw.Paper{}); err != nil {
		t.Fatal(err)
	}
	for name, data := range map[string][]byte{"a.svg": svg.Bytes(), "a.pdf": pdf.Bytes()} {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	const dpi = 127 // 5 pixels in a millimetre
	runs := map[string][]string{
		"a.svg": {"rsvg-convert", "-d", fmt.Sprint(dpi), "-p", fmt.Sprint(dpi), "-b", "white", "-o", filepath.Join(dir, "a.svg.png"), filepath.Join(dir, "a.svg")},
		"a.pdf": {"pdftoppm", "-r", fmt.Sprint(dpi), "-png", "-singlefile", filepath.Join(dir, "a.pdf"), filepath.Join(dir, "a.pdf")},
	}
	for name, args := range runs {
		if out, err := exec.Command(args[0], args[1:]...).CombinedOutput(); err != nil {
			t.Fatalf("%s: %v %s", name, err, out)
		}
		w, h := inkBox(t, filepath.Join(dir, name+".png"), name == "a.pdf")
		if math.Abs(w/5-(hi.X-lo.X)) > 0.6 || math.Abs(h/5-(hi.Y-lo.Y)) > 0.6 {
			t.Errorf("%s shows %.1f × %.1f mm, the piece is %.1f × %.1f", name, w/5, h/5, hi.X-lo.X, hi.Y-lo.Y)
		}
	}
}

// FuzzSVG: no drawing makes the reader panic.
func FuzzSVG(f *testing.F) {
	f.Add([]byte(plainSVG))
	f.Add([]byte(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 300 300"><g id="size-12"><g id="size-12.cuff"><path id="size-12.cuff.cut.top" d="M0 0 H99"/>` +
		`<path id="size-12.cuff.cut.rest" d="M99 0 C99 50 60 80 0 80 Z"/><circle id="size-12.cuff.notch.top.n1" cx="40" cy="0" r="1"/><path id="size-12.cuff.line.grain.grain" d="M20 20 V60"/></g></g></svg>`))
	f.Fuzz(func(_ *testing.T, data []byte) {
		s, _ := ReadSVG(source.File{Path: "x.svg", Data: data})
		Grade(s, nil, nil)
	})
}

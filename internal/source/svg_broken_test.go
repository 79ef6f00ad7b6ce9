package source

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"gusset/internal/finding"
)

const svgHead = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 420 297" width="420mm" height="297mm">` + "\n"

// brokenSVG are drawings with one fault each; those whose text does not begin
// with "<?" or "<svg" or "!" stand inside a sound page, on line 2.
var brokenSVG = []struct {
	name, text, code string
	line, col        int
	says             string
}{
	{"empty", "!", "source.empty", 0, 0, ""},
	{"binary", "!<svg\x00>", "source.not-text", 1, 5, ""},
	{"only a comment", "!<!-- x -->\n", "source.svg-root", 2, 1, "missing"},
	{"plain text", "!Quay trousers", "source.svg-root", 1, 14, ""},
	{"other root", "!<html></html>", "source.svg-root", 1, 1, "<html>"},
	{"no namespace", `<svg viewBox="0 0 1 1"></svg>`, "source.svg-root", 1, 1, "without xmlns"},
	{"open tag", "<g>", "source.svg-broken", 3, 1, ""},
	{"cut off", "!" + svgHead + "<path d=\"M0", "source.svg-broken", 2, 1, "eof"},
	{"bare sign", "<text>a & b</text>", "source.svg-doctype", 2, 1, ""},
	{"entity", "<text>&grain;</text>", "source.svg-doctype", 2, 1, ""},
	{"doctype", "!<!DOCTYPE svg [<!ENTITY a 'aaaa'>]>\n" + svgHead + "</svg>", "source.svg-doctype", 1, 1, ""},
	{"other encoding", "!<?xml version=\"1.0\" encoding=\"ISO-8859-1\"?>" + svgHead + "</svg>", "source.svg-broken", 1, 44, "UTF-8"},
	{"two drawings", "!" + svgHead + "</svg>\n" + svgHead + "</svg>", "source.svg-broken", 3, 1, "second drawing"},
	{"deep", strings.Repeat("<g>", 64) + strings.Repeat("</g>", 64), "source.too-deep", 2, 190, ""},
	{"no viewBox", `<svg xmlns="http://www.w3.org/2000/svg"></svg>`, "source.svg-viewbox", 1, 1, "missing"},
	{"viewBox of three", viewBox("0 0 420", ""), "source.svg-viewbox", 1, 50, "four numbers"},
	{"viewBox of words", viewBox("0 0 a b", ""), "source.svg-viewbox", 1, 50, "four numbers"},
	{"page of nothing", viewBox("0 0 0 297", ""), "source.svg-viewbox", 1, 50, "larger than nothing"},
	{"page of NaN", viewBox("0 0 NaN 297", ""), "source.svg-viewbox", 1, 50, ""},
	{"huge page", viewBox("0 0 420 29700", ""), "source.svg-viewbox", 1, 50, "20 m"},
	{"width in px", viewBox("0 0 420 297", `width="420"`), "source.svg-scale", 1, 70, `width is "420", but the viewBox says 420 mm`},
	{"width off", viewBox("0 0 420 297", `width="420.1mm"`), "source.svg-scale", 1, 70, ""},
	{"height in cm", viewBox("0 0 420 297", `height="297cm"`), "source.svg-scale", 1, 71, ""},
	{"width in percent", viewBox("0 0 420 297", `width="100%"`), "source.svg-scale", 1, 70, ""},
	{"turned page", viewBox("0 0 420 297", `transform="rotate(90)"`), "source.svg-transform", 1, 74, ""},
	{"rectangle", `<rect width="10" height="10"/>`, "source.svg-element", 2, 1, "<rect>"},
	{"clone", `<use href="#a"/>`, "source.svg-element", 2, 1, "<use>"},
	{"picture", `<image href="a.png"/>`, "source.svg-element", 2, 1, "<image>"},
	{"script", `<script>alert(1)</script>`, "source.svg-element", 2, 1, "<script>"},
	{"page in page", `<svg viewBox="0 0 1 1"/>`, "source.svg-element", 2, 1, "<svg>"},
	{"moving", `<line x2="1"><animate/></line>`, "source.svg-element", 2, 14, "<animate>"},
	{"arc", "<path\n  id='a' d='M0 0 A5 5 0 0 1 9 9'/>", "source.svg-arc", 3, 18, ""},
	{"small arc", "<path d='M0 0 a5 5 0 0 1 9 9'/>", "source.svg-arc", 2, 15, ""},
	{"no data", "<path id='a'/>", "source.svg-path", 2, 1, "at least one"},
	{"a move only", "<path d='M5 5'/>", "source.svg-path", 2, 10, "at least one"},
	{"no move", "<path d='L5 5'/>", "source.svg-path", 2, 10, "begin with M"},
	{"odd letter", "<path d='M0 0 B5 5'/>", "source.svg-path", 2, 15, "character 6"},
	{"a number short", "<path d='M0 0 L5'/>", "source.svg-path", 2, 17, "want a number"},
	{"two commas", "<path d='M0 0 L5,,5'/>", "source.svg-path", 2, 18, ""},
	{"NaN", "<path d='M0 0 LNaN 5'/>", "source.svg-path", 2, 16, ""},
	{"infinite", "<path d='M0 0 L1e999 5'/>", "source.svg-path", 2, 16, ""},
	{"number after z", "<path d='M0 0 L5 5z5'/>", "source.svg-path", 2, 20, ""},
	{"huge", "<path d='M0 0 L5 50000'/>", "source.svg-huge", 2, 1, "20 m"},
	{"huge by scale", "<g transform='scale(1000)'><line x2='21'/></g>", "source.svg-huge", 2, 28, ""},
	{"number with unit", "<line x2='5mm'/>", "source.svg-number", 2, 11, `x2 is "5mm"`},
	{"two numbers", "<text x='1 2'>a</text>", "source.svg-number", 2, 10, ""},
	{"odd points", "<polyline points='0,0 5,5 9'/>", "source.svg-number", 2, 19, ""},
	{"one point", "<polyline points='0,0'/>", "source.svg-number", 2, 19, ""},
	{"circle of nothing", "<circle cx='5' cy='5'/>", "source.svg-number", 2, 1, "above 0"},
	{"negative circle", "<circle r='-5'/>", "source.svg-number", 2, 12, "above 0"},
	{"squashed circle", "<circle r='5' transform='scale(1,2)'/>", "source.svg-transform", 2, 1, "ellipse"},
	{"skewed", "<g transform='skewX(10)'/>", "source.svg-transform", 2, 15, "skewX"},
	{"transform word", "<g transform='mirror(1)'/>", "source.svg-transform", 2, 15, "mirror"},
	{"transform count", "<g transform='scale(1,2,3)'/>", "source.svg-transform", 2, 15, "scale with 3"},
	{"transform open", "<g transform='scale(1'/>", "source.svg-transform", 2, 15, ""},
	{"transform NaN", "<g transform='scale(NaN)'/>", "source.svg-transform", 2, 15, ""},
	{"flat", "<g transform='scale(1,0)'/>", "source.svg-transform", 2, 15, "vanish"},
	{"styled", "<g style='transform:scale(2)'/>", "source.svg-transform", 2, 1, "style"},
	{"id twice", "<g id='a'/>\n<line id='a' x2='1'/>", "source.svg-duplicate-id", 3, 11, `"a"`},
	{"too many elements", strings.Repeat("<line/>", maxElements+1), "source.svg-too-long", 2, 7*maxElements + 1, "20000 elements"},
	{"too many segments", "<path d='M0 0" + strings.Repeat("h1h-1", maxSegments/2+1) + "'/>", "source.svg-too-long", 2, 1, "200000 lines"},
	{"too many points", "<polyline points='" + strings.Repeat("0 0 1 1 ", maxSegments/2+1) + "'/>", "source.svg-too-long", 2, 1, "200000 lines"},
	{"too large", "<!-- " + strings.Repeat("x", MaxSVG) + " -->", "source.too-large", 0, 0, "16 MiB"},
}

func viewBox(box, more string) string {
	return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="` + box + `" ` + more + `></svg>`
}

func svgFile(text string) File {
	switch {
	case strings.HasPrefix(text, "!"):
		text = text[1:]
	case !strings.HasPrefix(text, "<svg xmlns") && !strings.HasPrefix(text, "<svg viewBox=\"0 0 1 1\"></svg>"):
		text = svgHead + text + "\n</svg>"
	}
	return File{Path: "patterns/quay/front.svg", Data: []byte(text)}
}

func TestBrokenSVG(t *testing.T) {
	for _, c := range brokenSVG {
		_, found := ReadSVG(svgFile(c.text))
		if len(found) != 1 {
			t.Errorf("%s: %d findings, want 1: %v", c.name, len(found), texts(found))
			continue
		}
		g := found[0]
		if g.Code() != c.code || g.Place.Line != c.line || g.Place.Col != c.col {
			t.Errorf("%s: %s at %d:%d (%s), want %s at %d:%d", c.name, g.Code(), g.Place.Line, g.Place.Col, g.Text(), c.code, c.line, c.col)
		}
		if !strings.Contains(g.Text(), c.says) || strings.Contains(g.Text()+g.Mend(), "%!") {
			t.Errorf("%s: %q, mend %q; should say %q", c.name, g.Text(), g.Mend(), c.says)
		}
	}
}

// What is sound is given beside what is not.
func TestSoundElementsRemain(t *testing.T) {
	svg, found := ReadSVG(svgFile("<path id='a' d='M0 0 A1'/><rect/><line id='b' x2='5'/><path id='c' d='M0 0 5 5'/>"))
	if len(found) != 2 || len(svg.Elements) != 2 || svg.Elements[0].ID != "b" || svg.Elements[1].ID != "c" {
		t.Errorf("%v, %+v", texts(found), svg.Elements)
	}
	twice, _ := ReadSVG(svgFile("<g id='a'/>\n<line id='a' x2='1'/>"))
	if len(twice.Elements) != 1 {
		t.Errorf("%+v", twice.Elements)
	}
}

func TestManySVGFaultsAreBounded(t *testing.T) {
	_, found := ReadSVG(svgFile(strings.Repeat("<rect/>", 5000)))
	if len(found) != maxFaults+1 || !found.Has("source.too-many") {
		t.Errorf("%d findings", len(found))
	}
}

func FuzzSVG(f *testing.F) {
	for _, c := range brokenSVG {
		if len(c.text) < 10_000 {
			f.Add(svgFile(c.text).Data)
		}
	}
	f.Add(page(`<g id="S12" transform="rotate(30 1 2) scale(-2)"><path class="cut" d="M0 0C1 2 3 4 5 6s1 1 2 2Q1 2 3 4t1 1zh5"><title>x</title></path></g>`).Data)
	f.Fuzz(func(t *testing.T, data []byte) {
		svg, found := ReadSVG(File{Path: "f", Data: data})
		if len(found) > maxFaults+1 || len(found) == 0 && svg.ViewBox[2] <= 0 {
			t.Fatalf("%d findings, page %v", len(found), svg.ViewBox)
		}
		for _, e := range svg.Elements {
			points := [][2]float64{e.Center, {e.R, 0}}
			for _, p := range e.Subpaths {
				for i, s := range p.Segs {
					points = append(points, s.P[:]...)
					if i > 0 && s.P[0] != p.Segs[i-1].P[3] {
						t.Fatalf("a gap within a subpath of %q", data)
					}
				}
				if p.Closed && p.Segs[len(p.Segs)-1].P[3] != p.Segs[0].P[0] {
					t.Fatalf("closed, but open: %q", data)
				}
			}
			for _, p := range points {
				if !(math.Abs(p[0]) <= maxCoord && math.Abs(p[1]) <= maxCoord) {
					t.Fatalf("%v is off the page by far", p)
				}
			}
		}
		if err := finding.WriteText(&bytes.Buffer{}, found); err != nil {
			t.Fatal(err)
		}
	})
}

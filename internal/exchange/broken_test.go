package exchange

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"testing"

	"gusset/internal/source"
	"gusset/internal/unit"
)

// dxfOf is a file of one block, in millimetres, with the given entities.
func dxfOf(entities string) string {
	return "0\nSECTION\n2\nBLOCKS\n0\nBLOCK\n8\n1\n2\nCUFF\n" + entities + "0\nENDBLK\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nTEXT\n8\n1\n1\nUNITS: METRIC\n0\nENDSEC\n0\nEOF\n"
}

// run2 is a LWPOLYLINE on a layer through points.
func run2(layer, flags int, xy ...float64) string {
	var b strings.Builder
	fmt.Fprintf(&b, "0\nLWPOLYLINE\n8\n%d\n70\n%d\n", layer, flags)
	for i := 0; i+1 < len(xy); i += 2 {
		fmt.Fprintf(&b, "10\n%g\n20\n%g\n", xy[i], xy[i+1])
	}
	return b.String()
}

var box = run2(1, 1, 0, 0, 200, 0, 200, 100, 0, 100)

// Each broken file is refused with a finding of its own, which names the file and,
// where the format has lines, the line.
func TestBrokenFiles(t *testing.T) {
	good := pouch(t)
	change := func(old, with string) string {
		if !strings.Contains(good, old) {
			t.Fatalf("the taped piece has no %q", old)
		}
		return strings.Replace(good, old, with, 1)
	}
	svg := func(inside string) string {
		return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 500 500">` + inside + `</svg>`
	}
	sound := dxfOf(box)
	for _, c := range []struct{ name, file, text, code string }{
		{"empty", "a.dxf", "", "exchange.empty"},
		{"blank", "a.dxf", " \r\n\r\n", "exchange.empty"},
		{"binary DXF", "a.dxf", "AutoCAD Binary DXF\r\n\x1a\x00", "exchange.dxf-binary"},
		{"prose", "a.dxf", "Dear customer,\nthe pattern follows.\n", "exchange.dxf-group"},
		{"a picture", "a.dxf", "\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", "exchange.dxf-group"},
		{"cut in a pair", "a.dxf", sound[:strings.Index(sound, "200\n20")], "exchange.dxf-cut-short"},
		{"cut between pairs", "a.dxf", strings.TrimSuffix(sound, "0\nEOF\n"), "exchange.dxf-cut-short"},
		{"a line lost", "a.dxf", strings.Replace(sound, "\n20\n0\n10", "\n0\n10", 1), "exchange.dxf-cut-short|exchange.dxf-group|exchange.dxf-number|exchange.open|exchange.no-pieces"},
		{"a group code of letters", "a.dxf", strings.Replace(sound, "LWPOLYLINE\n8\n", "LWPOLYLINE\nlayer\n", 1), "exchange.dxf-group"},
		{"a value before any entity", "a.dxf", "8\n1\n" + sound, "exchange.dxf-group"},
		{"no number", "a.dxf", strings.Replace(sound, "10\n200\n", "10\ntwo hundred\n", 1), "exchange.dxf-number"},
		{"a decimal comma", "a.dxf", strings.Replace(sound, "10\n200\n", "10\n200,5\n", 1), "exchange.dxf-number"},
		{"NaN", "a.dxf", strings.Replace(sound, "10\n200\n", "10\nNaN\n", 1), "exchange.dxf-number"},
		{"endless", "a.dxf", strings.Replace(sound, "10\n200\n", "10\n1e400\n", 1), "exchange.dxf-number"},
		{"far off", "a.dxf", strings.Replace(sound, "10\n200\n", "10\n2000000\n", 1), "exchange.far-off"},
		{"no unit", "a.dxf", strings.Replace(sound, "UNITS: METRIC", "UNITS UNKNOWN", 1), "exchange.dxf-unit"},
		{"two units", "a.dxf", "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n1\n0\nENDSEC\n" + sound, "exchange.dxf-unit-twice"},
		{"at another scale", "a.dxf", strings.Replace(sound, "0\nENDSEC\n0\nEOF", "0\nINSERT\n2\nCUFF\n41\n2.5\n0\nENDSEC\n0\nEOF", 1), "exchange.dxf-scale"},
		{"a block in a block", "a.dxf", dxfOf(box + "0\nINSERT\n2\nCUFF\n"), "exchange.dxf-nested"},
		{"open outline", "a.dxf", dxfOf(run2(1, 0, 0, 0, 200, 0, 200, 100, 0, 100)), "exchange.open"},
		{"outline with a gap", "a.dxf", dxfOf(run2(1, 0, 0, 0, 200, 0, 200, 100, 0, 100, 0, 0.5)), "exchange.open"},
		{"two outlines", "a.dxf", dxfOf(box + run2(1, 1, 300, 0, 400, 0, 400, 100)), "exchange.many-outlines"},
		{"three lines at a corner", "a.dxf", dxfOf(run2(1, 0, 0, 0, 200, 0) + run2(1, 0, 200, 0, 200, 100, 0, 100, 0, 0) + run2(1, 0, 200, 0, 100, 50)), "exchange.forks"},
		{"as small as a button", "a.dxf", dxfOf(run2(1, 1, 0, 0, 2, 0, 2, 1)), "exchange.tiny"},
		{"nothing on the layers of pieces", "a.dxf", dxfOf(run2(30, 1, 0, 0, 200, 0, 200, 100)), "exchange.no-pieces"},
		{"no entities", "a.dxf", "0\nSECTION\n2\nENTITIES\n0\nTEXT\n8\n1\n1\nUNITS: METRIC\n0\nENDSEC\n0\nEOF\n", "exchange.no-pieces"},
		{"a piece twice", "a.dxf", strings.Replace(sound, "0\nENDSEC\n0\nSECTION", "0\nBLOCK\n2\nCUFF\n"+box+"0\nENDBLK\n0\nENDSEC\n0\nSECTION", 1), "exchange.piece-twice"},
		{"a spline", "a.dxf", dxfOf("0\nSPLINE\n8\n1\n70\n8\n"), "exchange.dxf-entity|exchange.no-pieces"},
		{"a line in space", "a.dxf", dxfOf("0\nPOLYLINE\n8\n1\n70\n9\n0\nVERTEX\n10\n0\n20\n0\n0\nSEQEND\n"), "exchange.dxf-entity"},

		{"not XML", "a.svg", "M 0 0 L 10 10", "source.svg-root|source.svg-broken"},
		{"a page", "a.svg", "<html><body/></html>", "source.svg-root"},
		{"no size", "a.svg", `<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0 H9"/></svg>`, "source.svg-viewbox"},
		{"an entity bomb", "a.svg", `<!DOCTYPE svg [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]>` + svg("<text>&b;</text>"), "source.svg-doctype"},
		{"deep groups", "a.svg", svg(strings.Repeat("<g>", 200) + strings.Repeat("</g>", 200)), "source.too-deep"},
		{"nothing drawn", "a.svg", svg(""), "exchange.no-pieces"},
		{"an open line", "a.svg", svg(`<path d="M0 0 H100 V100"/>`), "exchange.open"},
		{"an arc", "a.svg", svg(`<path d="M0 0 A50 50 0 0 1 100 0 Z"/>`), "source.svg-arc"},

		{"empty PDF", "a.pdf", "\n", "exchange.empty"},
		{"no PDF", "a.pdf", "hello", "exchange.pdf-none"},
		{"a head only", "a.pdf", "%PDF-1.7\n%%EOF\n", "exchange.pdf-no-pages"},
		{"cut in a stream", "a.pdf", strings.SplitAfter(string(pdfOf(square)), square)[0], "exchange.pdf-cut-short"},
		{"encrypted", "a.pdf", strings.Replace(string(pdfOf(square)), "trailer <<", "trailer <</Encrypt 9 0 R", 1), "exchange.pdf-locked"},
		{"a filter that is not read", "a.pdf", string(pdfOf("/F Do", "5 0 obj <</Subtype/Form/Filter/JBIG2Decode>> stream\nxx\nendstream endobj")), "exchange.pdf-filter"},
		{"damaged packing", "a.pdf", string(pdfOf("/F Do", "5 0 obj <</Subtype/Form/Filter/FlateDecode>> stream\nxx\nendstream endobj")), "exchange.pdf-damaged"},
		{"an open line in a PDF", "a.pdf", string(pdfOf("0 0 m 300 0 l 300 300 l S")), "exchange.open"},
		{"a page without lines", "a.pdf", string(pdfOf("BT (words) Tj ET")), "exchange.no-pieces"},

		{"another kind", "a.yaml", "gusset: body/1\ntitle: Robin\n", "source.other-kind"},
		{"a newer version", "a.yaml", change("taped/1", "taped/2"), "source.newer"},
		{"no edges", "a.yaml", good[:strings.Index(good, "edges:")], "source.missing-key"},
		{"one edge", "a.yaml", good[:strings.Index(good, "  - {name: side-front")], "exchange.taped-few"},
		{"clockwise", "a.yaml", strings.NewReplacer("a: [0, 4]", "a: [0, -4]", "b: [18, 4]", "b: [18, -4]", "c: [18, 22]", "c: [18, -22]", "d: [0, 22]", "d: [0, -22]", "e: [18.4, 13]", "e: [18.4, -13]").Replace(good), "exchange.taped-clockwise"},
		{"crossing", "a.yaml", strings.NewReplacer("c: [18, 22]", "c: [0, 22]", "d: [0, 22]", "d: [18, 22]").Replace(good), "exchange.taped-crossing|exchange.taped-off"},
		{"a point of three distances", "a.yaml", change("a: [0, 4]", "a: [0, 4, 5]"), "exchange.taped-bend"},
		{"a point far off", "a.yaml", change("a: [0, 4]", "a: [0, 4000]"), "source.out-of-range"},
		{"two points on each other", "a.yaml", change("e: [18.4, 13]", "e: [18, 22]"), "exchange.taped-bend"},
		{"both ways", "a.yaml", change("through: [e]", "through: [e], depth: [{at: 3, out: 1}]"), "exchange.taped-way"},
		{"a depth beyond the end", "a.yaml", change("{at: 13.5, out: 3}", "{at: 19, out: 3}"), "exchange.taped-bend"},
		{"a notch beyond the end", "a.yaml", change("name: middle, at: 9", "name: middle, at: 19"), "exchange.taped-notch"},
		{"a notch on no edge", "a.yaml", change("edge: top, name: middle", "edge: tip, name: middle"), "exchange.taped-point"},
		{"an edge twice", "a.yaml", change("name: side-back", "name: top"), "exchange.taped-twice"},
		{"a name of capitals", "a.yaml", change("name: side-back", "name: Side Back"), "exchange.name"},
		{"no fold edge", "a.yaml", change("copies: pair", "copies: fold"), "exchange.taped-point"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, found, ok := Read(source.File{Path: c.file, Data: []byte(c.text)}, Options{})
			if !ok {
				t.Fatal("no reader")
			}
			for _, want := range strings.Split(c.code, "|") {
				if found.Has(want) {
					for _, f := range found {
						if f.Place.File != c.file {
							t.Errorf("%s does not name the file: %+v", f.Code(), f.Place)
						}
					}
					return
				}
			}
			t.Errorf("%v, want %s", found.Codes(), c.code)
		})
	}
}

// Sizes that do not match are refused.
func TestBrokenSizes(t *testing.T) {
	two := func(second string) Style {
		text := "0\nSECTION\n2\nBLOCKS\n0\nBLOCK\n2\nA\n0\nTEXT\n8\n1\n1\nPIECE NAME: cuff\n0\nTEXT\n8\n1\n1\nSIZE: 10\n" + box +
			"0\nENDBLK\n0\nBLOCK\n2\nB\n0\nTEXT\n8\n1\n1\nPIECE NAME: cuff\n0\nTEXT\n8\n1\n1\nSIZE: 12\n" + second + "0\nENDBLK\n0\nENDSEC\n0\nEOF\n"
		s, found := ReadDXF(source.File{Path: "a.dxf", Data: []byte(text)}, unit.Millimetre)
		if found.Stops() > 0 {
			t.Fatal(found.Codes())
		}
		return s
	}
	for _, c := range []struct {
		name, second string
		sizes        []string
		code         string
	}{
		{"another number of corners", run2(1, 1, 0, 0, 210, 0, 210, 100), nil, "exchange.corners"},
		{"a size that is not there", run2(1, 1, 0, 0, 210, 0, 210, 110, 0, 110), []string{"10", "14"}, "exchange.size-missing"},
		{"another shape", run2(1, 1, 0, 0, 900, -400, 910, 0, 5, 20), nil, "exchange.corners-rough"},
		{"the larger size first", run2(1, 1, 0, 0, 190, 0, 190, 90, 0, 90), nil, "exchange.size-order"},
		{"side by side", run2(1, 1, 1000, 0, 1210, 0, 1210, 110, 1000, 110), nil, "exchange.stacked"},
	} {
		if _, _, found := Grade(two(c.second), c.sizes, nil); !found.Has(c.code) {
			t.Errorf("%s: %v, want %s", c.name, found.Codes(), c.code)
		}
	}
	pieces, sizes, found := Grade(two(run2(1, 1, 210, 0, 210, 110, 0, 110, 0, 0)), nil, nil) // begun at another corner
	if found.Stops() > 0 || len(sizes) != 2 {
		t.Fatal(found.Codes())
	}
	for k, w := range []float64{200, 210} {
		if e, _ := pieces[0].In[k].Edge("lower"); e.Curve.Length() != w {
			t.Errorf("size %s is %.1f mm wide, want %.0f", sizes[k], e.Curve.Length(), w)
		}
	}
}

// Files that would take endless time or room are refused within bounds.
func TestBombs(t *testing.T) {
	if os.Getenv("GUSSET_QUICK") != "" {
		t.Skip("quick: bombs are tried in full without the race detector")
	}
	var fan bytes.Buffer // all lines from one point
	for i := range 20_000 {
		fan.WriteString(run2(1, 0, 0, 0, float64(i%300)+1, float64(i/300)))
	}
	var labels bytes.Buffer
	for i := range 20_000 {
		fmt.Fprintf(&labels, "0\nTEXT\n8\n15\n10\n%d\n20\n0\n1\nLINE level l%d\n", i, i)
	}
	for name, c := range map[string]struct{ file, text, code string }{
		"a fan of lines":    {"a.dxf", dxfOf(fan.String()), "exchange.forks"},
		"names":             {"a.dxf", dxfOf(box + labels.String()), "exchange.too-much"},
		"endless vertices":  {"a.dxf", dxfOf("0\nPOLYLINE\n8\n1\n70\n1\n" + strings.Repeat("0\nVERTEX\n10\n1\n20\n1\n", maxVertices+10)), "exchange.too-much"},
		"endless blocks":    {"a.dxf", "0\nSECTION\n2\nBLOCKS\n" + strings.Repeat("0\nBLOCK\n2\nA\n"+box+"0\nENDBLK\n", maxParts+2) + "0\nENDSEC\n0\nEOF\n", "exchange.too-much"},
		"a fan of outlines": {"a.pdf", string(pdfOf(strings.Repeat(square+" 1 0 0 1 .01 0 cm ", 3000))), "exchange.too-much"},
	} {
		if _, found, _ := Read(source.File{Path: c.file, Data: []byte(c.text)}, Options{Unit: unit.Millimetre}); !found.Has(c.code) {
			t.Errorf("%s: %v, want %s", name, found.Codes(), c.code)
		}
	}
}

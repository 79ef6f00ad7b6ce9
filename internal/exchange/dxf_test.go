package exchange

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"gusset/internal/geom"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// A pattern that goes out as DXF and comes in again is the same within a
// hundredth of a millimetre: outlines, lines, marks, grain and all names.
func TestDXFRoundTrip(t *testing.T) {
	p := quay(t)
	style, found := OfPattern(p, nil)
	if found.Stops() > 0 {
		t.Fatal(found)
	}
	for _, u := range []unit.Unit{unit.Millimetre, unit.Inch} {
		var b bytes.Buffer
		if err := WriteDXF(&b, style, u); err != nil {
			t.Fatal(err)
		}
		back, found := ReadDXF(source.File{Path: "quay.dxf", Data: b.Bytes()}, "")
		if len(found) > 0 {
			t.Fatalf("%s: %v", u, found[0].Text())
		}
		pieces, sizes, found := Grade(back, nil, nil)
		if len(found) > 0 {
			t.Errorf("%s: %v", u, found[0].Text())
		}
		if len(pieces) != len(p.Order) || len(sizes) != len(p.Sizes) {
			t.Fatalf("%d pieces in %d sizes, want %d in %d", len(pieces), len(sizes), len(p.Order), len(p.Sizes))
		}
		worst := 0.0
		for i, g := range pieces {
			for k, size := range sizes {
				worst = max(worst, samePiece(t, size, p.Pieces[p.Order[i]].In[k], g.In[k], 0.01))
			}
		}
		t.Logf("%s: %d bytes, farthest off %.4f mm", u, b.Len(), worst)
	}
}

// FuzzDXF: no file makes the reader panic.
func FuzzDXF(f *testing.F) {
	f.Add([]byte("  0\nSECTION\n  2\nENTITIES\n  0\nTEXT\n8\n1\n1\nUNITS: METRIC\n0\nLWPOLYLINE\n8\n1\n70\n1\n10\n0\n20\n0\n10\n100\n20\n0\n42\n0.4\n10\n100\n20\n90\n0\nENDSEC\n0\nEOF\n"))
	f.Add([]byte("0\nSECTION\n2\nBLOCKS\n0\nBLOCK\n2\nA\n0\nARC\n8\n1\n10\n0\n20\n0\n40\n50\n50\n0\n51\n180\n0\nLINE\n8\n1\n10\n50\n20\n0\n11\n-50\n21\n0\n0\nENDBLK\n0\nENDSEC\n0\nEOF\n"))
	f.Add([]byte(dxfOf(spline + run2(1, 0, 200, 0, 200, 100, 0, 100, 0, 0))))
	f.Fuzz(func(_ *testing.T, data []byte) {
		s, _ := ReadDXF(source.File{Path: "x.dxf", Data: data}, unit.Millimetre)
		pieces, _, _ := Grade(s, nil, nil)
		Propose(pieces)
	})
}

// What other writers do: CR LF line ends, keys in any case, the style's text in
// every block, an outline of single lines and an arc, notches as short lines, a
// grain drawn level, one number of copies, text of an old code page.
func TestDXFOfAnotherMaker(t *testing.T) {
	text := "999\nremark\n0\nSECTION\n2\nBLOCKS\n0\nBLOCK\n8\n1\n2\nP1\n" +
		"0\nTEXT\n8\n1\n1\nUnits: english\n0\nTEXT\n8\n1\n1\nPiece Name: Kragen \xfcber\n0\nTEXT\n8\n1\n1\nSize: M\n0\nTEXT\n8\n1\n1\nQuantity: 2\n" +
		"0\nLINE\n8\n1\n10\n0\n20\n0\n11\n10\n21\n0\n0\nARC\n8\n1\n10\n10\n20\n2\n40\n2\n50\n270\n51\n90\n" +
		"0\nLINE\n8\n1\n10\n10\n20\n4\n11\n0\n21\n4\n0\nLINE\n8\n1\n10\n0\n20\n4\n11\n0\n21\n0\n" +
		"0\nLINE\n8\n4\n10\n5\n20\n0\n11\n5\n21\n.125\n0\nLINE\n8\n7\n10\n1\n20\n2\n11\n9\n21\n2\n0\nENDBLK\n0\nENDSEC\n0\nEOF\n"
	text = strings.ReplaceAll(text, "\n", "\r\n")
	style, found := ReadDXF(source.File{Path: "other.dxf", Data: []byte(text)}, "")
	if found.Stops() > 0 || len(style.Parts) != 1 {
		t.Fatalf("%d parts: %v", len(style.Parts), found.Codes())
	}
	p := style.Parts[0]
	round := 25.4 * (10 + 10 + 4 + 2*math.Pi) // identity: two sides, one end, half a circle of radius 2 in
	if l := whole(p.Cut).Length(); math.Abs(l-round) > 1e-3 || p.Name != "Kragen über" || p.Left != 2 {
		t.Errorf("%s: %.4f mm round, want %.4f; %d, %d cut", p.Name, l, round, p.Left, p.Right)
	}
	pieces, _, found := Grade(style, nil, nil)
	if len(pieces) != 1 || !found.Has("exchange.turned") {
		t.Fatal(found.Codes())
	}
	in := pieces[0].In[0]
	lo, hi := geom.BoundsOf(in.Outline(0.01))
	if math.Abs(hi.Y-lo.Y-12*25.4) > 0.01 || math.Abs(hi.X-lo.X-4*25.4) > 0.01 {
		t.Errorf("turned it is %.2f × %.2f mm", hi.X-lo.X, hi.Y-lo.Y)
	}
	if len(in.Marks) != 1 || math.Abs(in.Marks[0].At-5*25.4) > 0.01 {
		t.Errorf("notches %+v", in.Marks)
	}
	if !strings.Contains(string(Folder(pieces, []string{"M"}, Said{})["pattern.yaml"]), "number: 2, cloth: [main]} # SAY: pair") {
		t.Error("two copies of no hand are taken without a question")
	}
}

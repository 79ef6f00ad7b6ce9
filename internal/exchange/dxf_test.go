package exchange

import (
	"bytes"
	"testing"

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
	f.Fuzz(func(_ *testing.T, data []byte) {
		s, _ := ReadDXF(source.File{Path: "x.dxf", Data: data}, unit.Millimetre)
		Grade(s, nil, nil)
	})
}

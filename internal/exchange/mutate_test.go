package exchange

import (
	"slices"
	"testing"

	"gusset/internal/source"
	"gusset/internal/unit"

	"pgregory.net/rapid"
)

// spline is a SPLINE on the boundary from the origin to 200, 0.
const spline = "0\nSPLINE\n8\n1\n71\n3\n40\n0\n40\n0\n40\n0\n40\n0\n40\n1\n40\n1\n40\n1\n40\n1\n" +
	"10\n0\n20\n0\n10\n50\n20\n-20\n10\n150\n20\n20\n10\n200\n20\n0\n"

// A file with a few bytes changed, taken out, or written twice never brings a
// reader down, nor what follows it: there is a finding, or a sound pattern's
// folder.
func TestMutations(t *testing.T) {
	seeds := map[string][]byte{
		"a.dxf":  []byte(dxfOf(box + run2(14, 1, 10, 10, 190, 10, 190, 90, 10, 90) + run2(7, 0, 100, 20, 100, 80) + "0\nPOINT\n8\n4\n10\n50\n20\n0\n0\nARC\n8\n8\n10\n50\n20\n50\n40\n9\n50\n0\n51\n200\n")),
		"b.dxf":  []byte(dxfOf(spline + run2(1, 0, 200, 0, 200, 100, 0, 100, 0, 0))),
		"a.svg":  []byte(plainSVG),
		"a.pdf":  pdfOf("/OC /L BDC q 2 0 0 2 5 5 cm 0 0 m 99 9 150 50 170 0 c 90 90 l h S Q EMC /F Do", "6 0 obj <</Type/OCG/Name(size 12)>> endobj", "5 0 obj <</Subtype/Form/Length 37>> stream\n"+square+"\nendstream endobj"),
		"b.pdf":  pdfOf("/F Do", deflated(5, "/Subtype/Form", square+" ", 1)),
		"c.pdf":  pdfOf(square+" /F Do", "5 0 obj <</Subtype/Form/Filter[/AHx/LZW]/DecodeParms[null<</Predictor 12/Columns 4>>]>> stream\n800B6050220C0C8501>\nendstream endobj"),
		"a.yaml": []byte(pouch(t)),
	}
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom(sortedKeys(seeds)).Draw(t, "file")
		data := slices.Clone(seeds[name])
		for range rapid.IntRange(1, 6).Draw(t, "changes") {
			i := rapid.IntRange(0, len(data)-1).Draw(t, "at")
			n := min(rapid.IntRange(1, 12).Draw(t, "length"), len(data)-i)
			switch rapid.IntRange(0, 3).Draw(t, "kind") {
			case 0:
				data[i] = rapid.Byte().Draw(t, "byte")
			case 1:
				data = slices.Delete(data, i, i+n)
			case 2:
				data = slices.Insert(data, i, slices.Clone(data[i:i+n])...)
			case 3:
				data[i] = rapid.SampledFrom([]byte("0123456789.-\n<>[]/ ")).Draw(t, "sign")
			}
			if len(data) == 0 {
				return
			}
		}
		style, found, _ := Read(source.File{Path: name, Data: data}, Options{Unit: unit.Millimetre})
		pieces, sizes, told := Grade(style, nil, nil)
		if found.Stops() == 0 && told.Stops() == 0 {
			if len(pieces) == 0 {
				t.Fatalf("nothing has come in, and nothing is said: %v %v", found.Codes(), told.Codes())
			}
			Folder(pieces, sizes, Said{Title: style.Title})
		}
	})
}

package exchange

import (
	"bytes"
	"testing"

	"gusset/internal/draw"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// The demo's pattern, 13 pieces in 7 sizes, comes in from each format.
func BenchmarkIn(b *testing.B) {
	style, _ := OfPattern(quay(b), nil)
	var dxf, svg, pdf bytes.Buffer
	for _, err := range []error{WriteDXF(&dxf, style, unit.Millimetre), WriteSVG(&svg, style), WritePDF(&pdf, style, draw.Paper{})} {
		if err != nil {
			b.Fatal(err)
		}
	}
	for _, c := range []struct {
		name string
		data []byte
	}{{"a.dxf", dxf.Bytes()}, {"a.svg", svg.Bytes()}, {"a.pdf", pdf.Bytes()}} {
		b.Run(c.name[2:], func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				s, found, _ := Read(source.File{Path: c.name, Data: c.data}, Options{})
				pieces, _, told := Grade(s, nil, nil)
				if found.Stops()+told.Stops() > 0 || len(pieces) != 13 {
					b.Fatal(found.Codes(), told.Codes())
				}
			}
		})
	}
}

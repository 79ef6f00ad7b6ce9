package exchange

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"image"
	"image/png"
	"io"
	"math"
	"os"
	"strings"
	"testing"

	"gusset/internal/source"
)

// unfolded takes the filters off a stream of its own.
func unfolded(raw []byte, dict pdfDict) ([]byte, *pdfFault) {
	f := &pdfFile{objects: map[int]any{}, decoded: maxPDFDecoded}
	out, _ := f.decode(pdfStream{dict, raw})
	return out, f.err
}

// Source of the check: the worked example of ISO 32000-1, 7.4.4.2.
func TestLZWOfTheStandard(t *testing.T) {
	got, fault := unfolded([]byte{0x80, 0x0B, 0x60, 0x50, 0x22, 0x0C, 0x0C, 0x85, 0x01}, pdfDict{"Filter": pdfName("LZWDecode")})
	if want := []byte{45, 45, 45, 45, 45, 65, 45, 45, 45, 66}; fault != nil || !bytes.Equal(got, want) {
		t.Errorf("%v: %v, want %v", fault, got, want)
	}
}

// Source of the check: testdata/drawing.lzw was packed by Ghostscript's LZWEncode
// from the drawing below, which is long enough for codes of three lengths.
func TestLZWOfAnotherMaker(t *testing.T) {
	packed, err := os.ReadFile("testdata/drawing.lzw")
	if err != nil {
		t.Fatal(err)
	}
	var want strings.Builder
	want.WriteString("72 72 m ")
	for k := 1; k < 400; k++ {
		fmt.Fprintf(&want, "%d %d l ", 72+k, 72+(k*k*7919)%997%90)
	}
	want.WriteString("471 600 l 72 600 l s")
	if got, fault := unfolded(packed, pdfDict{"Filter": pdfName("LZWDecode")}); fault != nil || string(got) != want.String() {
		t.Errorf("%v: %d bytes %.60q, want %d", fault, len(got), got, want.Len())
	}
	data := pdfOf("/F Do", fmt.Sprintf("5 0 obj <</Subtype/Form/Filter[/LZW]/Length %d>> stream\n%s\nendstream endobj", len(packed), packed))
	style, found := ReadPDF(source.File{Path: "a.pdf", Data: data}, Tiles{})
	plain, _ := ReadPDF(source.File{Path: "a.pdf", Data: pdfOf(want.String())}, Tiles{})
	if len(style.Parts) != 1 || len(plain.Parts) != 1 {
		t.Fatalf("%d parts, of the plain drawing %d: %v", len(style.Parts), len(plain.Parts), found.Codes())
	}
	if d := whole(style.Parts[0].Cut).Length() - whole(plain.Parts[0].Cut).Length(); math.Abs(d) > 1e-9 {
		t.Errorf("unpacked it is %.4f mm longer", d)
	}
}

// Source of the check: Go's image/png predicts rows in all ways of PNG (ISO/IEC
// 15948), and its packed picture is a stream of a PDF with predictor 15.
func TestPNGPredictors(t *testing.T) {
	img := image.NewGray(image.Rect(0, 0, 61, 90))
	for i := range img.Pix { // parts that suit each of the ways
		x, y := i%61, i/61
		img.Pix[i] = byte([]int{x * 4, y * 5, (x + y) * 3, x*x + 7*y, 0}[y/18])
		if y >= 72 && x > 0 {
			img.Pix[i] = byte((int(img.Pix[i-1]) + int(img.Pix[i-61])) / 2)
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	ways := map[byte]bool{}
	packed := idat(b.Bytes())
	z, err := zlib.NewReader(bytes.NewReader(packed))
	if err != nil {
		t.Fatal(err)
	}
	rows, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	for i := 0; i < len(rows); i += 62 {
		ways[rows[i]] = true
	}
	if len(ways) < 4 {
		t.Errorf("the picture shows only the ways %v", ways)
	}
	parms := pdfDict{"Predictor": 15.0, "Columns": 61.0}
	if got, fault := unfolded(packed, pdfDict{"Filter": pdfName("FlateDecode"), "DecodeParms": parms}); fault != nil || !bytes.Equal(got, img.Pix) {
		t.Errorf("%v: %d bytes, want %d", fault, len(got), len(img.Pix))
	}
}

// idat is the packed picture of a PNG: chunks of length, name, data and sum.
func idat(file []byte) (out []byte) {
	for at := 8; at+12 <= len(file); {
		n := int(file[at])<<24 | int(file[at+1])<<16 | int(file[at+2])<<8 | int(file[at+3])
		if string(file[at+4:at+8]) == "IDAT" {
			out = append(out, file[at+8:at+8+n]...)
		}
		at += 12 + n
	}
	return out
}

// The predictor of TIFF adds the neighbour on the left, colour by colour (TIFF
// 6.0, section 14); others are refused.
func TestOtherPredictors(t *testing.T) {
	hex := func(text string, parms pdfDict) ([]byte, *pdfFault) {
		return unfolded([]byte(text), pdfDict{"Filter": pdfName("ASCIIHexDecode"), "DecodeParms": parms})
	}
	got, fault := hex("0102 0101 FF00 0506 0101 0101>", pdfDict{"Predictor": 2.0, "Columns": 3.0, "Colors": 2.0})
	if want := []byte{1, 2, 2, 3, 1, 3, 5, 6, 6, 7, 7, 8}; fault != nil || !bytes.Equal(got, want) {
		t.Errorf("%v: %v, want %v", fault, got, want)
	}
	for name, c := range map[string]struct {
		parms pdfDict
		code  string
	}{
		"of another number": {pdfDict{"Predictor": 5.0}, pdfFilter.Code},
		"half bytes":        {pdfDict{"Predictor": 2.0, "BitsPerComponent": 4.0}, pdfFilter.Code},
		"rows without end":  {pdfDict{"Predictor": 12.0, "Columns": 1e12, "Colors": 32.0}, pdfFilter.Code},
		"no way of PNG":     {pdfDict{"Predictor": 12.0, "Columns": 3.0}, pdfDamaged.Code},
	} {
		if _, fault := hex("09 01 02 03>", c.parms); fault == nil || fault.kind.Code != c.code {
			t.Errorf("%s: %v, want %s", name, fault, c.code)
		}
	}
}

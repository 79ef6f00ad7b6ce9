package exchange

import (
	"bytes"
	"compress/lzw"
	"compress/zlib"
	"encoding/ascii85"
	"errors"
	"io"
	"strconv"

	tifflzw "golang.org/x/image/tiff/lzw"
)

var errPDF = errors.New("a fault that has been told")

// decode takes the filters off a stream (ISO 32000-1, 7.4), within what the file
// may still unfold to.
func (f *pdfFile) decode(s pdfStream) ([]byte, error) {
	data := s.raw
	filters := f.array(s.dict["Filter"])
	if n, ok := f.get(s.dict["Filter"]).(pdfName); ok {
		filters = pdfArray{n}
	}
	if len(filters) > 4 {
		f.fail(pdfFilter, "a chain of filters")
		return nil, errPDF
	}
	for i, filter := range filters {
		name, _ := f.get(filter).(pdfName)
		unfold, ok := pdfFilters[name]
		if !ok {
			f.fail(pdfFilter, "the filter "+shown(string(name)))
			return nil, errPDF
		}
		parms := f.parms(s.dict, i)
		r, err := unfold(f, data, parms)
		if err != nil {
			f.fail(pdfDamaged)
			return nil, errPDF
		}
		out, err := io.ReadAll(io.LimitReader(r, int64(f.decoded)+1))
		if len(out) > f.decoded {
			f.fail(pdfUnfolds, maxPDFDecoded>>20)
			return nil, errPDF
		}
		if err != nil {
			f.fail(pdfDamaged)
			return nil, errPDF
		}
		f.decoded -= len(out)
		if data, err = f.unpredicted(out, parms); err != nil {
			return nil, err
		}
	}
	return data, nil
}

// pdfFilters are the filters that drawings are packed with, by name and by the
// short name of pictures within a drawing.
var pdfFilters = map[pdfName]func(f *pdfFile, data []byte, parms pdfDict) (io.Reader, error){
	"FlateDecode": unfoldFlate, "Fl": unfoldFlate,
	"LZWDecode": unfoldLZW, "LZW": unfoldLZW,
	"ASCII85Decode": unfoldASCII85, "A85": unfoldASCII85,
	"ASCIIHexDecode": unfoldHex, "AHx": unfoldHex,
}

func unfoldFlate(_ *pdfFile, data []byte, _ pdfDict) (io.Reader, error) {
	return zlib.NewReader(bytes.NewReader(data))
}

// unfoldLZW reads codes that grow one code early, as TIFF has them, unless
// EarlyChange says otherwise (7.4.4.2).
func unfoldLZW(f *pdfFile, data []byte, parms pdfDict) (io.Reader, error) {
	if v, ok := f.get(parms["EarlyChange"]).(float64); ok && v == 0 {
		return lzw.NewReader(bytes.NewReader(data), lzw.MSB, 8), nil
	}
	return tifflzw.NewReader(bytes.NewReader(data), tifflzw.MSB, 8), nil
}

func unfoldASCII85(_ *pdfFile, data []byte, _ pdfDict) (io.Reader, error) {
	data = bytes.TrimPrefix(bytes.TrimSpace(data), []byte("<~"))
	if i := bytes.Index(data, []byte("~>")); i >= 0 {
		data = data[:i]
	}
	return ascii85.NewDecoder(bytes.NewReader(data)), nil
}

func unfoldHex(_ *pdfFile, data []byte, _ pdfDict) (io.Reader, error) {
	none := 1
	l := &pdfLexer{data: append([]byte("<"), data...), left: &none}
	return bytes.NewReader(l.hexAll()), nil
}

// hexAll reads hexadecimal digits without the bound of a string.
func (l *pdfLexer) hexAll() []byte {
	var out []byte
	half, have := byte(0), false
	for _, c := range l.data[1:] {
		if c == '>' {
			break
		}
		v, err := strconv.ParseUint(string(c), 16, 8)
		if err != nil {
			continue
		}
		if have {
			out = append(out, half<<4|byte(v))
		}
		half, have = byte(v), !have
	}
	if have {
		out = append(out, half<<4)
	}
	return out
}

// parms are what the i-th filter is told.
func (f *pdfFile) parms(d pdfDict, i int) pdfDict {
	p := d["DecodeParms"]
	if p == nil {
		p = d["DP"]
	}
	if a := f.array(p); a != nil {
		if i >= len(a) {
			return nil
		}
		p = a[i]
	}
	return f.dict(p)
}

// Bounds of what a predictor's rows may be.
const maxPDFRow = 1 << 20

// unpredicted takes a predictor off (7.4.4.4): 10 and above those of PNG, each
// row with its own (ISO/IEC 15948, 9), 2 that of TIFF for whole bytes.
func (f *pdfFile) unpredicted(data []byte, parms pdfDict) ([]byte, error) {
	kind := f.number(parms["Predictor"])
	if kind <= 1 {
		return data, nil
	}
	or := func(key string, usual float64) int {
		if v, ok := f.get(parms[key]).(float64); ok {
			return int(min(max(v, 0), maxPDFRow))
		}
		return int(usual)
	}
	colours, bits, columns := or("Colors", 1), or("BitsPerComponent", 8), or("Columns", 1)
	row, pixel := (colours*bits*columns+7)/8, (colours*bits+7)/8
	if colours > 32 || bits > 16 || row < 1 || row > maxPDFRow || kind == 2 && bits != 8 || kind > 2 && kind < 10 {
		f.fail(pdfFilter, "a predictor of this kind")
		return nil, errPDF
	}
	if kind == 2 {
		for from := 0; from < len(data); from += row {
			line := data[from:min(from+row, len(data))]
			for i := pixel; i < len(line); i++ {
				line[i] += line[i-pixel]
			}
		}
		return data, nil
	}
	var out []byte
	above := make([]byte, row)
	for len(data) > 1 {
		how, line := data[0], data[1:min(1+row, len(data))]
		data = data[1+len(line):]
		if !pngRow(how, line, above, pixel) {
			f.fail(pdfDamaged)
			return nil, errPDF
		}
		out = append(out, line...)
		copy(above, line)
	}
	return out, nil
}

// pngRow takes the filter off a row of PNG; false for one there is not.
func pngRow(how byte, line, above []byte, pixel int) bool {
	for i := range line {
		var left, corner byte
		if i >= pixel {
			left, corner = line[i-pixel], above[i-pixel]
		}
		switch how {
		case 0:
		case 1:
			line[i] += left
		case 2:
			line[i] += above[i]
		case 3:
			line[i] += byte((int(left) + int(above[i])) / 2)
		case 4:
			line[i] += paeth(left, above[i], corner)
		default:
			return false
		}
	}
	return true
}

// paeth is the neighbour nearest to left + above - corner (ISO/IEC 15948, 9.4).
func paeth(left, above, corner byte) byte {
	p := int(left) + int(above) - int(corner)
	a, b, c := max(p-int(left), int(left)-p), max(p-int(above), int(above)-p), max(p-int(corner), int(corner)-p)
	switch {
	case a <= b && a <= c:
		return left
	case b <= c:
		return above
	}
	return corner
}

package exchange

import (
	"bytes"
	"regexp"
	"strconv"
	"unicode/utf16"

	"gusset/internal/finding"
)

// Bounds of a PDF that is read. A pattern of forty sheets with all its sizes has
// some ten MB of drawing, decoded.
const (
	maxPDFObjects = 200_000
	maxPDFTokens  = 6_000_000
	maxPDFDecoded = 64 << 20 // bytes of all streams together
	maxPDFPages   = 400
	maxPDFForms   = 4000 // drawings used within drawings
	maxFormDepth  = 12
)

// pdfFile is the objects of a file. They are found by going through the file
// from its beginning, not by its table of places: so a damaged table does no
// harm, and of an object that was written again the last stands.
type pdfFile struct {
	data    []byte
	objects map[int]any
	left    int // tokens
	decoded int // bytes that may still be decoded
	trailer pdfDict
	err     *pdfFault
}

// pdfFault is why a file is of no use.
type pdfFault struct {
	kind finding.Kind
	args []any
}

func (f *pdfFile) fail(k finding.Kind, args ...any) {
	if f.err == nil {
		f.err = &pdfFault{k, args}
	}
}

var objectStart = regexp.MustCompile(`(\d{1,9})[ \t\r\n\f\x00]+(\d{1,5})[ \t\r\n\f\x00]+obj\b`)

func openPDF(data []byte) *pdfFile {
	f := &pdfFile{data: data, objects: map[int]any{}, left: maxPDFTokens, decoded: maxPDFDecoded, trailer: pdfDict{}}
	f.scan()
	if f.err == nil {
		f.trailers()
		f.unpack()
	}
	return f
}

// scan finds every object of the file.
func (f *pdfFile) scan() {
	for pos := 0; f.err == nil; {
		m := objectStart.FindSubmatchIndex(f.data[pos:])
		if m == nil {
			return
		}
		number, _ := strconv.Atoi(string(f.data[pos+m[2] : pos+m[3]]))
		l := &pdfLexer{data: f.data, pos: pos + m[1], left: &f.left}
		v, ok := l.next(0)
		if !ok {
			if f.left <= 0 {
				f.fail(tooMuch, maxPDFTokens, "words")
			}
			return
		}
		pos = max(l.pos, pos+m[1])
		if n, isNumber := v.(float64); isNumber { // a reference to another object
			save := l.pos
			g, _ := l.next(0)
			if w, _ := l.next(0); w == pdfWord("R") {
				if gen, ok := g.(float64); ok {
					v = pdfRef{int(n), int(gen)}
				}
			} else {
				l.pos = save
			}
		}
		if d, isDict := v.(pdfDict); isDict {
			if raw, after, ok := f.stream(l, d); ok {
				v, pos = pdfStream{d, raw}, after
			}
		}
		if len(f.objects) >= maxPDFObjects {
			f.fail(tooMuch, maxPDFObjects, "objects")
			return
		}
		f.objects[number] = v
	}
}

// stream gives the bytes of a stream that follows a dictionary.
func (f *pdfFile) stream(l *pdfLexer, d pdfDict) (raw []byte, after int, ok bool) {
	l.space()
	if !bytes.HasPrefix(f.data[l.pos:], []byte("stream")) {
		return nil, 0, false
	}
	from := l.pos + len("stream")
	if from < len(f.data) && f.data[from] == '\r' {
		from++
	}
	if from < len(f.data) && f.data[from] == '\n' {
		from++
	}
	if n, isNumber := d["Length"].(float64); isNumber && n >= 0 && from+int(n) <= len(f.data) {
		to := from + int(n)
		if bytes.HasPrefix(bytes.TrimLeft(f.data[to:min(to+16, len(f.data))], "\r\n \t"), []byte("endstream")) {
			return f.data[from:to], to, true
		}
	}
	i := bytes.Index(f.data[min(from, len(f.data)):], []byte("endstream"))
	if i < 0 {
		f.fail(pdfCutShort, l.pos)
		return nil, 0, false
	}
	return f.data[from : from+i], from + i, true
}

// trailers finds the root and whether the file is encrypted: in trailers, or in
// the streams that stand for them.
func (f *pdfFile) trailers() {
	for pos := 0; ; {
		i := bytes.Index(f.data[pos:], []byte("trailer"))
		if i < 0 {
			break
		}
		pos += i + len("trailer")
		l := &pdfLexer{data: f.data, pos: pos, left: &f.left}
		if v, _ := l.next(0); v != nil {
			if d, ok := v.(pdfDict); ok {
				f.keep(d)
			}
		}
	}
	for _, n := range sortedKeys2(f.objects) {
		switch v := f.objects[n].(type) {
		case pdfStream:
			if v.dict["Type"] == pdfName("XRef") {
				f.keep(v.dict)
			}
		case pdfDict:
			if v["Type"] == pdfName("Catalog") && f.trailer["Root"] == nil {
				f.trailer["Root"] = pdfRef{number: n}
			}
		}
	}
	if f.trailer["Encrypt"] != nil {
		f.fail(pdfLocked)
	}
}

func (f *pdfFile) keep(d pdfDict) {
	for _, k := range []string{"Root", "Encrypt"} {
		if d[k] != nil {
			f.trailer[k] = d[k]
		}
	}
}

// unpack reads the objects that lie in object streams (7.5.7).
func (f *pdfFile) unpack() {
	for _, n := range sortedKeys2(f.objects) {
		s, ok := f.objects[n].(pdfStream)
		if !ok || s.dict["Type"] != pdfName("ObjStm") {
			continue
		}
		data, err := f.decode(s)
		if err != nil {
			return
		}
		count, first := f.number(s.dict["N"]), f.number(s.dict["First"])
		if count < 0 || count > maxPDFObjects || first < 0 || first > float64(len(data)) {
			continue
		}
		head := &pdfLexer{data: data[:int(first)], left: &f.left}
		for range int(count) {
			a, ok1 := head.next(0)
			b, ok2 := head.next(0)
			number, isA := a.(float64)
			offset, isB := b.(float64)
			if !ok1 || !ok2 || !isA || !isB || offset < 0 || first+offset > float64(len(data)) {
				break
			}
			if _, there := f.objects[int(number)]; there {
				continue
			}
			if len(f.objects) >= maxPDFObjects {
				f.fail(tooMuch, maxPDFObjects, "objects")
				return
			}
			body := &pdfLexer{data: data, pos: int(first + offset), left: &f.left}
			if v, ok := body.next(0); ok {
				f.objects[int(number)] = v
			}
		}
	}
	if f.trailer["Root"] == nil {
		for _, n := range sortedKeys2(f.objects) {
			if d, ok := f.objects[n].(pdfDict); ok && d["Type"] == pdfName("Catalog") {
				f.trailer["Root"] = pdfRef{number: n}
			}
		}
	}
}

// get follows references, a few in a row at most.
func (f *pdfFile) get(v any) any {
	for range 8 {
		r, ok := v.(pdfRef)
		if !ok {
			return v
		}
		v = f.objects[r.number]
	}
	return nil
}

func (f *pdfFile) dict(v any) pdfDict {
	switch d := f.get(v).(type) {
	case pdfDict:
		return d
	case pdfStream:
		return d.dict
	}
	return nil
}

func (f *pdfFile) array(v any) pdfArray {
	a, _ := f.get(v).(pdfArray)
	return a
}

func (f *pdfFile) number(v any) float64 {
	n, _ := f.get(v).(float64)
	return n
}

// numbers gives a list of exactly n numbers.
func (f *pdfFile) numbers(v any, n int) ([]float64, bool) {
	a := f.array(v)
	if len(a) != n {
		return nil, false
	}
	out := make([]float64, n)
	for i := range a {
		x, ok := f.get(a[i]).(float64)
		if !ok {
			return nil, false
		}
		out[i] = x
	}
	return out, true
}

// text is a text string: UTF-16 with a mark, UTF-8 with a mark, or single bytes
// (7.9.2.2).
func (f *pdfFile) text(v any) string {
	s, _ := f.get(v).(pdfString)
	b := []byte(s)
	switch {
	case bytes.HasPrefix(b, []byte{0xfe, 0xff}):
		var u []uint16
		for i := 2; i+1 < len(b); i += 2 {
			u = append(u, uint16(b[i])<<8|uint16(b[i+1]))
		}
		return string(utf16.Decode(u))
	case bytes.HasPrefix(b, []byte{0xef, 0xbb, 0xbf}):
		return string(b[3:])
	}
	return decoded(b)
}

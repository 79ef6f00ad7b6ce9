package exchange

import (
	"bytes"
	"strconv"
)

// The objects of a PDF (ISO 32000-1, 7.3): numbers are float64, strings
// pdfString, and null is nil.
type (
	pdfName   string
	pdfString string
	pdfRef    struct{ number, generation int }
	pdfArray  []any
	pdfDict   map[string]any
	pdfStream struct {
		dict pdfDict
		raw  []byte
	}
	// pdfWord is an operator, or a keyword such as endobj.
	pdfWord string
)

// Bounds of one object.
const (
	maxPDFDepth  = 32
	maxPDFString = 1 << 16
	maxPDFList   = 200_000
)

// pdfLexer reads objects one after the other. It never fails: what is no object
// is passed over, and at the end it gives false.
type pdfLexer struct {
	data []byte
	pos  int
	// left is how many more objects may be read; shared by all that reads a file.
	left *int
}

func isPDFSpace(c byte) bool {
	return c == ' ' || c == '\n' || c == '\r' || c == '\t' || c == '\f' || c == 0
}

func isPDFDelimiter(c byte) bool {
	return bytes.IndexByte([]byte("()<>[]{}/%"), c) >= 0
}

func (l *pdfLexer) space() {
	for l.pos < len(l.data) {
		switch c := l.data[l.pos]; {
		case isPDFSpace(c):
			l.pos++
		case c == '%':
			for l.pos < len(l.data) && l.data[l.pos] != '\n' && l.data[l.pos] != '\r' {
				l.pos++
			}
		default:
			return
		}
	}
}

// next gives the next object or word; false at the end or when the bound is
// reached.
func (l *pdfLexer) next(depth int) (any, bool) {
	l.space()
	if l.pos >= len(l.data) || *l.left <= 0 {
		return nil, false
	}
	*l.left--
	switch c := l.data[l.pos]; {
	case c == '/':
		l.pos++
		return l.name(), true
	case c == '(':
		return l.literal(), true
	case c == '<':
		if l.pos+1 < len(l.data) && l.data[l.pos+1] == '<' {
			l.pos += 2
			return l.dict(depth), true
		}
		return l.hex(), true
	case c == '[':
		l.pos++
		return l.array(depth), true
	case c == '+' || c == '-' || c == '.' || c >= '0' && c <= '9':
		return l.number(), true
	case isPDFDelimiter(c):
		l.pos++
		if c == '>' && l.pos < len(l.data) && l.data[l.pos] == '>' {
			l.pos++
			return pdfWord(">>"), true
		}
		return pdfWord(c), true
	}
	return l.word(), true
}

func (l *pdfLexer) regular() []byte {
	from := l.pos
	for l.pos < len(l.data) && !isPDFSpace(l.data[l.pos]) && !isPDFDelimiter(l.data[l.pos]) {
		l.pos++
	}
	return l.data[from:l.pos]
}

func (l *pdfLexer) word() any {
	switch w := string(l.regular()); w {
	case "true":
		return true
	case "false":
		return false
	case "null":
		return nil
	default:
		return pdfWord(w)
	}
}

func (l *pdfLexer) name() pdfName {
	raw := l.regular()
	if bytes.IndexByte(raw, '#') < 0 {
		return pdfName(raw)
	}
	var out []byte
	for i := 0; i < len(raw); i++ {
		if raw[i] == '#' && i+2 < len(raw) {
			if v, err := strconv.ParseUint(string(raw[i+1:i+3]), 16, 8); err == nil {
				out = append(out, byte(v))
				i += 2
				continue
			}
		}
		out = append(out, raw[i])
	}
	return pdfName(out)
}

// number gives 0 for what begins like a number and is none.
func (l *pdfLexer) number() float64 {
	from := l.pos
	raw := l.regular()
	if len(raw) == 0 {
		l.pos = from + 1
		return 0
	}
	v, err := strconv.ParseFloat(string(raw), 64)
	if err != nil || len(raw) > 40 || v != v || v > 1e12 || v < -1e12 {
		return 0
	}
	return v
}

func (l *pdfLexer) literal() pdfString {
	l.pos++
	var out []byte
	depth := 1
	for l.pos < len(l.data) {
		c := l.data[l.pos]
		l.pos++
		switch c {
		case '(':
			depth++
		case ')':
			if depth--; depth == 0 {
				return pdfString(out)
			}
		case '\\':
			c = l.escape()
		}
		if len(out) < maxPDFString {
			out = append(out, c)
		}
	}
	return pdfString(out)
}

func (l *pdfLexer) escape() byte {
	if l.pos >= len(l.data) {
		return 0
	}
	c := l.data[l.pos]
	l.pos++
	if i := bytes.IndexByte([]byte("nrtbf"), c); i >= 0 {
		return "\n\r\t\b\f"[i]
	}
	if c < '0' || c > '7' {
		return c
	}
	v := int(c - '0')
	for k := 0; k < 2 && l.pos < len(l.data) && l.data[l.pos] >= '0' && l.data[l.pos] <= '7'; k++ {
		v = 8*v + int(l.data[l.pos]-'0')
		l.pos++
	}
	return byte(v)
}

func (l *pdfLexer) hex() pdfString {
	l.pos++
	var out []byte
	half, have := 0, false
	for l.pos < len(l.data) {
		c := l.data[l.pos]
		l.pos++
		if c == '>' {
			break
		}
		v, err := strconv.ParseUint(string(c), 16, 8)
		if err != nil || len(out) >= maxPDFString {
			continue
		}
		if have {
			out = append(out, byte(half<<4|int(v)))
		}
		half, have = int(v), !have
	}
	if have {
		out = append(out, byte(half<<4))
	}
	return pdfString(out)
}

// array reads up to the closing bracket; two numbers and R become a reference.
func (l *pdfLexer) array(depth int) pdfArray {
	var out pdfArray
	for {
		v, ok := l.next(depth + 1)
		if !ok || depth > maxPDFDepth {
			return out
		}
		switch v {
		case pdfWord("]"):
			return out
		case pdfWord("R"):
			out = referred(out)
			continue
		case pdfWord("endobj"), pdfWord("endstream"), pdfWord(">>"):
			return out
		}
		if len(out) < maxPDFList {
			out = append(out, v)
		}
	}
}

// referred replaces the two numbers at the end of a list by a reference.
func referred(list pdfArray) pdfArray {
	n := len(list)
	if n < 2 {
		return list
	}
	a, ok1 := list[n-2].(float64)
	b, ok2 := list[n-1].(float64)
	if !ok1 || !ok2 {
		return list
	}
	return append(list[:n-2], pdfRef{int(a), int(b)})
}

func (l *pdfLexer) dict(depth int) pdfDict {
	var list pdfArray
	for {
		v, ok := l.next(depth + 1)
		if !ok || depth > maxPDFDepth || v == pdfWord(">>") || v == pdfWord("endobj") || v == pdfWord("stream") {
			break
		}
		if v == pdfWord("R") {
			list = referred(list)
			continue
		}
		if len(list) < maxPDFList {
			list = append(list, v)
		}
	}
	d := pdfDict{}
	for i := 0; i+1 < len(list); i++ {
		if k, ok := list[i].(pdfName); ok {
			d[string(k)] = list[i+1]
			i++
		}
	}
	return d
}

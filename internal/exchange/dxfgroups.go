package exchange

import (
	"bytes"
	"strconv"
	"strings"
	"unicode/utf8"

	"gusset/internal/finding"
)

// Bounds of a DXF that is read: a style of forty pieces in twenty sizes has some
// hundred thousand points.
const (
	maxDXF      = 48 << 20  // bytes
	maxGroups   = 6_000_000 // pairs of lines
	maxVertices = 600_000
	maxParts    = 2000
	maxFaults   = 100
	maxCoord    = 50_000 // mm from the origin
)

// group is a pair of lines: a code that says what the value is, and the value.
type group struct {
	code  int
	value string
	line  int // of the code
}

// entity is a thing drawn, or a mark such as SECTION: its groups after the 0.
type entity struct {
	kind   string
	groups []group
	line   int
}

// text gives the first value of a group; "" when it is not there.
func (e entity) text(code int) string {
	for _, g := range e.groups {
		if g.code == code {
			return g.value
		}
	}
	return ""
}

func (e entity) layer() string { return strings.TrimSpace(e.text(8)) }

// dxfLines walks over the lines of a file.
type dxfLines struct {
	file string
	data []byte
	line int
	n    int // groups read
}

// next gives the next line without its end.
func (r *dxfLines) next() (string, bool) {
	if len(r.data) == 0 {
		return "", false
	}
	r.line++
	i := bytes.IndexAny(r.data, "\r\n")
	if i < 0 {
		s := r.data
		r.data = nil
		return decoded(s), true
	}
	s := r.data[:i]
	if r.data[i] == '\r' && i+1 < len(r.data) && r.data[i+1] == '\n' {
		i++
	}
	r.data = r.data[i+1:]
	return decoded(s), true
}

// decoded reads UTF-8, or, where it is none, the first 256 characters of Unicode,
// which is what older files are most often written in.
func decoded(b []byte) string {
	if utf8.Valid(b) {
		return string(b)
	}
	var s strings.Builder
	for _, c := range b {
		s.WriteRune(rune(c))
	}
	return s.String()
}

// unescaped turns \U+XXXX into the character it stands for.
func unescaped(s string) string {
	for from := 0; ; {
		i := strings.Index(s[from:], `\U+`)
		if i < 0 || from+i+7 > len(s) {
			return s
		}
		i += from
		v, err := strconv.ParseUint(s[i+3:i+7], 16, 32)
		if err != nil || v < ' ' {
			from = i + 3
			continue
		}
		r := string(rune(v))
		s, from = s[:i]+r+s[i+7:], i+len(r)
	}
}

func (r *dxfLines) at(line int) finding.Place { return finding.Place{File: r.file, Line: line} }

// group reads a pair of lines. It gives false at the end of the file, with a
// finding when that is in the middle of a pair.
func (r *dxfLines) group(out *finding.List) (group, bool) {
	code, ok := r.next()
	for ok && strings.TrimSpace(code) == "" { // blank lines at the end of a file
		code, ok = r.next()
	}
	if !ok {
		return group{}, false
	}
	g := group{line: r.line}
	n, err := strconv.Atoi(strings.TrimSpace(code))
	if err != nil || n < -5 || n > 1071 {
		*out = append(*out, dxfGroup.At(r.at(r.line), shown(code)))
		return g, false
	}
	g.code = n
	value, ok := r.next()
	if !ok {
		*out = append(*out, dxfCut.At(r.at(r.line), "a pair of lines"))
		return g, false
	}
	g.value = strings.TrimRight(value, " \t")
	if r.n++; r.n > maxGroups {
		*out = append(*out, tooMuch.At(r.at(r.line), maxGroups, "pairs of lines"))
		return g, false
	}
	return g, true
}

// shown keeps an endless word from flooding a finding.
func shown(s string) string {
	if r := []rune(strings.TrimSpace(s)); len(r) > 60 {
		return string(r[:60]) + "…"
	}
	return strings.TrimSpace(s)
}

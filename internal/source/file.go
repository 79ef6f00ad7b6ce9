package source

import (
	"bytes"
	"io"
	"os"
	"strings"
	"unicode/utf8"

	"gusset/internal/finding"
)

// The largest files that are read, in bytes. A hand-written YAML file of a
// whole pattern is some 100 kB, a drawing of one piece in ten sizes about 1 MB.
const (
	MaxYAML = 4 << 20
	MaxSVG  = 16 << 20
)

// maxDepth is how deeply lists, mappings and SVG groups may be nested.
const maxDepth = 64

// File is a file's content with the path it is spoken of by: relative to the
// workroom, with forward slashes.
type File struct {
	Path string
	Data []byte
}

// Read reads the file at osPath to be spoken of as path. It reads no more than
// one byte above MaxSVG, which is enough for the parsers to refuse it.
func Read(osPath, path string) (File, error) {
	f, err := os.Open(osPath)
	if err != nil {
		return File{}, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, MaxSVG+1))
	return File{Path: path, Data: data}, err
}

// Line gives line n, from 1, without its line ending; "" when there is none.
func (f File) Line(n int) string { return newText(f).line(n) }

// text is a file's content as text, with its lines found.
type text struct {
	path   string
	all    string
	starts []int // byte offset of each line

	// Where position last was: columns are counted on from there, since a
	// drawing may be one line of many megabytes.
	lastOffset, lastCol int
}

// newText drops a byte order mark and turns every line ending into "\n", so
// that lines are counted as editors count them.
func newText(f File) *text {
	all := strings.TrimPrefix(string(f.Data), "\ufeff")
	if strings.Contains(all, "\r") {
		all = strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(all)
	}
	t := &text{path: f.Path, all: all, starts: []int{0}}
	for i := 0; i < len(all); i++ {
		if all[i] == '\n' {
			t.starts = append(t.starts, i+1)
		}
	}
	return t
}

func (t *text) line(n int) string {
	if n < 1 || n > len(t.starts) {
		return ""
	}
	from, to := t.starts[n-1], len(t.all)
	if n < len(t.starts) {
		to = t.starts[n] - 1
	}
	return t.all[from:to]
}

// longestShown keeps a file that is one endless line from being copied into
// every finding; the renderer shows far less.
const longestShown = 2000

// place is a place in the file at a line and a column in characters.
func (t *text) place(line, col int) finding.Place {
	shown := t.line(line)
	if len(shown) > longestShown {
		shown = strings.ToValidUTF8(shown[:longestShown], "")
	}
	return finding.Place{File: t.path, Line: line, Col: col, Text: shown}
}

// check refuses what is not a text of at most limit bytes. It gives false when
// there is no use in reading on.
func (t *text) check(data []byte, limit int, out *finding.List) bool {
	whole := finding.Place{File: t.path}
	switch {
	case len(data) > limit:
		*out = append(*out, tooLarge.At(whole, limit>>20))
	case len(bytes.TrimSpace(bytes.TrimPrefix(data, []byte("\ufeff")))) == 0:
		*out = append(*out, empty.At(whole))
	default:
		at := strings.IndexFunc(t.all, notText)
		if at < 0 {
			return true
		}
		line, col := t.position(at)
		p := t.place(line, col)
		p.Text = "" // showing binary data helps nobody
		*out = append(*out, binary.At(p, at))
	}
	return false
}

// notText finds control characters (YAML 1.2.2, section 5.1, and XML 1.0,
// section 2.2, allow only tab and line ends of those below space) and bytes
// that are not UTF-8.
func notText(r rune) bool {
	return r == utf8.RuneError || r < ' ' && r != '\t' && r != '\n' || r == 0x7f
}

// position turns a byte offset into a line and a column in characters.
func (t *text) position(offset int) (line, col int) {
	offset = min(max(offset, 0), len(t.all))
	lo, hi := 0, len(t.starts)
	for hi-lo > 1 {
		if mid := (lo + hi) / 2; t.starts[mid] <= offset {
			lo = mid
		} else {
			hi = mid
		}
	}
	from, col := t.starts[lo], 1
	if t.lastOffset >= from && t.lastOffset <= offset && t.lastCol > 0 {
		from, col = t.lastOffset, t.lastCol
	}
	t.lastOffset, t.lastCol = offset, col+utf8.RuneCountInString(t.all[from:offset])
	return lo + 1, t.lastCol
}

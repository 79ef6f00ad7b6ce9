package exchange

import (
	"io"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"gusset/internal/finding"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// Options are what a user says of a file that it may not say itself.
type Options struct {
	Unit  unit.Unit // of a DXF
	Tiles Tiles     // of a PDF
}

// readers are the formats by the ending of the file's name.
var readers = map[string]func(source.File, Options) (Style, finding.List){
	".dxf":  func(f source.File, o Options) (Style, finding.List) { return ReadDXF(f, o.Unit) },
	".svg":  func(f source.File, _ Options) (Style, finding.List) { return ReadSVG(f) },
	".pdf":  func(f source.File, o Options) (Style, finding.List) { return ReadPDF(f, o.Tiles) },
	".yaml": func(f source.File, _ Options) (Style, finding.List) { return ReadTaped(f) },
}

// Read reads a file by the ending of its name; false for one that is not known.
func Read(f source.File, o Options) (Style, finding.List, bool) {
	read, ok := readers[strings.ToLower(path.Ext(f.Path))]
	if !ok {
		return Style{}, nil, false
	}
	s, found := read(f, o)
	return s, found, true
}

// ReadFile reads the file at a path, no more of it than is needed to refuse it
// for its size.
func ReadFile(name string) (source.File, error) {
	f, err := os.Open(name)
	if err != nil {
		return source.File{}, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, maxDXF+1))
	return source.File{Path: filepath.ToSlash(name), Data: data}, err
}

// With is both styles in one, in which the first speaks first.
func (s Style) With(o Style) Style {
	if s.Title == "" {
		s.Title = o.Title
	}
	if s.Sample == "" {
		s.Sample = o.Sample
	}
	s.Sizes, s.Parts = slices.Clone(s.Sizes), append(slices.Clone(s.Parts), o.Parts...)
	for _, size := range o.Sizes {
		if !slices.Contains(s.Sizes, size) {
			s.Sizes = append(s.Sizes, size)
		}
	}
	return s
}

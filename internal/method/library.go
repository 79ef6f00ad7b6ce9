package method

import (
	"embed"
	"io/fs"
	"maps"
	"slices"

	"gusset/internal/finding"
	"gusset/internal/source"
)

// data holds the methods that come with the program. The folder itself is
// named, not a pattern of files, so that it may be empty.
//
//go:embed all:data
var data embed.FS

// Library is a set of methods by name.
type Library struct{ methods map[string]Method }

// Builtin reads the methods that come with the program.
func Builtin() (Library, finding.List) {
	var l Library
	var out finding.List
	names, err := fs.Glob(data, "data/*.yaml")
	if err != nil {
		return l, finding.List{noMethods.At(finding.Place{}, err)}
	}
	for _, name := range names {
		text, err := fs.ReadFile(data, name)
		if err != nil {
			out = append(out, noMethods.At(finding.Place{File: name}, err))
			continue
		}
		m, found := Load(source.File{Path: "builtin/methods/" + name[len("data/"):], Data: text})
		out = append(out, found...)
		if found.Stops() == 0 {
			l = l.With(m)
		}
	}
	return l, out
}

// With is the library with m added, or put in place of the method of that
// name. l itself stays as it is.
func (l Library) With(m Method) Library {
	next := maps.Clone(l.methods)
	if next == nil {
		next = map[string]Method{}
	}
	next[m.Name] = m
	return Library{methods: next}
}

// Find gives the method with that name.
func (l Library) Find(name string) (Method, bool) {
	m, ok := l.methods[name]
	return m, ok
}

// Names lists the methods in the order of the alphabet.
func (l Library) Names() []string { return slices.Sorted(maps.Keys(l.methods)) }

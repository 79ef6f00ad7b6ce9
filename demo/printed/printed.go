// Package printed reads the demo's patterns as they are printed, for tests.
package printed

import (
	"path"
	"testing"

	"gusset/demo"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/source"
)

// Pattern is a pattern of the demo, by the name of its folder; it must load.
func Pattern(t testing.TB, name string) pattern.Pattern {
	t.Helper()
	read := func(file string) (source.File, error) {
		p := path.Join("patterns", name, file)
		data, err := demo.Files.ReadFile(p)
		return source.File{Path: p, Data: data}, err
	}
	f, err := read("pattern.yaml")
	if err != nil {
		t.Fatal(err)
	}
	p, found := pattern.Load(f, read)
	if found.Stops() > 0 {
		t.Fatal(found.Codes())
	}
	return p
}

// Garment is a view in one printed size, which is given by its place in the row
// of sizes.
func Garment(p pattern.Pattern, v pattern.View, size int) pattern.Garment {
	g := pattern.Garment{View: v, Pieces: map[string]piece.Piece{}, Order: p.Order}
	for _, u := range v.Uses {
		g.Pieces[u.Piece] = p.Pieces[u.Piece].In[size]
	}
	return g
}

// View is a view of a pattern of the demo in one printed size.
func View(t testing.TB, name, view string, size int) pattern.Garment {
	t.Helper()
	p := Pattern(t, name)
	v, ok := p.View(view)
	if !ok {
		t.Fatalf("%s has no view %s", name, view)
	}
	return Garment(p, v, size)
}

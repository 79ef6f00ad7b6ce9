package gusset_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// floors reads the layer list from ARCHITECTURE.md: package name -> height.
func floors(t *testing.T) map[string]int {
	t.Helper()
	text, err := os.ReadFile("ARCHITECTURE.md")
	if err != nil {
		t.Fatal(err)
	}
	block := regexp.MustCompile("(?s)```layers\n(.*?)```").FindSubmatch(text)
	if block == nil {
		t.Fatal("ARCHITECTURE.md has no layers block")
	}
	heights := map[string]int{}
	for i, name := range strings.Fields(string(block[1])) {
		heights[name] = i
	}
	return heights
}

// forbidden lists imports that are wrong although they point down.
var forbidden = map[string][]string{"referee": {"nest", "geom"}}

// A package imports only packages named before it in the layer list.
func TestLayers(t *testing.T) {
	heights := floors(t)
	seen := 0
	err := filepath.WalkDir("internal", func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if _, err := os.Stat(filepath.Join(path, "go.mod")); err == nil {
				return fs.SkipDir // a module of its own
			}
			return nil
		}
		if !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return nil
		}
		seen++
		checkImports(t, heights, path)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if seen == 0 {
		t.Fatal("no Go files under internal")
	}
}

func checkImports(t *testing.T, heights map[string]int, path string) {
	t.Helper()
	from := strings.Split(filepath.ToSlash(path), "/")[1]
	height, ok := heights[from]
	if !ok {
		t.Errorf("%s: package %s is missing from the layer list in ARCHITECTURE.md", path, from)
		return
	}
	file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
	if err != nil {
		t.Fatal(err)
	}
	for _, spec := range file.Imports {
		name, _ := strconv.Unquote(spec.Path.Value)
		to, inside := strings.CutPrefix(name, "gusset/internal/")
		if !inside {
			continue
		}
		to, _, _ = strings.Cut(to, "/")
		if to != from && heights[to] >= height {
			t.Errorf("%s imports %s, which stands above it", path, to)
		}
		for _, bad := range forbidden[from] {
			if to == bad {
				t.Errorf("%s imports %s, which it must not share code with", path, to)
			}
		}
	}
}

package web

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// kindText is a text or mend of a finding's kind as the program's source has it.
type kindText struct{ at, code, text string }

// kindTexts reads the texts and mends of all kinds of findings from the source:
// whatever is a struct with a Code and a Text.
func kindTexts(t *testing.T) []kindText {
	t.Helper()
	files, err := filepath.Glob("../*/*.go")
	if err != nil {
		t.Fatal(err)
	}
	deeper, _ := filepath.Glob("../*/*/*.go")
	byFolder := map[string][]*ast.File{}
	set := token.NewFileSet()
	for _, name := range append(files, deeper...) {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		src, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		f, err := parser.ParseFile(set, name, src, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		byFolder[filepath.Dir(name)] = append(byFolder[filepath.Dir(name)], f)
	}
	var out []kindText
	for _, folder := range byFolder {
		w := wordsOf(folder)
		for _, f := range folder {
			ast.Inspect(f, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.CompositeLit:
					out = append(out, w.kind(set, n)...)
				case *ast.CallExpr:
					out = append(out, w.short(set, n)...)
				}
				return true
			})
		}
	}
	return out
}

// constants are the texts of a package that have a name.
type constants map[string]ast.Expr

func wordsOf(folder []*ast.File) constants {
	w := constants{}
	for _, f := range folder {
		for _, d := range f.Decls {
			g, ok := d.(*ast.GenDecl)
			if !ok || g.Tok != token.CONST {
				continue
			}
			for _, s := range g.Specs {
				for i, name := range s.(*ast.ValueSpec).Names {
					if v := s.(*ast.ValueSpec).Values; i < len(v) {
						w[name.Name] = v[i]
					}
				}
			}
		}
	}
	return w
}

func (w constants) kind(set *token.FileSet, c *ast.CompositeLit) []kindText {
	said := map[string]ast.Expr{}
	for _, e := range c.Elts {
		if kv, ok := e.(*ast.KeyValueExpr); ok {
			if key, ok := kv.Key.(*ast.Ident); ok {
				said[key.Name] = kv.Value
			}
		}
	}
	if said["Code"] == nil || said["Text"] == nil {
		return nil
	}
	code, _ := w.text(said["Code"])
	var out []kindText
	for _, key := range []string{"Text", "Mend"} {
		if e := said[key]; e != nil {
			if text, ok := w.text(e); ok && text != "" {
				out = append(out, kindText{set.Position(e.Pos()).String(), code, text})
			}
		}
	}
	return out
}

// short reads the kinds that a package makes by a function named after their
// weight: of a code, a text and a mend.
func (w constants) short(set *token.FileSet, c *ast.CallExpr) []kindText {
	if name, ok := c.Fun.(*ast.Ident); !ok || len(c.Args) != 3 || !slices.Contains([]string{"stop", "warn", "advice"}, name.Name) {
		return nil
	}
	code, coded := w.text(c.Args[0])
	var out []kindText
	for _, e := range c.Args[1:] {
		if text, ok := w.text(e); ok && coded && text != "" {
			out = append(out, kindText{set.Position(e.Pos()).String(), code, text})
		}
	}
	return out
}

// text is a constant text; false where it is put together while the program runs.
func (w constants) text(e ast.Expr) (string, bool) {
	switch e := e.(type) {
	case *ast.BasicLit:
		s, err := strconv.Unquote(e.Value)
		return s, err == nil
	case *ast.BinaryExpr:
		a, ok := w.text(e.X)
		b, fine := w.text(e.Y)
		return a + b, ok && fine
	case *ast.ParenExpr:
		return w.text(e.X)
	case *ast.Ident:
		if v, ok := w[e.Name]; ok {
			return w.text(v)
		}
	}
	return "", false
}

// Every kind of finding has words in every language.
func TestEveryKindIsSaid(t *testing.T) {
	all := kindTexts(t)
	if len(all) < 700 {
		t.Fatalf("only %d texts of findings are found in the source", len(all))
	}
	verbs := regexp.MustCompile(`^%\[\d+\]s$`) // whatever it says is among the arguments
	for lang, words := range foundWords {
		for _, k := range all {
			if verbs.MatchString(k.text) {
				continue
			}
			if _, ok := words[k.text]; !ok {
				t.Errorf("%s: %s %s has no words for %q", lang, k.at, k.code, k.text)
			}
		}
	}
}

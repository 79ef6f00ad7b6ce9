package web

import (
	"go/scanner"
	"go/token"
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gusset/internal/finding"
)

// Whatever a finding says in another language stands for a text that the program
// has, and takes the same arguments.
func TestFoundWords(t *testing.T) {
	texts := map[string]bool{}
	err := fs.WalkDir(os.DirFS(".."), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return err
		}
		src, err := os.ReadFile("../" + name)
		if err != nil {
			return err
		}
		var s scanner.Scanner
		set := token.NewFileSet()
		s.Init(set.AddFile(name, -1, len(src)), src, nil, 0)
		for {
			_, tok, lit := s.Scan()
			if tok == token.EOF {
				return nil
			}
			if tok == token.STRING {
				if text, err := strconv.Unquote(lit); err == nil {
					texts[text] = true
				}
			}
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	verbs := regexp.MustCompile(`%[^a-z%]*[a-z%]`)
	for lang, words := range foundWords {
		for own, other := range words {
			if strings.HasPrefix(own, "=") {
				continue
			}
			if !texts[own] {
				t.Errorf("%s: the program does not say %q", lang, own)
			}
			a, b := verbs.FindAllString(own, -1), verbs.FindAllString(other, -1)
			slices.Sort(a)
			slices.Sort(b)
			if !slices.Equal(a, b) {
				t.Errorf("%q takes %v, %q %v", own, a, other, b)
			}
		}
	}
}

// A finding is told in German where there are words for it, with numbers as
// German writes them, and in English where there are none.
func TestSaid(t *testing.T) {
	de := reader{Lang: "de"}
	k := finding.Kind{Code: "x.y", Text: "%[1]s and %[2]s share cloth %.1[3]f mm from the cut end, within %.1[4]f by %.1[5]f mm", Mend: "no such mend"}
	text, mend := de.said(k.At(finding.Place{}, "front@left", "band", 12.34, 5.0, 6.0))
	if text.Text != "front@left und band liegen übereinander, 12,3 mm vom Stoffende, auf 5,0 mal 6,0 mm" || text.Lang != "de" || mend.Lang != "en" || mend.Text != "no such mend" {
		t.Errorf("%+v %+v", text, mend)
	}
	if text, _ := (reader{Lang: "en"}).said(k.At(finding.Place{}, "a", "b", 1.0, 2.0, 3.0)); text.Lang != "en" || !strings.HasPrefix(text.Text, "a and b share") {
		t.Errorf("%+v", text)
	}
	for _, c := range []struct {
		kind finding.Kind
		args []any
		want string
	}{
		{finding.Kind{Text: "%[1]s is %[2]s %[3]s than before: the corner moves and the next edge follows"}, []any{"front@left:hem", "1.5 mm", "longer"},
			"front@left:hem ist um 1,5 mm länger als vorher: die Ecke wandert, und die nächste Kante folgt"},
		// What is to be typed into a file stays as the file wants it.
		{finding.Kind{Text: "take it in at the side, a quarter of the whole on each edge: take-in: {seam: %[3]s, by: %[4]s, at: %[5]s}; the front keeps its length"},
			[]any{"front", "3 cm", "side", "7.5 mm", "waist"},
			"an der Seite wegnehmen, an jeder Kante ein Viertel des Ganzen: take-in: {seam: side, by: 7.5 mm, at: waist}; das Vorderteil behält seine Länge"},
		{finding.Kind{Text: "measure it again, tape level; if it is right, write checked: [%[1]s]"}, []any{"waist"},
			"noch einmal messen, Maßband waagerecht; ist es richtig, checked: [waist] schreiben"},
		{finding.Kind{Text: "did you mean %[2]s?"}, []any{"nee", "knee"}, "ist ‹knee› gemeint?"},
	} {
		if text, _ := de.said(c.kind.At(finding.Place{}, c.args...)); text.Text != c.want || text.Lang != "de" {
			t.Errorf("%q, want %q", text.Text, c.want)
		}
	}
	if got := de.word("waist"); got != "Taille" {
		t.Errorf("waist: %s", got)
	}
}

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
	if got := de.word("waist"); got != "Taille" {
		t.Errorf("waist: %s", got)
	}
}

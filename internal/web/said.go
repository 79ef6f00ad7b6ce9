package web

import (
	"encoding/json"
	"fmt"
	"path"
	"regexp"
	"strings"

	"gusset/internal/finding"
)

// foundWords are what findings say in other languages than their own: by
// language, from the template of a text or mend to one that takes the same
// arguments, and, behind an equals sign, from a word of the trade that stands
// among the arguments. What has none is shown as it is.
var foundWords = func() map[string]map[string]string {
	all := map[string]map[string]string{}
	for _, l := range Languages[1:] {
		data, err := wordFiles.ReadFile(path.Join("words", "found-"+l.String()+".json"))
		words := map[string]string{}
		if err == nil {
			err = json.Unmarshal(data, &words)
		}
		if err != nil {
			panic(fmt.Sprintf("findings in %s: %v", l, err)) // they are part of the program
		}
		all[l.String()] = words
	}
	return all
}()

// saidText is a text in some language.
type saidText struct{ Text, Lang string }

// said gives what a finding says, and what would mend it, in the reader's
// language or else in its own.
func (r reader) said(f finding.Finding) (text, mend saidText) {
	return r.filled(f.Kind.Text, f.Text(), f.Args), r.filled(f.Kind.Mend, f.Mend(), f.Args)
}

func (r reader) filled(template, own string, args []any) saidText {
	other, ok := foundWords[r.Lang][template]
	if !ok {
		return saidText{own, Languages[0].String()}
	}
	said := make([]any, len(args))
	for i, a := range args {
		said[i] = a
		if own, ok := a.(string); ok {
			said[i] = r.word(r.measured(own))
		}
	}
	var b strings.Builder
	at := 0
	for _, typed := range asTyped.FindAllStringIndex(other, -1) {
		b.WriteString(r.fill(other[at:typed[0]], said) + r.fill(other[typed[0]:typed[1]], args))
		at = typed[1]
	}
	b.WriteString(r.fill(other[at:], said))
	return saidText{b.String(), r.Lang}
}

// fill puts arguments into a template, which is left alone when it uses none.
func (r reader) fill(template string, args []any) string {
	if !strings.Contains(template, "%") {
		return template
	}
	return printers[r.Lang].Sprintf(template, args...)
}

var (
	// asTyped is what is to be written into a file as it stands: "take-in: {by: 5 mm}",
	// "checked: [waist]", ‹knee›. Words and numbers in it are the file's, in no language.
	asTyped = regexp.MustCompile(`‹[^›]*›|\{[^{}]*\}|: \[(?:%\[\d+\]s|[^\]])*\]`)
	// aLength is a length as package unit writes it.
	aLength = regexp.MustCompile(`^-?\d+\.\d+ \p{L}+$`)
)

// measured writes a length that stands among the arguments with the reader's
// decimal sign, and leaves everything else as it is.
func (r reader) measured(own string) string {
	if aLength.MatchString(own) {
		return r.number(own)
	}
	return own
}

// W is word, for the pages.
func (r reader) W(own string) string { return r.word(own) }

// word is a word of the trade in the reader's language, or as it is: "waist".
func (r reader) word(own string) string {
	if other, ok := foundWords[r.Lang]["="+own]; ok {
		return other
	}
	return own
}

package web

import (
	"embed"
	"encoding/json"
	"fmt"
	"net/http"
	"path"
	"slices"
	"strings"

	"golang.org/x/text/language"
	"golang.org/x/text/message"

	"gusset/internal/unit"
)

//go:embed words
var wordFiles embed.FS

// Languages are those that the pages are written in; the first is taken where
// a reader asks for none of them. What is found about the work is told in the
// reader's language where there are words for it (foundWords); names that stand in
// the files stay as they are.
var Languages = []language.Tag{language.English, language.German}

var matcher = language.NewMatcher(Languages)

// catalogue holds the words of every language: key to text, a fmt template
// where it takes numbers or names.
var catalogue = func() map[string]map[string]string {
	all := map[string]map[string]string{}
	for _, l := range Languages {
		data, err := wordFiles.ReadFile(path.Join("words", l.String()+".json"))
		words := map[string]string{}
		if err == nil {
			err = json.Unmarshal(data, &words)
		}
		if err != nil {
			panic(fmt.Sprintf("words of %s: %v", l, err)) // they are part of the program
		}
		all[l.String()] = words
	}
	return all
}()

// reader is whom a page is written for: the language, and the unit of lengths,
// which is the docket's own where it is empty.
type reader struct {
	Lang string
	Unit unit.Unit
}

// readerOf asks the request: what the reader has chosen, else what the browser
// says.
func readerOf(r *http.Request) reader {
	asked := r.Header.Get("Accept-Language")
	if c, err := r.Cookie("lang"); err == nil {
		asked = c.Value
	}
	tags, _, _ := language.ParseAcceptLanguage(asked)
	_, i, _ := matcher.Match(tags...)
	who := reader{Lang: Languages[i].String()}
	if c, err := r.Cookie("unit"); err == nil && slices.Contains([]unit.Unit{unit.Centimetre, unit.Inch}, unit.Unit(c.Value)) {
		who.Unit = unit.Unit(c.Value)
	}
	return who
}

// T is the text of a key in the reader's language.
func (r reader) T(key string, args ...any) string {
	text, ok := catalogue[r.Lang][key]
	if !ok {
		text = catalogue[Languages[0].String()][key]
	}
	if text == "" {
		return key
	}
	if len(args) == 0 {
		return text
	}
	return printers[r.Lang].Sprintf(text, args...)
}

// printers write numbers as each language does.
var printers = func() map[string]*message.Printer {
	all := map[string]*message.Printer{}
	for _, l := range Languages {
		all[l.String()] = message.NewPrinter(l)
	}
	return all
}()

// L is a length in mm in the reader's unit, or in the one given.
func (r reader) L(mm float64, u unit.Unit) string {
	if r.Unit != "" {
		u = r.Unit
	}
	return r.number(unit.Format(mm, u))
}

// M is a length of cloth in mm, in yards for those who measure in inches: the
// reader's unit, or the one given.
func (r reader) M(mm float64, u unit.Unit) string {
	if r.Unit != "" {
		u = r.Unit
	}
	if inches(u) {
		return r.number(unit.Format(mm, unit.Yard))
	}
	return r.number(unit.Format(mm, unit.Metre))
}

// inches reports whether a unit is one of those who measure in inches.
func inches(u unit.Unit) bool { return u == unit.Inch || u == unit.Foot || u == unit.Yard }

// Q is a length as it was written, in the reader's unit where that is another.
func (r reader) Q(q unit.Length, u unit.Unit) string {
	if r.Unit == "" {
		return r.number(q.String())
	}
	return r.L(q.MM(), u)
}

func (r reader) number(text string) string {
	if r.Lang == "de" {
		return strings.Replace(text, ".", ",", 1)
	}
	return text
}

package web

import (
	"encoding/json"
	"fmt"
	"path"
	"regexp"
	"strings"

	"gusset/internal/construct"
	"gusset/internal/unit"
)

// workWords are the actions of methods in other languages than their own: by
// language, from the words of a method to words that take the same in braces.
var workWords = func() map[string]map[string]string {
	all := map[string]map[string]string{}
	for _, l := range Languages[1:] {
		data, err := wordFiles.ReadFile(path.Join("words", "work-"+l.String()+".json"))
		words := map[string]string{}
		if err == nil {
			err = json.Unmarshal(data, &words)
		}
		if err != nil {
			panic(fmt.Sprintf("actions in %s: %v", l, err)) // they are part of the program
		}
		all[l.String()] = words
	}
	return all
}()

// told is what an operation has one do, in the reader's language if there are words
// for all of it, or else in its own: half of it would be worse than none. Pieces
// and seams are called what the pattern calls them.
func (r reader) told(op construct.Operation, u unit.Unit) saidText {
	own := saidText{op.Do, Languages[0].String()}
	var out []string
	for _, a := range op.Told {
		other, ok := workWords[r.Lang][a.Text]
		if !ok {
			return own
		}
		out = append(out, r.decimals(unit.Sentence(a.With(other), u)))
	}
	if len(out) == 0 {
		return own
	}
	return saidText{strings.Join(out, "; "), r.Lang}
}

// measures are the metric measures within a sentence.
var measures = regexp.MustCompile(`(\d)\.(\d+ ?(?:mm|cm|m)\b)`)

// decimals writes the measures in a sentence with the reader's decimal sign.
func (r reader) decimals(text string) string {
	if r.Lang == "de" {
		return measures.ReplaceAllString(text, "$1,$2")
	}
	return text
}

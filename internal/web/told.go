package web

import (
	"encoding/json"
	"fmt"
	"path"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

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
	if all := r.actions(op, u); len(all) > 0 {
		return saidText{strings.Join(all, "; "), r.Lang}
	}
	return saidText{op.Do, Languages[0].String()}
}

// actions are what an operation has one do in the reader's language; none where
// there are no words for some of it, or it is the program's own.
func (r reader) actions(op construct.Operation, u unit.Unit) []string {
	var out []string
	for _, a := range op.Told {
		other, ok := workWords[r.Lang][a.Text]
		if !ok {
			return nil
		}
		out = append(out, r.decimals(unit.Sentence(a.With(other), u)))
	}
	return out
}

// stepWords are the words of a step's card, line by line, with its actions in the
// reader's language where that can be. A card begins with the actions.
func (r reader) stepWords(op construct.Operation, card string, u unit.Unit) []saidText {
	lines := strings.Split(card, "\n")
	all := r.actions(op, u)
	if len(all) > len(lines) {
		all = nil
	}
	var out []saidText
	for i, line := range lines {
		said := saidText{line, Languages[0].String()}
		if i < len(all) {
			said = saidText{r.handed(op, all[i], line) + ".", r.Lang}
		}
		out = append(out, said)
	}
	return out
}

// handed is an action as a sentence, with the hand before it where the card's own
// line has it.
func (r reader) handed(op construct.Operation, action, line string) string {
	hand := string(op.Copy)
	if hand != "" && strings.HasPrefix(strings.ToLower(line), hand+": ") {
		action = r.word(hand) + ": " + action
	}
	first, size := utf8.DecodeRuneInString(action)
	return string(unicode.ToUpper(first)) + action[size:]
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

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
	"gusset/internal/sheet"
	"gusset/internal/unit"
)

// workWords are the actions of methods in other languages than their own: by
// language, from the words of a method to words that take the same in braces.
var workWords = wordsLike("work")

// besideWords are what stands beside a step, in other languages than its own: by
// language, from set-ups, settings and cautions to words that take the same in
// braces, and, as "foot=zip", from a word that stands for one in braces. Such a
// word stays as it is where it has none.
var besideWords = wordsLike("beside")

// wordsLike reads a file of words for every language but the program's own.
func wordsLike(kind string) map[string]map[string]string {
	all := map[string]map[string]string{}
	for _, l := range Languages[1:] {
		data, err := wordFiles.ReadFile(path.Join("words", kind+"-"+l.String()+".json"))
		words := map[string]string{}
		if err == nil {
			err = json.Unmarshal(data, &words)
		}
		if err != nil {
			panic(fmt.Sprintf("%s in %s: %v", kind, l, err)) // they are part of the program
		}
		all[l.String()] = words
	}
	return all
}

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

// stepWords are the words of a step's card, line by line, each in the reader's
// language where that can be.
func (r reader) stepWords(op construct.Operation, d sheet.Doing, u unit.Unit) []saidText {
	all := r.actions(op, u)
	if len(all) != len(d.Do) {
		all = nil
	}
	var out []saidText
	for i, line := range d.Do {
		said := saidText{line, Languages[0].String()}
		if all != nil {
			said = saidText{r.handed(op, all[i], line) + ".", r.Lang}
		}
		out = append(out, said)
	}
	if len(d.Allowances) > 0 {
		out = append(out, saidText{r.allowances(d.Allowances, u), r.Lang})
	}
	if d.Caution != "" {
		said := r.constant(d.Caution)
		out = append(out, saidText{reader{Lang: said.Lang}.T("step.caution", said.Text), said.Lang})
	}
	return out
}

// allowances are the allowances that a step is told with: one width where all
// edges have the same, otherwise each with its pieces.
func (r reader) allowances(list []sheet.Allowance, u unit.Unit) string {
	var widths []string
	for _, a := range list {
		w := r.L(a.Width, u)
		var folds []string
		for _, f := range a.Folds {
			folds = append(folds, r.L(f, u))
		}
		if len(folds) > 0 {
			w = r.T("allowance.turned", w, strings.Join(folds, r.T("and")))
		}
		if len(list) > 1 {
			w = r.T("allowance.on", w, strings.Join(a.Pieces, ", "))
		}
		widths = append(widths, w)
	}
	return r.T("step.allowance", strings.Join(widths, "; "))
}

// constant is a text that takes nothing, in the reader's language or else as it is.
func (r reader) constant(own string) saidText {
	return r.beside([]construct.Told{{Text: own}}, "")
}

// beside is what stands beside a step, in the reader's language if there are words
// for all of it, or else in its own.
func (r reader) beside(all []construct.Told, between string) saidText {
	var out []string
	for _, t := range all {
		other, ok := besideWords[r.Lang][t.Text]
		if !ok {
			return saidText{construct.Line(all, between), Languages[0].String()}
		}
		out = append(out, construct.Told{Words: r.standing(t.Words)}.With(other))
	}
	return saidText{strings.Join(out, between), r.Lang}
}

// standing are what stands for words in braces, as the reader says and writes it.
func (r reader) standing(words map[string]string) map[string]string {
	out := map[string]string{}
	for name, own := range words {
		out[name] = r.measured(own)
		if other, ok := besideWords[r.Lang][name+"="+own]; ok {
			out[name] = other
		}
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

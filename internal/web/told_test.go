package web

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"gusset/internal/construct"
	"gusset/internal/method"
	"gusset/internal/sheet"
	"gusset/internal/unit"
)

// What the methods that come with the program have one do is told in every
// language, with the same words in braces and the same measures; and nothing else
// is.
func TestEveryActionIsTold(t *testing.T) {
	set, found := method.Builtin()
	if found.Stops() > 0 {
		t.Fatal(found)
	}
	said := map[string]bool{}
	for _, name := range set.Names() {
		m, _ := set.Find(name)
		for _, o := range m.Operations {
			for _, a := range o.Actions {
				said[a] = true
			}
		}
	}
	if len(said) < 200 {
		t.Fatalf("only %d actions", len(said))
	}
	parts := regexp.MustCompile(`\{[^}]*\}|\d[\d.]* mm`)
	for lang, words := range workWords {
		for own := range said {
			other, ok := words[own]
			if !ok {
				t.Errorf("%s: no words for %q", lang, own)
				continue
			}
			a, b := parts.FindAllString(own, -1), parts.FindAllString(other, -1)
			slices.Sort(a)
			slices.Sort(b)
			if !slices.Equal(a, b) {
				t.Errorf("%q takes %v, %q %v", own, a, other, b)
			}
		}
		for own := range words {
			if !said[own] {
				t.Errorf("%s: no method says %q", lang, own)
			}
		}
	}
}

// The card of a step keeps its lines: the hand before the first action, and after
// the actions what is said besides, each in the reader's language if there are words.
func TestStepWords(t *testing.T) {
	op := construct.Operation{Copy: "left", Do: "press side seam open", Told: []construct.Told{{Text: "press {item} open", Words: map[string]string{"item": "side seam"}}}}
	d := sheet.Doing{Do: []string{"Left: press side seam open."}, Caution: "steam", Allowances: []sheet.Allowance{
		{Width: 15, Pieces: []string{"front"}}, {Width: 31, Folds: []float64{20.5, 10}, Pieces: []string{"back", "yoke"}}}}
	own := func(text string) saidText { return saidText{text, "en"} }
	de := func(text string) saidText { return saidText{text, "de"} }
	known := d
	known.Caution = "hand needle: use a thimble, count needles and pins at the end"
	one := sheet.Doing{Do: d.Do, Allowances: d.Allowances[1:]}
	for _, c := range []struct {
		who  reader
		d    sheet.Doing
		u    unit.Unit
		want []saidText
	}{
		{reader{Lang: "de"}, d, unit.Millimetre, []saidText{de("Links: auseinanderbügeln: side seam."), de("Zugabe 15 mm an front; 31 mm (umgeschlagen 20,5 mm und 10 mm) an back, yoke."), own("Caution: steam.")}},
		{reader{Lang: "de"}, known, unit.Centimetre, []saidText{de("Links: auseinanderbügeln: side seam."), de("Zugabe 1,5 cm an front; 3,1 cm (umgeschlagen 2 cm und 1 cm) an back, yoke."), de("Vorsicht: Handnadel: einen Fingerhut benutzen, am Ende Nadeln und Stecknadeln zählen.")}},
		{reader{Lang: "de"}, one, unit.Inch, []saidText{de("Links: auseinanderbügeln: side seam."), de("Zugabe 1 1/4 in (umgeschlagen 13/16 in und 3/8 in).")}},
	} {
		if got := c.who.stepWords(op, c.d, c.u); !slices.Equal(got, c.want) {
			t.Errorf("%v, want %v", got, c.want)
		}
	}
	// In English it is what the printed card says.
	for _, d := range []sheet.Doing{d, known, one} {
		for _, u := range []unit.Unit{unit.Centimetre, unit.Millimetre, unit.Inch} {
			for i, said := range (reader{Lang: "en"}).stepWords(op, d, u) {
				if said != own(d.Lines(u)[i]) {
					t.Errorf("%v, want %s", said, d.Lines(u)[i])
				}
			}
		}
	}
}

// An action is told with the pieces' own names and the reader's measures; a step
// of which a part has no words is told in its own.
func TestTold(t *testing.T) {
	de := reader{Lang: "de"}
	sew := construct.Told{Text: "turn {edge} up {depth} on the hem line", Words: map[string]string{"edge": "hem of front", "depth": "2.5 cm"}}
	trim := construct.Told{Text: "trim the allowance of {item} to 3 mm", Words: map[string]string{"item": "armhole"}}
	for _, c := range []struct {
		who  reader
		told []construct.Told
		u    unit.Unit
		want saidText
	}{
		{de, []construct.Told{sew, trim}, unit.Centimetre, saidText{"2,5 cm an der Saumlinie nach oben umschlagen: hem of front; die Zugabe auf 3 mm zurückschneiden: armhole", "de"}},
		{de, []construct.Told{sew}, unit.Inch, saidText{"1 in an der Saumlinie nach oben umschlagen: hem of front", "de"}},
		{de, []construct.Told{sew, {Text: "iron it as grandmother did"}}, unit.Centimetre, saidText{"own words", "en"}},
		{reader{Lang: "en"}, []construct.Told{sew}, unit.Centimetre, saidText{"own words", "en"}},
		{de, nil, unit.Centimetre, saidText{"own words", "en"}},
	} {
		if got := c.who.told(construct.Operation{Do: "own words", Told: c.told}, c.u); got != c.want {
			t.Errorf("%v, want %v", got, c.want)
		}
		if strings.Contains(c.want.Text, "{") {
			t.Errorf("braces left in %q", c.want.Text)
		}
	}
}

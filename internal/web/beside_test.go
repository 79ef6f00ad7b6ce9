package web

import (
	"context"
	"encoding/xml"
	"errors"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gusset/demo"
	"gusset/internal/cloth"
	"gusset/internal/construct"
	"gusset/internal/lay"
	"gusset/internal/machine"
	"gusset/internal/making"
	"gusset/internal/method"
	"gusset/internal/order"
	"gusset/internal/sheet"
	"gusset/internal/unit"
)

// inTurn are operations done one after the other, as steps.
func inTurn(t *testing.T, ops ...construct.Operation) []order.Step {
	t.Helper()
	for i := range ops {
		ops[i].ID = "work-" + strconv.Itoa(i)
		if i > 0 {
			ops[i].After = []string{ops[i-1].ID}
		}
	}
	made, found := order.Plan(ops, nil, nil, order.Costs{})
	if found.Stops() > 0 {
		t.Fatal(found)
	}
	return made.Steps()
}

// besides are what the program says beside steps: every set-up and every setting,
// the cautions of its methods, and the words before all work.
func besides(t *testing.T) []construct.Told {
	t.Helper()
	lock, over := construct.Operation{Machine: machine.Lockstitch, Stitch: "301", Thread: "main"}, construct.Operation{Machine: machine.Overlocker, Stitch: "504", Thread: "main"}
	full := construct.Operation{Machine: machine.Lockstitch, Stitch: "304", Thread: "topstitch", Needle: "100", StitchLength: 2.5, Rows: 2, Length: 100, Plies: 2, Thickness: 1.5}
	other, single := over, full
	other.Thread, single.Rows = "topstitch", 1
	steps := inTurn(t, lock, construct.Operation{Machine: machine.Iron}, full, construct.Operation{Machine: machine.Hand}, lock, over,
		construct.Operation{Machine: machine.Table}, other, single)
	steps = append(steps, inTurn(t, full)...)
	set, found := method.Builtin()
	if found.Stops() > 0 {
		t.Fatal(found)
	}
	var all []construct.Told
	for _, name := range set.Names() {
		m, _ := set.Find(name)
		for _, o := range m.Operations {
			if o.Caution != "" {
				all = append(all, construct.Told{Text: o.Caution})
			}
			steps = append(steps, inTurn(t, construct.Operation{Machine: o.Machine, Stitch: o.Stitch, Thread: o.Thread, Needle: o.Needle, Foot: o.Foot})...)
		}
	}
	for _, text := range (sheet.Work{Child: true}).Cautions() {
		all = append(all, construct.Told{Text: text})
	}
	for _, colours := range []map[string]string{nil, {"main": "rust", "topstitch": "straw", "overlock": "rust"}} {
		for i, st := range steps {
			all = append(all, st.Set...)
			all = append(all, sheet.StepSettings(sheet.Work{Steps: steps, Colours: colours}, i, unit.Centimetre)...)
		}
	}
	return all
}

// Whatever stands beside a step is said in every language, with the same words in
// braces, and with other words of the trade for them; and nothing else is.
func TestBesideIsSaid(t *testing.T) {
	all := besides(t)
	braces := regexp.MustCompile(`\{[^}]*\}`)
	for lang, words := range besideWords {
		used := map[string]bool{}
		for _, told := range all {
			other, ok := words[told.Text]
			if !ok {
				t.Errorf("%s: no words for %q", lang, told.Text)
				continue
			}
			used[told.Text] = true
			a, b := braces.FindAllString(told.Text, -1), braces.FindAllString(other, -1)
			slices.Sort(a)
			slices.Sort(b)
			if !slices.Equal(a, b) {
				t.Errorf("%q takes %v, %q %v", told.Text, a, other, b)
			}
			for _, name := range []string{"place", "thread", "foot"} {
				if own := told.Words[name]; strings.Contains(told.Text, "{"+name+"}") {
					if words[name+"="+own] == "" {
						t.Errorf("%s: no word for the %s %q", lang, name, own)
					}
					used[name+"="+own] = true
				}
			}
		}
		for own := range words {
			if !used[own] {
				t.Errorf("%s: nothing says %q", lang, own)
			}
		}
	}
}

// A set-up is told by parts, with the reader's measures and the names that the
// files have; one for which a word is missing is told in its own.
func TestBeside(t *testing.T) {
	de, en := reader{Lang: "de"}, reader{Lang: "en"}
	length := construct.Told{Text: "stitch {stitch}, {stitch length}", Words: map[string]string{"stitch": "301", "stitch length": "2.5 mm"}}
	thread := construct.Told{Text: "{thread} thread, {colour}", Words: map[string]string{"thread": "topstitch", "colour": "straw"}}
	own := construct.Told{Text: "{foot} foot", Words: map[string]string{"foot": "walking"}}
	for _, c := range []struct {
		who  reader
		told []construct.Told
		want saidText
	}{
		{de, []construct.Told{length, thread, own}, saidText{"Stich 301, Stichlänge 2,5 mm; Steppfaden, straw; Nähfuß: walking", "de"}},
		{en, []construct.Told{length, thread, own}, saidText{"stitch 301, 2.5 mm; topstitch thread, straw; walking foot", "en"}},
		{de, []construct.Told{length, {Text: "oil it"}}, saidText{"stitch 301, 2.5 mm; oil it", "en"}},
		{de, nil, saidText{"", "de"}},
	} {
		if got := c.who.beside(c.told, "; "); got != c.want {
			t.Errorf("%v, want %v", got, c.want)
		}
	}
}

// shown are the texts of a page by language, those that are read out with them,
// such as the titles of drawings, too.
func shown(t *testing.T, body string) map[string][]string {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(body))
	d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	out := map[string][]string{}
	langs := []string{""}
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			return out
		}
		if err != nil {
			t.Fatal(err)
		}
		at := langs[len(langs)-1]
		switch tok := tok.(type) {
		case xml.StartElement:
			for _, a := range tok.Attr {
				if a.Name.Local == "lang" {
					at = a.Value
				}
			}
			langs = append(langs, at)
			for _, a := range tok.Attr {
				if a.Name.Local == "title" || a.Name.Local == "aria-label" {
					out[at] = append(out[at], a.Value)
				}
			}
		case xml.EndElement:
			langs = langs[:len(langs)-1]
		case xml.CharData:
			if text := strings.TrimSpace(string(tok)); text != "" {
				out[at] = append(out[at], text)
			}
		}
	}
}

// On German pages, what stands beside the steps is German; only what is marked as
// English is not.
func TestGermanBesideSteps(t *testing.T) {
	in, _, err := making.Open(demo.Files, docketPath("quay-cropped"))
	if err != nil {
		t.Fatal(err)
	}
	r := making.Run(context.Background(), in, making.Needs, making.Effort{Rounds: 1, Seed: 1, Plans: map[cloth.Role]lay.Plan{cloth.Main: lay.Open}}, nil)
	m := made{in: in, drawn: r, full: r, whole: true}
	tab := &table{name: "quay-cropped"}
	who := reader{Lang: "de", Unit: unit.Centimetre}
	const first = "zur Overlock; die Overlock mit Overlockfaden einfädeln"
	own := regexp.MustCompile(`(?i)\b(?:to the|change to|now everything|allowance|caution|stitch|needle|threaded|overlocker|foot|plies)\b`)
	for name, c := range map[string]struct {
		page  any
		wants []string
	}{
		"docket-main": {docketOf(who, tab, m), []string{first, "jetzt alles an der Steppmaschine", "auf Nähfaden umfädeln, Nadel 90", "zum Bügeleisen"}},
		"work-main": {workOf(who, tab, m, nil), []string{first, "Zugabe 1,5 cm.", "Vorsicht: Messer der Overlock: Finger und Stecknadeln fernhalten",
			"Stich 504, Stichlänge 2,5 mm", "Nähfuß: Standard", "Nadel 90", "Jeden Schritt abhaken"}},
	} {
		var b strings.Builder
		if err := pages.ExecuteTemplate(&b, name, c.page); err != nil {
			t.Fatal(err)
		}
		said := shown(t, `<body lang="de">`+b.String()+`</body>`)["de"]
		for _, text := range said {
			if word := own.FindString(text); word != "" {
				t.Errorf("%s says %q: %s", name, word, text)
			}
		}
		all := strings.Join(said, "\n")
		for _, want := range c.wants {
			if !strings.Contains(all, want) {
				t.Errorf("%s does not say %q:\n%s", name, want, all)
			}
		}
	}
}

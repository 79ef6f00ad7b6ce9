package source

import (
	"fmt"
	"strings"
	"testing"

	"gusset/internal/finding"
	"gusset/internal/unit"
)

// load is a loader as others write them, over every sort of value.
func load(f File) finding.List {
	root, found := ParseYAML(f, "body", 2)
	m := root.Reader(&found)
	m.Required().String("name")
	m.Required().Length("waist", "", 400, 2000)
	m.LengthOr("hip", unit.Centimetre, 400, 2000, unit.MM(900))
	m.Percent("stretch", 0, 0.5)
	m.Word("side", "left", "right", "both")
	m.BoolOr("worn", true)
	m.IntOr("layers", 1, 8, 1)
	m.Float("weight", 0, 1000)
	m.Label("size")
	m.Labels("sizes")
	m.Strings("notes")
	m.Lengths("list", unit.Centimetre, 0, 2000)
	for _, e := range m.Entries("chart") {
		e.Name.Label(&found)
		e.Value.Length(&found, "", 0, 2000)
	}
	m.Each("marks", func(_ int, n Node) {
		mark := n.Reader(&found)
		mark.Required().String("at")
		mark.Done()
	})
	sub := m.Map("shoulder")
	sub.Length("slope", "", 0, 100)
	sub.Done()
	m.Done()
	return found
}

const head = "gusset: body/1\nname: Wren\nwaist: 70 cm\n"

// brokenYAML are files with one fault each: the code it must be found by, the
// line and column (0 where the fault has none), and a word of its message.
var brokenYAML = []struct {
	name, text, code string
	line, col        int
	says             string
}{
	{"empty", "", "source.empty", 0, 0, ""},
	{"only space", " \n\n", "source.empty", 0, 0, ""},
	{"only a comment", "# nothing\n", "source.empty", 0, 0, ""},
	{"byte order mark only", "\ufeff", "source.empty", 0, 0, ""},
	{"binary", "gusset: body/1\n\x00\x01", "source.not-text", 2, 1, "byte 15"},
	{"latin-1", "gusset: body/1\nname: Ren\xe9e", "source.not-text", 2, 10, ""},
	{"escape character", head + "size: \x1b[31m", "source.not-text", 4, 7, ""},
	{"too large", strings.Repeat("# long\n", MaxYAML/7+1), "source.too-large", 0, 0, "4 MiB"},
	{"too many words", head + "notes: [" + strings.Repeat("a, ", maxTokens/2) + "]", "source.too-long", 1, 1, "50000"},
	{"deep brackets", head + "notes: " + strings.Repeat("[", 65) + strings.Repeat("]", 65), "source.too-deep", 4, 72, "64"},
	{"deep dashes", head + "notes:\n  " + strings.Repeat("- ", 65) + "a", "source.too-deep", 5, 131, "64"},
	{"deep lines", head + deepLines(70), "source.too-deep", 68, 66, "64"},
	{"no header", "name: Wren\n", "source.missing-header", 1, 1, `"gusset: body/2"`},
	{"header not first", "name: Wren\ngusset: body/1\n", "source.missing-header", 1, 1, ""},
	{"a list", "- a\n- b\n", "source.missing-header", 1, 1, ""},
	{"a word", "Wren", "source.missing-header", 1, 1, ""},
	{"other kind", "gusset: cloth/1\n", "source.other-kind", 1, 9, "a cloth file where a body file"},
	{"kind mistyped", "gusset: bdoy/1\n", "source.other-kind", 1, 9, ""},
	{"newer", "gusset: body/3\n", "source.newer", 1, 9, "this one reads body/2"},
	{"no version", "gusset: body\n", "source.bad-header", 1, 9, ""},
	{"version 0", "gusset: body/0\n", "source.bad-header", 1, 9, ""},
	{"empty header", "gusset:\nname: Wren\n", "source.bad-header", 1, 1, ""},
	{"open quote", head + "size: \"12\n", "source.yaml-broken", 4, 7, "quote"},
	{"open bracket", head + "notes: [a, b\n", "source.yaml-broken", 4, 8, ""},
	{"two colons", head + "size: a: b\n", "source.yaml-broken", 4, 7, ""},
	{"tab indent", head + "shoulder:\n\tslope: 4 cm\n", "source.yaml-broken", 5, 2, ""},
	{"reserved sign", head + "size: @12\n", "source.yaml-broken", 4, 7, ""},
	{"anchor", head + "size: &s M\n", "source.yaml-anchor", 4, 7, ""},
	{"alias", head + "size: *s\n", "source.yaml-anchor", 4, 7, ""},
	{"merge", head + "shoulder:\n  <<: {slope: 4 cm}\n", "source.yaml-anchor", 5, 3, ""},
	{"tag", head + "size: !!str 12\n", "source.yaml-tag", 4, 7, ""},
	{"directive", "%YAML 1.2\n---\n" + head, "source.yaml-tag", 1, 1, ""},
	{"second document", head + "---\nname: Finch\n", "source.yaml-documents", 4, 1, ""},
	{"key twice", head + "waist: 72 cm\n", "source.duplicate-key", 4, 1, "waist is given twice"},
	{"null key", head + "~: 3\n", "source.bad-key", 4, 1, ""},
	{"comma in list", head + "list: [88,5, 90]\n", "source.comma-in-list", 4, 10, `"88,5"`},
	{"comma and unit", head + "list: [90 cm, 88,5 cm]\n", "source.comma-in-list", 4, 17, ""},
	{"commas only", head + "list: [1,2,3]\n", "source.comma-in-list", 4, 9, ""},
	{"missing", "gusset: body/1\nname: Wren\n", "source.missing-key", 1, 1, "waist is missing"},
	{"missing in item", head + "marks:\n  - at: a\n  - {}\n", "source.missing-key", 6, 5, "marks[1].at is missing"},
	{"unknown", head + "hipp: 90 cm\n", "source.unknown-key", 4, 1, "hipp is not known"},
	{"unknown below", head + "shoulder:\n  slop: 4 cm\n", "source.unknown-key", 5, 3, "shoulder.slop"},
	{"list for text", "gusset: body/1\nname: [a]\nwaist: 70 cm\n", "source.wrong-type", 2, 7, "found a list where text"},
	{"number for text", "gusset: body/1\nname: 12\nwaist: 70 cm\n", "source.wrong-type", 2, 7, "a number (12)"},
	{"nothing for text", "gusset: body/1\nname:\nwaist: 70 cm\n", "source.wrong-type", 2, 1, "found nothing"},
	{"text for list", head + "notes: tall\n", "source.wrong-type", 4, 8, "found text where a list"},
	{"text for keys", head + "shoulder: 4 cm\n", "source.wrong-type", 4, 11, "found text where a group of keys"},
	{"yes for true", head + "worn: yes\n", "source.wrong-type", 4, 7, "true or false"},
	{"wrong word", head + "side: lefft\n", "source.unknown-word", 4, 7, `"lefft"`},
	{"no unit", "gusset: body/1\nname: Wren\nwaist: 70\n", "source.bad-length", 3, 8, "want a unit"},
	{"wrong unit", "gusset: body/1\nname: Wren\nwaist: 70 cn\n", "source.bad-length", 3, 8, "did you mean cm?"},
	{"two units", head + "hip: 3 ft 2 in\n", "source.bad-length", 4, 6, "nothing after it"},
	{"NaN", head + "hip: .nan\n", "source.bad-length", 4, 6, ""},
	{"infinite", head + "hip: .inf\n", "source.bad-length", 4, 6, ""},
	{"huge", head + "hip: 1000 m\n", "source.bad-length", 4, 6, "at most 100 m"},
	{"too small", head + "hip: 90 mm\n", "source.out-of-range", 4, 6, "hip is 90 mm; it must be between 400 mm and 2000 mm"},
	{"assumed unit", head + "hip: 9\n", "source.out-of-range", 4, 6, "hip is 9 cm; it must be between 40 cm and 200 cm"},
	{"bare percent", head + "stretch: 3\n", "source.bad-percent", 4, 10, "percent sign"},
	{"percent", head + "stretch: 80 %\n", "source.out-of-range", 4, 10, "between 0 % and 50 %"},
	{"not whole", head + "layers: 1.5\n", "source.bad-number", 4, 9, "whole number"},
	{"hexadecimal", head + "layers: 0x2\n", "source.bad-number", 4, 9, ""},
	{"whole range", head + "layers: 9\n", "source.out-of-range", 4, 9, "between 1 and 8"},
	{"not a number", head + "weight: heavy\n", "source.bad-number", 4, 9, `"heavy"`},
	{"exponent", head + "weight: 1e2\n", "source.bad-number", 4, 9, ""},
	{"number range", head + "weight: -1\n", "source.out-of-range", 4, 9, "between 0 and 1000"},
	{"unquoted label", head + "size: 12\n", "source.unquoted-label", 4, 7, "12"},
	{"label true", head + "size: true\n", "source.unquoted-label", 4, 7, ""},
	{"unquoted in list", head + "sizes: [\"08\", 10]\n", "source.unquoted-label", 4, 15, "sizes[1]"},
	{"unquoted key", head + "chart:\n  \"8\": 60 cm\n  10: 64 cm\n", "source.unquoted-label", 6, 3, "chart.10"},
	{"crlf", strings.ReplaceAll(head, "\n", "\r\n") + "hip: 9\r\n", "source.out-of-range", 4, 6, ""},
	{"old line ends", strings.ReplaceAll(head, "\n", "\r") + "hip: 9\r", "source.out-of-range", 4, 6, ""},
	{"after a tab", head + "hip:\t9\n", "source.out-of-range", 4, 6, ""},
	{"after wide letters", head + "chart: {\"é½\": 9}\n", "source.bad-length", 4, 15, ""},
}

func deepLines(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, "%sk:\n", strings.Repeat(" ", i))
	}
	return b.String()
}

func TestBrokenYAML(t *testing.T) {
	for _, c := range brokenYAML {
		f := File{Path: "bodies/wren.yaml", Data: []byte(c.text)}
		found := load(f)
		if len(found) != 1 {
			t.Errorf("%s: %d findings, want 1: %v", c.name, len(found), texts(found))
			continue
		}
		g := found[0]
		if g.Code() != c.code || g.Place.Line != c.line || g.Place.Col != c.col || g.Place.File != f.Path {
			t.Errorf("%s: %s at %d:%d (%s), want %s at %d:%d", c.name, g.Code(), g.Place.Line, g.Place.Col, g.Text(), c.code, c.line, c.col)
		}
		if !strings.Contains(g.Text(), c.says) {
			t.Errorf("%s: %q does not say %q", c.name, g.Text(), c.says)
		}
		if strings.Contains(g.Text()+g.Mend(), "%!") {
			t.Errorf("%s: template does not fit its arguments: %q, %q", c.name, g.Text(), g.Mend())
		}
		if c.line > 0 && g.Code() != "source.not-text" && g.Code() != "source.too-deep" && g.Place.Text != f.Line(c.line) {
			t.Errorf("%s: shows %q, line is %q", c.name, g.Place.Text, f.Line(c.line))
		}
	}
}

func texts(l finding.List) []string {
	var s []string
	for _, f := range l {
		s = append(s, fmt.Sprintf("%d:%d %s: %s", f.Place.Line, f.Place.Col, f.Code(), f.Text()))
	}
	return s
}

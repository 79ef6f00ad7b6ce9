package web

import (
	"strings"
	"testing"

	"go.yaml.in/yaml/v4"
	"pgregory.net/rapid"

	"gusset/demo"
)

// Setting a key leaves every other line as it is, comments included.
func TestSetKey(t *testing.T) {
	rows := []struct{ name, file, key, text, want string }{
		{"one line", "a: 1\nb: 2 # two\nc: 3\n", "b", "5", "a: 1\nb: 5\nc: 3\n"},
		{"a list below", "a: 1\nb:\n  - x\n  # of y\n  - y\n\n# of c\nc: 3\n", "b", "\n  - z", "a: 1\nb:\n  - z\n\n# of c\nc: 3\n"},
		{"a list at the margin", "b:\n- x\n- y\nc: 3\n", "b", "[z]", "b: [z]\nc: 3\n"},
		{"several lines of flow", "b: {x: 1,\n  y: 2}\nc: 3\n", "b", "{x: 2}", "b: {x: 2}\nc: 3\n"},
		{"not there", "a: 1", "b", "2", "a: 1\nb: 2\n"},
		{"taken away", "a: 1\nb: 2\nc: 3\n", "b", "", "a: 1\nc: 3\n"},
		{"line endings of another system", "a: 1\r\nb: 2\r\n", "b", "3", "a: 1\r\nb: 3\r\n"},
		{"the beginning of another key", "bc: 1\nb: 2\n", "b", "3", "bc: 1\nb: 3\n"},
	}
	for _, r := range rows {
		got, err := setKey(r.file, r.key, r.text)
		if err != nil || got != r.want {
			t.Errorf("%s: %q, %v, want %q", r.name, got, err, r.want)
		}
	}
	for _, file := range []string{"{a: 1, b: 2}\n", "a: [\n", "\"b\": 2\na: 1\n"} {
		if got, err := setKey(file, "b", "3"); err == nil {
			if v, err := readValue(got); err != nil || v.Of("b") != "3" {
				t.Errorf("%q became %q without a word", file, got)
			}
		}
	}
}

// What is written as a text is read again as that text, by another reader of
// YAML than ours (go.yaml.in/yaml).
func TestScalar(t *testing.T) {
	check := func(t rapid.TB, text string) {
		for _, form := range []string{"k: " + scalar(text), "k: {a: " + scalar(text) + ", b: [" + scalar(text) + "]}"} {
			var got map[string]any
			if err := yaml.Unmarshal([]byte(form), &got); err != nil {
				t.Fatalf("%q as %s: %v", text, form, err)
			}
			v := got["k"]
			if m, ok := v.(map[string]any); ok {
				v = m["a"]
			}
			if s, ok := v.(string); !ok || s != text {
				t.Fatalf("%q as %s is read as %#v", text, form, v)
			}
		}
	}
	for _, text := range []string{"14", "14.6", "2.5 cm", "98,5 cm", "1/2 in", "yes", "no", "true", "null", "-1/2 in", "", " x", "a: b", "# a", "[", "34½", "3 %", "- a", "0x10", "1e5", "2026-11-28", "~", "front:hem"} {
		check(t, text)
	}
	rapid.Check(t, func(t *rapid.T) {
		check(t, rapid.StringMatching(`[ -~äöüß½]{0,12}`).Draw(t, "text"))
	})
}

// Values of the demo's dockets come out as they went in.
func TestReadValue(t *testing.T) {
	data, _ := demo.Files.ReadFile("dockets/quay-long.yaml")
	v, err := readValue(string(data))
	if err != nil {
		t.Fatal(err)
	}
	steps, _ := v.At("changes")
	if got := steps.Items[1].flow(); got != "{id: narrow, hem-girth: {edge: hem, to: 17 1/4 in, from: knee}}" {
		t.Errorf("the second change reads %s", got)
	}
	text, err := setKey(string(data), "table", "2 m")
	if err != nil || strings.Count(text, "\n") != strings.Count(string(data), "\n") || !strings.Contains(text, "\ntable: 2 m\n") {
		t.Errorf("%v\n%s", err, text)
	}
}

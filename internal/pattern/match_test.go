package pattern

import (
	"strings"
	"testing"

	"gusset/internal/finding"
	"gusset/internal/source"
)

func matchesOf(t *testing.T, list string) ([]Match, finding.List) {
	t.Helper()
	root, out := source.ParseYAML(source.File{Path: "x.yaml", Data: []byte("gusset: docket/1\nmatch: " + list + "\n")}, "docket", 1)
	if len(out) > 0 {
		t.Fatal(out.Codes())
	}
	m := root.Reader(&out)
	return ReadMatches(m, &out), out
}

func TestReadMatches(t *testing.T) {
	got, found := matchesOf(t, `[{join: outseam, at: knee}, {join: seat, at: 4 1/2 in, repeat: along}, {join: yoke, at: ½ in, repeat: across}, {join: fork, at: end, repeat: both}]`)
	if len(found) > 0 || len(got) != 4 {
		t.Fatalf("%v, %v", got, found.Codes())
	}
	// 4 1/2 in is 114.3 mm by the definition of the inch.
	if got[0].String() != "outseam at knee" || got[1].At.MM() != 114.3 || got[1].Point != "" || got[1].String() != "seat at 4 1/2 in" || got[2].At.MM() != 12.7 {
		t.Errorf("%+v", got)
	}
	for i, want := range [][2]bool{{true, true}, {true, false}, {false, true}, {true, true}} {
		if got[i].Along != want[0] || got[i].Across != want[1] {
			t.Errorf("%s: along %v, across %v", got[i], got[i].Along, got[i].Across)
		}
	}
	for list, code := range map[string]string{
		"[{at: knee}]":                       "source.missing-key",
		"[{join: seat}]":                     "source.missing-key",
		"[{join: seat, at: 3}]":              "source.bad-length",
		"[{join: seat, at: -3 mm}]":          "source.out-of-range",
		"[{join: seat, at: end, on: along}]": "source.unknown-key",
	} {
		if got, found := matchesOf(t, list); !found.Has(code) || len(got) > 0 && code != "source.unknown-key" {
			t.Errorf("%s: %v, found %v", list, got, found.Codes())
		}
	}
}

// A match names a join of the view, and a notch that both its sides have.
func TestCheckMatch(t *testing.T) {
	p, codes := load(plain, drawings(quarter))
	if len(codes) > 0 {
		t.Fatal(codes)
	}
	for at, want := range map[string]string{
		"{join: side, at: hip}": "", "{join: side, at: start}": "", "{join: side, at: 3 cm}": "",
		"{join: sid, at: hip}": "this view has no join called sid", "{join: side, at: hop}": "side cannot be matched at hop: front:side has no notch of that name",
	} {
		list, _ := matchesOf(t, "["+at+"]")
		found := p.CheckMatch(p.Views[0], list[0])
		if want == "" && len(found) > 0 || want != "" && (len(found) == 0 || !strings.HasPrefix(found[0].Text(), want)) {
			t.Errorf("%s: %v", at, found)
		}
	}
}

package docket

import (
	"os"
	"strings"
	"testing"

	"gusset/internal/source"
)

// dartRecipe has the forms that other dockets lack: places on edges, notes, and a
// make that follows another.
const dartRecipe = `gusset: docket/1
body: sedge
pattern: weir
view: knee
cloths: {main: slate-serge}
after: weir-first
changes:
  - {id: side, pivot-dart: {dart: front-dart, to: {edge: "front:side", at: 8 cm, from: waist-side}}}
  - {id: two, divide-dart: {dart: front-dart, to: {edge: "front:side", at: hip}, share: 50 %}}
  - {id: flare, spread: {open: {edge: "front:hem", at: middle}, hinge: {edge: "front:waist-side", at: 1/2 in}, by: -4 cm, even: yes}}
  - {id: fit, settle: {seam: side, how: share}}
notes:
  - {id: hip, at: {edge: "front:side", at: hip}, feels: tight, by: 1 cm, text: on the ladder}
`

func TestLoadNotes(t *testing.T) {
	d, found := Load(source.File{Path: "dockets/dart.yaml", Data: []byte(dartRecipe)})
	if len(found) > 0 || len(d.Changes) != 4 || len(d.Notes) != 1 || d.After != "weir-first" {
		t.Fatalf("%d steps, notes %+v, after %q: %v", len(d.Changes), d.Notes, d.After, found)
	}
	if n := d.Notes[0]; n.Feel != Tight || n.By.MM() != 10 || n.Spot.Edge != "front:side" || n.Spot.At != "hip" || n.Text != "on the ladder" {
		t.Errorf("read as %+v", n)
	}
	if c := d.Changes[0]; c.Spot.Along.MM() != 80 || c.Spot.From != "waist-side" || c.Spot.At != "" {
		t.Errorf("the place is read as %+v", c.Spot)
	}
	for old, bad := range map[string]string{"feels: tight": "feels: itchy", "by: 1 cm, text": "by: 1, text", "edge: \"front:side\", at: hip}, feels": "edge: side, at: hip}, feels"} {
		if d, found := Load(source.File{Path: "dockets/dart.yaml", Data: []byte(strings.Replace(dartRecipe, old, bad, 1))}); found.Stops() == 0 || len(d.Notes) > 0 {
			t.Errorf("%s instead of %s: no stop: %v", bad, old, found.Codes())
		}
	}
}

// What is written of a step is read again as the same step, for every kind.
func TestWrittenIsRead(t *testing.T) {
	data, err := os.ReadFile("../../schema/testdata/dockets/every-change.yaml")
	if err != nil {
		t.Fatal(err)
	}
	d, found := Load(source.File{Path: "dockets/every-change.yaml", Data: data})
	if len(found) > 0 || len(d.Changes) != len(ChangeKinds) {
		t.Fatalf("%d steps of %d kinds: %v", len(d.Changes), len(ChangeKinds), found)
	}
	for _, c := range d.Changes {
		text := "gusset: docket/1\ntitle: t\nbody: b\npattern: p\nview: v\ncloths: {main: m}\nchanges:\n  - " + Written(c) + "\n"
		again, found := Load(source.File{Path: "dockets/again.yaml", Data: []byte(text)})
		if len(found) > 0 || len(again.Changes) != 1 {
			t.Errorf("%s: %v", Written(c), found)
			continue
		}
		if got := Written(again.Changes[0]); got != Written(c) {
			t.Errorf("%s is read as %s", Written(c), got)
		}
	}
}

// The difference of two dockets names what is new, gone and otherwise.
func TestDiff(t *testing.T) {
	read := func(lines string) Docket {
		d, found := Load(source.File{Path: "dockets/x.yaml", Data: []byte("gusset: docket/1\ntitle: t\nbody: b\npattern: p\n" + lines)})
		if len(found) > 0 {
			t.Fatal(found)
		}
		return d
	}
	a := read("view: v\ncloths: {main: serge}\nsize: auto\nchanges:\n  - {id: legs, lengthen: {at: leg, by: 2 cm}}\n  - {id: hem, move-hem: {edge: hem, by: 1 cm}}\n")
	b := read("view: v\ncloths: {main: drill}\nsize: \"42\"\nchanges:\n  - {id: legs, lengthen: {at: leg, by: 3 cm}}\n  - {id: side, take-in: {seam: side, by: 5 mm, at: hip}}\n")
	want := `size: 42, was auto
cloth for main: drill, was serge
step legs is {id: legs, lengthen: {at: leg, by: 3 cm}}, was {id: legs, lengthen: {at: leg, by: 2 cm}}
step side is new: {id: side, take-in: {seam: side, by: 5 mm, at: hip}}
step hem is gone: {id: hem, move-hem: {edge: hem, by: 1 cm}}`
	if got := strings.Join(Diff(a, b), "\n"); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	a = read("view: v\ncloths: {main: serge}\nsize: auto\nfittings:\n  first: {method: basted-fitting, joins: [outseam, seat]}\n  old: {method: toile}\n")
	b = read("view: v\ncloths: {main: serge}\nsize: auto\nfittings:\n  first: {method: basted-fitting, joins: [outseam]}\n  second: {method: basted-fitting, joins: [waist]}\n" +
		"match: []\norder: {pins: [{step: hem, last: yes}, {step: hem.turn, before: outseam}]}\nbutton: {diameter: 18 mm, thickness: 3 mm}\nthreads: {main: rust}\noff-grain: {up-to: 3, pieces: [bag]}\n")
	want = `off the grain: up to 3°, besides hidden pieces bag, new
button: 18 mm across, 3 mm thick, new
matched: nothing, new
held in the order: hem last, hem.turn before outseam, new
fitting first: basted-fitting of outseam, was basted-fitting of outseam, seat
fitting old: none, was toile
fitting second: basted-fitting of waist, new
thread for main: rust, new`
	if got := strings.Join(Diff(a, b), "\n"); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if same := Diff(a, a); len(same) > 0 {
		t.Errorf("a docket differs from itself: %v", same)
	}
}

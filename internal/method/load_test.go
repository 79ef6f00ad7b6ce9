package method

import (
	"testing"

	"gusset/internal/source"
)

const sound = `gusset: method/1
title: single hem
takes: finish
values: {depth: 30 mm}
folds: [depth]
corner: mirror
operations:
  - {id: turn, do: "turn {edge} up", machine: iron, on: edge}
`

func TestLoad(t *testing.T) {
	m, found := Load(source.File{Path: "methods/one.yaml", Data: []byte(sound)})
	for _, f := range found {
		t.Errorf("%s: %s", f.Place, f.Text())
	}
	if m.Name != "one" || m.Title == "" {
		t.Errorf("read as %+v", m)
	}
}

// FuzzLoad: no input makes the loader panic.
func FuzzLoad(f *testing.F) {
	f.Add([]byte(sound))
	f.Add([]byte("gusset: method/1\ntakes: join\ninstead-of: [band]\nvalues: {wide: 58 mm}\npieces:\n  - {id: strip, shape: strip, width: [wide], grain: bias, free: raw}\n"))
	f.Add([]byte("gusset: method/1\ntakes: part\nvalues: {long: 70 mm, wide: 30 mm}\npieces:\n  - {id: tab, shape: tab, width: [wide], length: [long], free: raw, open: raw}\n"))
	f.Add([]byte("gusset: method/1\ntakes: closure\nshut: yes\nover: hip\noperations:\n  - {id: a, do: b, machine: hand, at: top}\n"))
	f.Add([]byte("gusset: method/1\ntakes: finish\nshut: yes\npieces: {}\ninstead-of: 3\n"))
	f.Fuzz(func(_ *testing.T, data []byte) { Load(source.File{Path: "methods/x.yaml", Data: data}) })
}

// What a method cannot say is told at its place: pieces of a finish, a tab for a
// join, a strip with a length of its own, an opening shut where there is none.
func TestPiecesThatCannotBe(t *testing.T) {
	head := "gusset: method/1\nvalues: {wide: 58 mm}\n"
	for text, code := range map[string]string{
		"takes: finish\npieces: [{id: a, shape: strip, width: [wide], free: raw}]\n":                                                "method.pieces",
		"takes: join\npieces: [{id: a, shape: tab, width: [wide], length: [wide], free: raw}]\n":                                    "method.shape",
		"takes: join\npieces: [{id: a, shape: strip, width: [wide], length: [wide], free: raw}]\n":                                  "method.tab-length",
		"takes: part\npieces: [{id: a, shape: tab, width: [wide], free: raw}]\n":                                                    "method.tab-length",
		"takes: join\npieces: [{id: a, shape: strip, width: [long], free: raw}]\n":                                                  "method.unknown-value",
		"takes: join\npieces: [{id: a, shape: strip, width: [wide], free: raw}, {id: b, shape: strip, width: [wide], free: raw}]\n": "method.pieces-many",
		"takes: join\nshut: yes\n":    "method.shut",
		"takes: closure\nover: hip\n": "method.over",
	} {
		if _, found := Load(source.File{Path: "methods/one.yaml", Data: []byte(head + text)}); !found.Has(code) {
			t.Errorf("%s%v, want %s", text, found.Codes(), code)
		}
	}
}

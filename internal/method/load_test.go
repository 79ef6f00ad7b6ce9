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
	f.Fuzz(func(_ *testing.T, data []byte) { Load(source.File{Path: "methods/x.yaml", Data: data}) })
}

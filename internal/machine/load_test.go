package machine

import (
	"testing"

	"gusset/internal/source"
)

const sound = `gusset: machine/1
title: the lockstitch at the window
kind: lockstitch
stitches: ["301", "304"]
arm-girth: 28 cm
arm-length: 17 cm
throat: 17 cm
`

func TestLoad(t *testing.T) {
	m, found := Load(source.File{Path: "machines/one.yaml", Data: []byte(sound)})
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
	f.Fuzz(func(_ *testing.T, data []byte) { Load(source.File{Path: "machines/x.yaml", Data: data}) })
}

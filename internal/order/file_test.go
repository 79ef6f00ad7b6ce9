package order

import (
	"testing"

	"gusset/internal/source"
)

const soundFile = `gusset: order/1
title: as I sew them
steps: [pocket, outseam.sew@left, outseam]
`

func TestLoad(t *testing.T) {
	f, found := Load(source.File{Path: "mine.yaml", Data: []byte(soundFile)})
	if len(found) > 0 || f.Title != "as I sew them" || len(f.Steps) != 3 || f.Steps[1].String() != "outseam.sew@left" || f.Steps[1].Place.Line != 3 {
		t.Errorf("%+v %v", f, found.Codes())
	}
	f, found = Load(source.File{Path: "mine.yaml", Data: []byte("gusset: order/1\nsteps: [pocket, the outseam]\n")})
	if !found.Has("order.bad-step") || len(f.Steps) != 1 || f.Title != "mine" {
		t.Errorf("%+v %v", f, found.Codes())
	}
}

// FuzzLoad: no input makes the loader panic.
func FuzzLoad(f *testing.F) {
	f.Add([]byte(soundFile))
	f.Fuzz(func(_ *testing.T, data []byte) { Load(source.File{Path: "x.yaml", Data: data}) })
}

package cloth

import (
	"math"
	"testing"

	"gusset/internal/source"
)

func TestLoad(t *testing.T) {
	c, found := Load(source.File{Path: "cloths/drill.yaml", Data: []byte(`gusset: cloth/1
title: rust drill
width: 148 cm
selvedge: 1 cm
length: 2 m
direction: one-way
thickness: 0.6 mm
weight: 260
washed: no
shrink: {warp: 5 %, weft: 0 %}
frays: yes
`)})
	for _, f := range found {
		if f.Severity().String() == "stop" {
			t.Errorf("%s: %s", f.Place, f.Text())
		}
	}
	// Identity: 2 m less 5 %; 148 cm less two selvedges.
	if math.Abs(c.UsableLength()-1900) > 1e-9 || math.Abs(c.UsableWidth()-1460) > 1e-9 || c.Direction != OneWay {
		t.Errorf("usable %.3f by %.3f mm, %s", c.UsableLength(), c.UsableWidth(), c.Direction)
	}
}

// FuzzLoad: no input makes the loader panic.
func FuzzLoad(f *testing.F) {
	f.Add([]byte("gusset: cloth/1\ntitle: x\nwidth: 148 cm\nlength: 2 m\ndirection: none\n"))
	f.Fuzz(func(_ *testing.T, data []byte) { Load(source.File{Path: "cloths/x.yaml", Data: data}) })
}

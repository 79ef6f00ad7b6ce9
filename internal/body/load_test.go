package body

import (
	"math"
	"testing"

	"gusset/internal/source"
)

func TestLoad(t *testing.T) {
	b, found := Load(source.File{Path: "bodies/wren.yaml", Data: []byte(`gusset: body/1
title: Wren
waist-at: natural
measures:
  waist: [31 1/4 in, 31 1/4 in]
  hip:
  - 98 cm
  - 99,0 cm
  inside-leg: 76 cm
`)})
	for _, f := range found {
		t.Errorf("%s: %s", f.Place, f.Text())
	}
	for m, want := range map[Measure]float64{Waist: 793.75, Hip: 985, InsideLeg: 760} {
		if got, ok := b.MM(m); !ok || math.Abs(got-want) > 1e-9 {
			t.Errorf("%s is %.3f mm, want %.3f", m, got, want)
		}
	}
	if w := b.Measures[Waist].String(); w != "31 1/4 in" {
		t.Errorf("waist reads back as %q", w)
	}
}

// A slip of the unit is refused where it stands.
func TestSlip(t *testing.T) {
	_, found := Load(source.File{Path: "bodies/wren.yaml", Data: []byte("gusset: body/1\ntitle: Wren\nwaist-at: natural\nmeasures:\n  waist: 31 m\n")})
	if found.Stops() == 0 || found[0].Place.Line != 5 {
		t.Errorf("a waist of 31 m gives %v", found)
	}
}

// FuzzLoad: no input makes the loader panic.
func FuzzLoad(f *testing.F) {
	f.Add([]byte("gusset: body/1\ntitle: Wren\nwaist-at: natural\nmeasures: {waist: 31 1/4 in}\n"))
	f.Add([]byte("gusset: body/1\nagainst: men\nwaist-at: midway\nchecked: [hip]\nmeasures: {waist: [31 in, 30 in], hip: [108 cm], thigh: 58 cm, height: 1.7 m}\n"))
	f.Fuzz(func(_ *testing.T, data []byte) { Load(source.File{Path: "bodies/x.yaml", Data: data}) })
}

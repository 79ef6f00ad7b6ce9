package cloth

import (
	"math"
	"strings"
	"testing"

	"gusset/internal/geom"
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

const remnant = `gusset: cloth/1
title: end of serge
width: 100 cm
selvedge: 1 cm
length: 1 m
direction: none
thickness: 0.5 mm
washed: no
shrink: {warp: 10 %, weft: 0 %}
frays: yes
outline:
  - {from-end: 0 cm, from-selvedge: 0 cm}
  - {from-end: 0 cm, from-selvedge: 100 cm}
  - {from-end: 60 cm, from-selvedge: 100 cm}
  - {from-end: 100 cm, from-selvedge: 0 cm}
flaws:
  - {from-end: 50 cm, from-selvedge: 21 cm, size: 2 cm, note: stain}
`

// Washing takes 10 % of every distance along; distances across count from the
// selvedge's inner border. The outline is turned counter-clockwise. Area by
// hand: a trapezium, (900 + 540) / 2 * 1000 mm².
func TestFlawsAndOutline(t *testing.T) {
	c, found := Load(source.File{Path: "cloths/end.yaml", Data: []byte(remnant)})
	if len(found) > 0 {
		t.Fatalf("%s: %s", found[0].Place, found[0].Text())
	}
	if len(c.Flaws) != 1 || c.Flaws[0].Note != "stain" || c.Flaws[0].Place.Line != 17 || !c.Remnant() {
		t.Fatalf("read as %+v", c)
	}
	if lo, hi := c.Box(c.Flaws[0]); lo.Dist(geom.Pt{X: 440, Y: 190}) > 1e-9 || hi.Dist(geom.Pt{X: 460, Y: 210}) > 1e-9 {
		t.Errorf("flaw from %v to %v", lo, hi)
	}
	if a := geom.Area(c.Shape()); math.Abs(a-720e3) > 1e-6 {
		t.Errorf("outline of %v mm²", a)
	}
}

func TestOutlineRefused(t *testing.T) {
	for _, c := range []struct{ old, wrong, code string }{
		{"{from-end: 60 cm, from-selvedge: 100 cm}", "{from-end: 60 cm, from-selvedge: 101 cm}", "cloth.bad-outline"},
		{"{from-end: 60 cm, from-selvedge: 100 cm}", "{from-end: 0 cm, from-selvedge: 50 cm}", "cloth.bad-outline"},
		{"  - {from-end: 60 cm, from-selvedge: 100 cm}\n  - {from-end: 100 cm, from-selvedge: 0 cm}\n", "", "cloth.bad-outline"},
		{"{from-end: 60 cm, from-selvedge: 100 cm}", "[60 cm, 100 cm]", "source.wrong-type"},
		{"size: 2 cm, ", "", "source.missing-key"},
		{"size: 2 cm", "size: 2 m", "source.out-of-range"},
		{"from-selvedge: 21 cm", "from-selvedge: 121 cm", "cloth.flaw-off"},
	} {
		data := strings.Replace(remnant, c.old, c.wrong, 1)
		if _, found := Load(source.File{Path: "cloths/end.yaml", Data: []byte(data)}); !found.Has(c.code) {
			t.Errorf("%s for %s: %v", c.wrong, c.old, found.Codes())
		}
	}
}

// FuzzLoad: no input makes the loader panic.
func FuzzLoad(f *testing.F) {
	f.Add([]byte("gusset: cloth/1\ntitle: x\nwidth: 148 cm\nlength: 2 m\ndirection: none\n"))
	f.Add([]byte(remnant))
	f.Fuzz(func(_ *testing.T, data []byte) { Load(source.File{Path: "cloths/x.yaml", Data: data}) })
}

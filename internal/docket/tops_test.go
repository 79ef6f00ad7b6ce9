package docket

import (
	"testing"

	"gusset/internal/source"
)

const topRecipe = `gusset: docket/1
body: plover
pattern: mooring
view: faced
cloths: {main: deck-stripe}
size: auto
changes:
  - {id: square, shoulder-slope: {by: 1 cm}}
  - {id: narrow, shoulder-width: {by: -8 mm, seam: shoulder, armhole: armhole}}
  - {id: stoop, round-back: {by: 1/2 in}}
  - {id: arms, upper-arm: {by: 3 cm, at: upper-arm}}
  - {id: bust, full-bust: {by: 2 cm, dart: 7 cm}}
  - {id: deep, armhole-depth: {by: 1 cm}}
  - {id: pen, add-pocket: {piece: pen-pocket, from: "front:edge", in: 9 cm, level: bust, below: -5 mm, wide: 6 cm, deep: 12 cm, hand: right}}
  - {id: hem-facing, face: {finish: hem, width: 5 cm}}
  - {id: lap, overlap: {by: 5 mm}}
  - {id: wash, shrinkage: {warp: 3 %, weft: 1 %}}
`

func TestLoadTops(t *testing.T) {
	d, found := Load(source.File{Path: "dockets/top.yaml", Data: []byte(topRecipe)})
	for _, f := range found {
		t.Errorf("%s: %s", f.Place, f.Text())
	}
	if len(d.Changes) != len(topKinds) {
		t.Fatalf("%d changes read, want %d", len(d.Changes), len(topKinds))
	}
	for i, c := range d.Changes {
		if c.Kind != topKinds[i] {
			t.Errorf("%s read as %s", topKinds[i], c.Kind)
		}
	}
	if c := d.Changes[2]; c.At != "blade" || c.Edge != "armhole" || c.By.MM() != 12.7 {
		t.Errorf("round-back read as %+v", c)
	}
	if c := d.Changes[9]; c.Warp != 0.03 || c.Weft != 0.01 || c.Cloth != "main" {
		t.Errorf("shrinkage read as %+v", c)
	}
}

package docket

import (
	"math"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/source"
)

const good = `gusset: docket/1
title: Quay trousers, long view, for Wren
body: wren
pattern: quay
view: long
cloths: {main: rust-drill, pocketing: calico}
size: {waist: auto, hip: "16"}
changes:
  - {id: legs, lengthen: {at: leg, by: 2.5 cm}}
  - {id: narrow, hem-girth: {edge: hem, to: 44 cm, from: knee}}
  - {id: up, move-hem: {edge: hem, by: -1 in}}
table: 1.8 m
fold: auto
roll: 90 cm
unit: cm
`

func TestLoad(t *testing.T) {
	d, found := Load(source.File{Path: "dockets/quay-long.yaml", Data: []byte(good)})
	for _, f := range found {
		t.Errorf("%s: %s", f.Place, f.Text())
	}
	if d.Name != "quay-long" || d.Body != "wren" || d.View != "long" || d.Cloths[cloth.Main] != "rust-drill" {
		t.Errorf("read as %+v", d)
	}
	if len(d.Changes) != 3 || d.Changes[0].Kind != Lengthen || d.Changes[1].Kind != HemGirth || d.Changes[2].Kind != MoveHem {
		t.Fatalf("changes read as %+v", d.Changes)
	}
	if by := d.Changes[2].By; math.Abs(by.MM()+25.4) > 1e-9 || by.String() != "-1 in" {
		t.Errorf("-1 in read as %s, %.3f mm", by, by.MM())
	}
}

// FuzzLoad: no input makes the loader panic.
func FuzzLoad(f *testing.F) {
	f.Add([]byte(good))
	f.Add([]byte(topRecipe))
	f.Add([]byte(dartRecipe))
	f.Add([]byte(good + "fittings:\n  first: {title: first, method: basted-fitting, joins: [outseam]}\n  toile: {method: toile}\n"))
	f.Add([]byte("gusset: docket/1\nfittings: [a]\n"))
	f.Add([]byte("gusset: docket/1\nchanges:\n  - {id: s, slant-pocket: {side: \"front:outseam\", in: 6 cm, down: 16 cm, wide: 14 cm, deep: 28 cm, bag: main, instead-of: p}}\n"))
	f.Add([]byte("gusset: docket/1\nchanges: [{id: a, lengthen: }]\n"))
	f.Fuzz(func(_ *testing.T, data []byte) { Load(source.File{Path: "dockets/x.yaml", Data: data}) })
}

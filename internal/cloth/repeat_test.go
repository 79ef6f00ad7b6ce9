package cloth

import (
	"math"
	"strings"
	"testing"

	"gusset/internal/source"
)

const plaid = `gusset: cloth/1
title: lamp plaid
width: 150 cm
selvedge: 1 cm
length: 3 m
direction: two-way
thickness: 0.7 mm
washed: yes
repeat: {along: 12 cm, across: 8 cm, even: yes, bar: 3 cm}
`

func plaidWith(t *testing.T, old, new string) Cloth {
	t.Helper()
	if !strings.Contains(plaid, old) {
		t.Fatalf("no %q", old)
	}
	c, found := Load(source.File{Path: "cloths/x.yaml", Data: []byte(strings.Replace(plaid, old, new, 1))})
	if len(found) > 0 {
		t.Fatalf("%s: %s", found[0].Code(), found[0].Text())
	}
	return c
}

// By hand: bars stand at 3, 11, 19, ... 75 cm from the edge, so the middle of
// the cloth is one, 74 cm from the selvedge's inner border; 4 cm farther lies
// the middle of a space.
func TestFoldsAt(t *testing.T) {
	c := plaidWith(t, "title", "title")
	if a, b := c.Periods(); a != 120 || b != 80 || !c.Centred() || c.TopsOneWay() || c.Bar() != 20 {
		t.Errorf("%v by %v, bar at %v", a, b, c.Bar())
	}
	for y, want := range map[float64]bool{740: true, 780: true, 741: true, 741.1: false, 760: false, 20: true} {
		if _, ok := c.FoldsAt(y); ok != want {
			t.Errorf("folded at %v: %v", y, ok)
		}
	}
	if by, _ := c.FoldsAt(755); by != 15 {
		t.Errorf("755 lies %v from a line of symmetry", by)
	}
}

// Uneven plaids take a nap layout on a single layer (Goodheart-Willcox's sewing
// textbook; the test for evenness is that of the extension bulletin PNW 187): an
// uneven repeat is laid one way and, where its bars run along the cloth, never
// folded lengthwise. A stripe across the cloth has
// no left and right, so a lengthwise fold does it no harm.
func TestRepeatRules(t *testing.T) {
	for _, c := range []struct {
		repeat         string
		oneWay, folded bool
	}{
		{"{along: 12 cm, across: 8 cm, even: yes, bar: 3 cm}", false, true},
		{"{along: 12 cm, across: 8 cm, even: no, bar: 3 cm}", true, false},
		{"{along: 12 cm, across: 8 cm, even: yes}", true, false},
		{"{along: 12 cm, even: yes}", false, true},
		{"{along: 12 cm, even: no}", true, true},
		{"{across: 8 cm, even: no}", true, false},
	} {
		got := plaidWith(t, "{along: 12 cm, across: 8 cm, even: yes, bar: 3 cm}", c.repeat)
		if _, ok := got.FoldsAt(740); ok != c.folded || got.TopsOneWay() != c.oneWay {
			t.Errorf("%s: folded %v, one way %v", c.repeat, ok, got.TopsOneWay())
		}
	}
	plain := Cloth{Direction: OneWay}
	if _, ok := plain.FoldsAt(1); !ok || !plain.TopsOneWay() || plain.Repeat.Exists() {
		t.Error("plain cloth")
	}
}

// Washing takes from the repeat what it takes from the cloth: 5 % of 120 mm and
// 2 % of 80 mm; the bar lies 98 % of 20 mm from the selvedge.
func TestRepeatShrinks(t *testing.T) {
	c := plaidWith(t, "washed: yes", "washed: no\nshrink: {warp: 5 %, weft: 2 %}")
	if a, b := c.Periods(); math.Abs(a-114) > 1e-9 || math.Abs(b-78.4) > 1e-9 || math.Abs(c.Bar()-19.6) > 1e-9 {
		t.Errorf("%v by %v, bar at %v", a, b, c.Bar())
	}
}

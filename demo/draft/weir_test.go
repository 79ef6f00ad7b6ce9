package main

import (
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

func weirs(t *testing.T) []draft {
	t.Helper()
	d, err := draftWeir()
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// TestWeirChartAgrees compares the chart printed in pattern.yaml with the size
// table that the draft is drawn from.
func TestWeirChartAgrees(t *testing.T) {
	text, err := os.ReadFile("../patterns/weir/pattern.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for name, values := range map[string][]float64{"waist": weirWaist, "hip": weirHip} {
		var words []string
		for _, v := range values {
			words = append(words, strconv.FormatFloat(v, 'f', -1, 64))
		}
		row := "\n  " + name + ": [" + strings.Join(words, ", ") + "]\n"
		if !strings.Contains(string(text), row) {
			t.Errorf("pattern.yaml has no row%s", row)
		}
	}
}

// TestWeirSeamsFit measures what is sewn together: the legs of every dart, the
// sides, the facing to the waist with its darts closed; and the waist and hip
// against the chart and the stated ease.
func TestWeirSeamsFit(t *testing.T) {
	joins := []struct{ a, b string }{
		{"front:dart-centre", "front:dart-side"},
		{"back:inner-dart-centre", "back:inner-dart-side"},
		{"back:outer-dart-centre", "back:outer-dart-side"},
		{"front:side", "back:side"},
		{"front-facing:side", "back-facing:side"},
		{"front-facing:waist", "front:waist-side front:waist-centre"},
		{"back-facing:waist", "back:waist-side back:waist-middle back:waist-centre"},
	}
	for i, d := range weirs(t) {
		chain := func(text string) float64 {
			var sum float64
			for _, ref := range strings.Fields(text) {
				name, e, _ := strings.Cut(ref, ":")
				sum += measured(edgeOf(t, d, name, e))
			}
			return sum
		}
		for _, j := range joins {
			if off := chain(j.a) - chain(j.b); math.Abs(off) > 0.02 {
				t.Errorf("size %s: %s is %.3f mm longer than %s", weirLabels[i], j.a, off, j.b)
			}
		}
		waist := 2 * (chain("front-facing:waist") + chain("back-facing:waist"))
		if want := weirWaist[i]*10 + weirWaistEase; math.Abs(waist-want) > 0.02 {
			t.Errorf("size %s: the waist measures %.2f mm, want %.2f", weirLabels[i], waist, want)
		}
		hip := 2 * (wide(d["front"]) + wide(d["back"]))
		if want := weirHip[i]*10 + weirHipEase; math.Abs(hip-want) > 0.02 {
			t.Errorf("size %s: the hip measures %.2f mm, want %.2f", weirLabels[i], hip, want)
		}
		if off := fromHem(edgeOf(t, d, "front", "side"), notchAt(t, d, "front", "side", "hip")) - fromHem(edgeOf(t, d, "back", "side"), notchAt(t, d, "back", "side", "hip")); math.Abs(off) > 0.02 {
			t.Errorf("size %s: the hip notches of the side lie %.3f mm apart", weirLabels[i], off)
		}
	}
}

func notchAt(t *testing.T, d draft, name, edge, notch string) float64 {
	t.Helper()
	m, ok := d[name].Notch(edge, notch)
	if !ok {
		t.Fatalf("%s:%s has no notch %s", name, edge, notch)
	}
	return m.At
}

// TestWeirRunsOn checks that the edges run on across the darts closed and across
// the sides sewn: the angles on both sides of each make 180 degrees, and the
// centre is square (common practice: laid together, the edge is checked across
// the seam).
func TestWeirRunsOn(t *testing.T) {
	for i, d := range weirs(t) {
		near := func(what string, got, want float64) {
			t.Helper()
			if math.Abs(got-want) > 0.1 {
				t.Errorf("size %s: %s is %.2f degrees, want %.0f", weirLabels[i], what, got, want)
			}
		}
		near("waist across the front dart", corner(t, d, "front", "waist-side", "dart-side")+corner(t, d, "front", "dart-centre", "waist-centre"), 180)
		// The back is drawn the other way round: centre first.
		near("waist across the inner dart", corner(t, d, "back", "waist-centre", "inner-dart-centre")+corner(t, d, "back", "inner-dart-side", "waist-middle"), 180)
		near("waist across the outer dart", corner(t, d, "back", "waist-middle", "outer-dart-centre")+corner(t, d, "back", "outer-dart-side", "waist-side"), 180)
		near("waist across the side", corner(t, d, "front", "side", "waist-side")+corner(t, d, "back", "waist-side", "side"), 180)
		near("hem across the side", corner(t, d, "front", "hem", "side")+corner(t, d, "back", "side", "hem"), 180)
		near("waist at the centre front", corner(t, d, "front", "waist-centre", "centre"), 90)
		near("waist at the centre back", corner(t, d, "back", "centre", "waist-centre"), 90)
	}
}

// TestWeirHipHasNoHollow checks that the side bends one way only from hip to
// waist, and that darts end above the hip.
func TestWeirHipHasNoHollow(t *testing.T) {
	for i, d := range weirs(t) {
		c := edgeOf(t, d, "front", "side")
		for at := notchAt(t, d, "front", "side", "hip"); at < c.Length()-1; at += 2 {
			if c.TangentAt(at).Cross(c.TangentAt(at+1)) < -1e-9 {
				t.Errorf("size %s: the side is hollow", weirLabels[i])
				break
			}
		}
		for _, name := range []string{"front", "back"} {
			for _, e := range d[name].Edges {
				if strings.Contains(e.Name, "dart") && math.Min(e.Curve.Start().Y, e.Curve.End().Y) < 30 {
					t.Errorf("size %s: %s of the %s ends less than 30 mm above the hip", weirLabels[i], e.Name, name)
				}
			}
		}
	}
}

// TestWeirGrows checks that every size is wider and longer than the one before,
// and that the intake of the darts stays within what can be pressed flat: 10 to
// 40 mm (common practice).
func TestWeirGrows(t *testing.T) {
	all := weirs(t)
	for i, d := range all {
		for _, name := range []string{"front", "back"} {
			for k, e := range d[name].Edges {
				next := d[name].Edges[(k+1)%len(d[name].Edges)]
				if !strings.Contains(e.Name, "dart") || !strings.Contains(next.Name, "dart") {
					continue
				}
				if intake := e.Curve.Start().Dist(next.Curve.End()); intake < 10 || intake > 40 {
					t.Errorf("size %s: %s of the %s takes in %.1f mm", weirLabels[i], e.Name, name, intake)
				}
			}
			if i > 0 && geom.Area(d[name].Outline(0.1)) <= geom.Area(all[i-1][name].Outline(0.1)) {
				t.Errorf("%s: size %s is not larger than %s", name, weirLabels[i], weirLabels[i-1])
			}
		}
	}
}

// wide is the width of a piece at the hip.
func wide(p piece.Piece) float64 {
	lo, hi := chord(p, 0)
	return hi - lo
}

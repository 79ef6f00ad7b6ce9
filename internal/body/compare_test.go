package body

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"gusset/internal/unit"
)

// anyBody draws a body with some measures, each within its range.
func anyBody(t *rapid.T) Body {
	b := Body{
		WaistAt: rapid.SampledFrom(WaistKinds).Draw(t, "waist-at"), Against: rapid.SampledFrom(AgainstWords).Draw(t, "against"),
		Measures: map[Measure]unit.Length{},
	}
	for _, m := range Measures() {
		if rapid.Bool().Draw(t, string(m)) {
			r := Ranges[m]
			b.Measures[m] = unit.MM(rapid.Float64Range(r.Low, r.High).Draw(t, string(m)+" mm"))
		}
	}
	return b
}

// Whatever is measured, a comparison has one row for each measure, its numbers
// are numbers, only what was measured is unlikely and only what was not is
// estimated; and what was checked is believed.
func TestCompareHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := anyBody(t)
		c := Compare(b)
		if len(c.Rows) != len(Measures()) {
			t.Fatalf("%d rows", len(c.Rows))
		}
		for _, r := range c.Rows {
			if math.IsNaN(r.Usual+r.Within+r.Off+r.Bound) || math.IsInf(r.Usual+r.Within+r.Off+r.Bound, 0) || r.Within < 0 {
				t.Fatalf("%+v", r)
			}
			told := r.Verdict == Goes || r.Verdict == Unlikely || r.Verdict == Uncompared
			if r.Given != told {
				t.Fatalf("measured %v, yet %s", r.Given, r.Verdict)
			}
			if r.Verdict == Unlikely {
				b.Checked = append(b.Checked, r.Measure)
			}
		}
		for _, r := range Compare(b).Rows {
			if r.Verdict == Unlikely && slices.Contains(b.Checked, r.Measure) {
				t.Fatalf("%s was checked, and is told again", r.Measure)
			}
		}
	})
}

// A body at the means goes with itself, and its estimates are the means.
func TestMeanBody(t *testing.T) {
	for _, g := range groups {
		b := Body{WaistAt: "natural", Against: g.name, Measures: map[Measure]unit.Length{}}
		at := map[Measure]float64{}
		for _, s := range survey {
			at[s.measure] = g.mean[g.index[s.key]] + s.natural.mean
			if s.measure != Thigh {
				b.Measures[s.measure] = unit.MM(at[s.measure])
			}
		}
		for _, r := range Compare(b).Rows {
			if s, known := surveyOf(r.Measure); known && (math.Abs(r.Usual-at[s.measure]) > 1e-6 || math.Abs(r.Off) > 1e-6) {
				t.Errorf("%s, %s: %+v, the mean is %.1f", g.name, r.Measure, r, at[s.measure])
			}
		}
		if r := Compare(b).Row(Thigh); r.Verdict != Estimated {
			t.Errorf("%s: thigh %+v", g.name, r)
		}
	}
}

func BenchmarkCompare(b *testing.B) {
	who := Body{WaistAt: "natural", Against: Both, Measures: map[Measure]unit.Length{}}
	for _, s := range survey {
		who.Measures[s.measure] = unit.MM(groups[0].mean[groups[0].index[s.key]])
	}
	for b.Loop() {
		Compare(who)
	}
}

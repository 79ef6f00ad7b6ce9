package fit

import (
	"math"
	"testing"

	"gusset/internal/body"
	"gusset/internal/pattern"
	"gusset/internal/unit"
)

// chartTable is a published table of body measures, in inches.
type chartTable struct {
	source string
	sizes  []string
	choose body.Measure
	rows   map[body.Measure][]float64
}

// The misses' and miss petite tables are those printed envelopes use, as given
// at sewingscholar.blogspot.com, 2011-02; the third is ASTM D5585-11e1, rows as
// read at astm.org (hips were not to be had).
var publishedTables = []chartTable{
	{
		"US pattern industry, misses", []string{"6", "8", "10", "12", "14", "16", "18", "20"}, body.Hip,
		map[body.Measure][]float64{
			body.Bust:      {30.5, 31.5, 32.5, 34, 36, 38, 40, 42},
			body.Waist:     {23, 24, 25, 26.5, 28, 30, 32, 34},
			body.Hip:       {32.5, 33.5, 34.5, 36, 38, 40, 42, 44},
			body.BackWaist: {15.5, 15.75, 16, 16.25, 16.5, 16.75, 17, 17.25},
		},
	},
	{
		"US pattern industry, miss petite", []string{"6", "8", "10", "12", "14", "16"}, body.Hip,
		map[body.Measure][]float64{
			body.Bust:      {30.5, 31.5, 32.5, 34, 36, 38},
			body.Waist:     {23.5, 24.5, 25.5, 27, 28.5, 30.5},
			body.Hip:       {32.5, 33.5, 34.5, 36, 38, 40},
			body.BackWaist: {14.5, 14.75, 15, 15.25, 15.5, 15.75},
		},
	},
	{
		"ASTM D5585-11e1, misses", []string{"00", "0", "2", "4", "6", "8", "10", "12", "14", "16", "18", "20"}, body.Bust,
		map[body.Measure][]float64{
			body.Bust:     {31.125, 31.75, 33, 34.125, 35.25, 36.25, 37.25, 38.75, 40.375, 42.125, 44, 46},
			body.HighBust: {31.75, 32.25, 33.25, 34.125, 35, 35.875, 36.75, 38, 39.25, 40.625, 42.25, 43.875}, // upper chest
			body.Waist:    {25.375, 26.125, 26.875, 27.625, 28.5, 29.5, 30.5, 32.25, 34, 36, 38.25, 40.5},     // straight
		},
	},
}

func (c chartTable) pattern() pattern.Pattern {
	p := pattern.Pattern{Sizes: c.sizes, Choose: c.choose, Chart: pattern.Chart{Unit: unit.Inch, Rows: map[body.Measure][]unit.Length{}}}
	for _, m := range sortedKeys(c.rows) {
		p.Chart.Rows[m] = inches(c.rows[m])
		p.Zones = append(p.Zones, pattern.Zone{Name: string(m), Measure: m})
	}
	return p
}

func (c chartTable) body(i int, part float64) body.Body {
	in := map[body.Measure]float64{}
	for m, row := range c.rows {
		j := min(i+1, len(row)-1)
		in[m] = row[i] + part*(row[j]-row[i])
	}
	return testBody(in)
}

// Every row's own body takes exactly that size in every zone.
func TestTableBodiesTakeTheirSize(t *testing.T) {
	for _, c := range publishedTables {
		for i, size := range c.sizes {
			r, fs := choose(c.pattern(), c.body(i, 0), Choice{})
			if len(fs) > 0 {
				t.Errorf("%s, size %s: %v", c.source, size, fs.Codes())
			}
			for _, z := range r.zones {
				if z.At != float64(i) || z.Label != size || z.Nearest != size || z.From != "chart" && z.From != "high-bust" {
					t.Errorf("%s, size %s: %+v", c.source, size, z)
				}
			}
		}
	}
}

// A body between two rows takes a size between, near where a straight line
// between the rows would put it, and exactly there where the table rises evenly.
func TestBodiesBetweenRows(t *testing.T) {
	for _, c := range publishedTables {
		for i := range c.sizes[1:] {
			for _, part := range []float64{0.1, 0.5, 0.8} {
				r, _ := choose(c.pattern(), c.body(i, part), Choice{})
				for _, z := range r.zones {
					if math.Abs(z.At-float64(i)-part) > 0.11 {
						t.Errorf("%s: %s at %.2f between %s and %s: %.3f", c.source, z.Zone, part, c.sizes[i], c.sizes[i+1], z.At-float64(i))
					}
				}
			}
		}
	}
	misses := publishedTables[0]
	r, _ := choose(misses.pattern(), testBody(map[body.Measure]float64{body.Hip: 41, body.Waist: 30.6, body.Bust: 39, body.BackWaist: 16.9}), Choice{})
	want := map[string]string{"hip": "17", "waist": "16.6", "bust": "17", "back-waist-length": "17.2"}
	for _, z := range r.zones {
		if z.Label != want[z.Zone] {
			t.Errorf("%s is size %s, want %s", z.Zone, z.Label, want[z.Zone])
		}
	}
}

// The nearest standard row is chosen on the primary dimension (EN 13402-3); of
// two as near the smaller, as for the small-boned (Texas extension service).
func TestNearestRow(t *testing.T) {
	for _, c := range []struct {
		hip  float64
		want string
	}{{36.9, "12"}, {37, "12"}, {37.1, "14"}, {33, "6"}, {34.1, "10"}} {
		r, _ := choose(publishedTables[0].pattern(), testBody(map[body.Measure]float64{body.Hip: c.hip}), Choice{})
		if got := publishedTables[0].sizes[r.nearest]; got != c.want {
			t.Errorf("hip %g in: nearest %s, want %s", c.hip, got, c.want)
		}
	}
}

// Skirts and trousers are chosen by the hip (Texas extension service): zones
// without a measure of their own follow it, whatever the waist says.
func TestHipLeads(t *testing.T) {
	p := testPattern(t)
	b := testBody(map[body.Measure]float64{body.Hip: 38, body.Waist: 32})
	r, fs := choose(p, b, Choice{})
	want := []ZoneSize{
		{"waist", 5, "18", "18", "chart"}, {"hip", 3, "14", "14", "chart"}, {"thigh", 3, "14", "14", "hip"},
		{"knee", 3, "14", "14", "hip"}, {"hem", 3, "14", "14", "hip"},
	}
	for i, z := range r.zones {
		if z != want[i] {
			t.Errorf("%+v, want %+v", z, want[i])
		}
	}
	if !fs.Has("fit.measure-missing") || fs.Stops() > 0 {
		t.Errorf("the thigh has a row and was not measured: %v", fs.Codes())
	}
	b.Measures[body.Thigh] = unit.Of(23.75, unit.Inch)
	if r, fs := choose(p, b, Choice{}); r.at["thigh"] != 4 || fs.Has("fit.measure-missing") {
		t.Errorf("thigh 23.75 in: size %g, %v", r.at["thigh"], fs.Codes())
	}
}

func TestChoiceFindings(t *testing.T) {
	full := map[body.Measure]float64{body.Hip: 38, body.Waist: 28, body.Thigh: 22.5}
	with := func(m body.Measure, v float64) map[body.Measure]float64 {
		out := map[body.Measure]float64{}
		for k, w := range full {
			out[k] = w
		}
		out[m] = v
		return out
	}
	midway := testBody(full)
	midway.WaistAt = "midway"
	for _, c := range []struct {
		name  string
		body  body.Body
		c     Choice
		code  string
		stops int
	}{
		{"as the chart", testBody(full), Choice{}, "", 0},
		{"hip too large", testBody(with(body.Hip, 46)), Choice{}, "fit.outside-range", 1},
		{"waist too small", testBody(with(body.Waist, 23)), Choice{}, "fit.outside-range", 1},
		{"within the tape's reading", testBody(with(body.Hip, 44.05)), Choice{}, "fit.size-jump", 0},
		{"no hip", testBody(nil), Choice{}, "fit.measure-missing", 1},
		{"no hip, size written", testBody(nil), Choice{All: "14"}, "", 0},
		{"large hip, size written", testBody(with(body.Hip, 46)), Choice{Zones: map[string]string{"hip": "20"}}, "fit.size-jump", 0},
		{"size off the list", testBody(full), Choice{All: "22"}, "fit.outside-range", 5},
		{"no size", testBody(full), Choice{Zones: map[string]string{"knee": "large"}}, "fit.size-unknown", 1},
		{"no zone", testBody(full), Choice{Zones: map[string]string{"sleeve": "14"}}, "fit.zone-unknown", 1},
		{"midway", midway, Choice{}, "fit.waist-midway", 0},
		{"jump", testBody(with(body.Waist, 34)), Choice{}, "fit.size-jump", 0},
	} {
		_, fs := choose(testPattern(t), c.body, c.c)
		if c.code == "" && len(fs) > 0 && c.name != "no hip, size written" || c.code != "" && !fs.Has(c.code) || fs.Stops() != c.stops {
			t.Errorf("%s: %v, want %q and %d stops", c.name, fs.Codes(), c.code, c.stops)
		}
	}
	_, fs := choose(testPattern(t), testBody(with(body.Hip, 46)), Choice{})
	if got, want := fs[0].Text(), "hip 46 in is 2 in more than the chart's 44 in; the nearest size is 20"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestPosition(t *testing.T) {
	numbers := []string{"8", "10", "12", "14", "16"}
	letters := []string{"S", "M", "L"}
	for _, c := range []struct {
		text   string
		labels []string
		at     float64
		ok     bool
		label  string
	}{
		{"14", numbers, 3, true, "14"}, {"14.6", numbers, 3.3, true, "14.6"}, {"8.5", numbers, 0.25, true, "8.5"},
		{"14,6", numbers, 3.3, true, "14.6"}, {"6", numbers, 0, false, ""}, {"17", numbers, 0, false, ""},
		{"M", letters, 1, true, "M"}, {"1.5", letters, 0, false, ""}, {"NaN", numbers, 0, false, ""},
	} {
		at, _, _, ok := position(c.text, c.labels)
		if ok != c.ok || ok && math.Abs(at-c.at) > 1e-12 {
			t.Errorf("%s of %v is at %g, %v; want %g, %v", c.text, c.labels, at, ok, c.at, c.ok)
		}
		if ok && label(at, c.labels) != c.label {
			t.Errorf("%g of %v is labelled %s", at, c.labels, label(at, c.labels))
		}
	}
	if got := label(0.3, letters); got != "S+0.3" {
		t.Errorf("0.3 of %v is labelled %s", letters, got)
	}
}

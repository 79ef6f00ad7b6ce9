package fit

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"gusset/internal/body"
	"gusset/internal/finding"
	"gusset/internal/pattern"
	"gusset/internal/unit"
)

// moreTables are published tables besides those of TestTableBodiesTakeTheirSize.
// The women's is of the US pattern industry as given at
// sewingscholar.blogspot.com, 2011-02 (whose first label is a slip of the pen
// for 38); ASTM D5585-95 and EN 13402-3 are from memory.
var moreTables = []struct {
	chartTable
	unit unit.Unit
}{
	{chartTable{
		"US pattern industry, women", []string{"38", "40", "42", "44", "46", "48", "50"}, body.Hip,
		map[body.Measure][]float64{
			body.Bust:      {42, 44, 46, 48, 50, 52, 54},
			body.Waist:     {35, 37, 39, 41.5, 44, 46.5, 49},
			body.Hip:       {44, 46, 48, 50, 52, 54, 56},
			body.BackWaist: {17.25, 17.375, 17.5, 17.625, 17.75, 17.875, 18},
		},
	}, unit.Inch},
	{chartTable{
		"ASTM D5585-95", []string{"2", "4", "6", "8", "10", "12", "14", "16", "18", "20"}, body.Hip,
		map[body.Measure][]float64{
			body.Bust:  {32, 33, 34, 35, 36, 37.5, 39, 40.5, 42.5, 44.5},
			body.Waist: {24, 25, 26, 27, 28, 29.5, 31, 32.5, 34.5, 36.5},
			body.Hip:   {34.5, 35.5, 36.5, 37.5, 38.5, 40, 41.5, 43, 45, 47},
		},
	}, unit.Inch},
	{chartTable{
		"EN 13402-3, women by bust", labels(76, 80, 84, 88, 92, 96, 100, 104, 110, 116, 122, 128, 134, 140, 146, 152), body.Hip,
		map[body.Measure][]float64{
			body.Bust:  {76, 80, 84, 88, 92, 96, 100, 104, 110, 116, 122, 128, 134, 140, 146, 152},
			body.Waist: {60, 64, 68, 72, 76, 80, 84, 88, 94, 100, 106, 112, 118, 124, 130, 136},
			body.Hip:   {84, 88, 92, 96, 100, 104, 108, 112, 117, 122, 127, 132, 137, 142, 147, 152},
		},
	}, unit.Centimetre},
	{chartTable{
		"EN 13402-3, men by chest", labels(84, 88, 92, 96, 100, 104, 108, 112, 116, 120, 126, 132, 138, 144), body.Waist,
		map[body.Measure][]float64{
			body.Bust:  {84, 88, 92, 96, 100, 104, 108, 112, 116, 120, 126, 132, 138, 144},
			body.Waist: {72, 76, 80, 84, 88, 92, 96, 100, 104, 108, 114, 120, 126, 132},
		},
	}, unit.Centimetre},
}

func labels(values ...int) []string {
	var out []string
	for _, v := range values {
		out = append(out, fmt.Sprint(v))
	}
	return out
}

// Every row's own body takes that size in every zone, whatever the unit of the
// chart and of the body.
func TestMoreTables(t *testing.T) {
	for _, c := range moreTables {
		p := c.pattern()
		p.Chart.Unit = c.unit
		for m, row := range c.rows {
			for i, v := range row {
				p.Chart.Rows[m][i] = unit.Of(v, c.unit)
			}
		}
		for i, size := range c.sizes {
			for _, in := range []unit.Unit{unit.Inch, unit.Centimetre, unit.Millimetre} {
				b := testBody(nil)
				for m, row := range c.rows {
					b.Measures[m] = unit.Of(row[i], c.unit).In(in)
				}
				r, found := choose(p, b, Choice{})
				if len(found) > 0 || len(r.zones) != len(c.rows) {
					t.Errorf("%s, size %s: %v", c.source, size, found.Codes())
				}
				for _, z := range r.zones {
					if math.Abs(z.At-float64(i)) > 1e-9 || z.Nearest != size {
						t.Errorf("%s, size %s in %s: %+v", c.source, size, in, z)
					}
				}
			}
		}
	}
}

// Letter codes of EN 13402-3 (from memory) by bust and by chest, in cm: each
// spans from one value to the next, so a body in the middle of a span takes it.
func TestLetterCodes(t *testing.T) {
	for _, c := range []struct {
		codes []string
		edges []float64
	}{
		{[]string{"XXS", "XS", "S", "M", "L", "XL", "XXL", "3XL"}, []float64{66, 74, 82, 90, 98, 107, 119, 131, 143}},
		{[]string{"XXS", "XS", "S", "M", "L", "XL", "XXL", "3XL"}, []float64{70, 78, 86, 94, 102, 110, 118, 129, 141}},
	} {
		var middle []unit.Length
		for i := range c.codes {
			middle = append(middle, unit.Of((c.edges[i]+c.edges[i+1])/2, unit.Centimetre))
		}
		p := pattern.Pattern{Sizes: c.codes, Choose: body.Bust, Zones: []pattern.Zone{{Name: "bust", Measure: body.Bust}},
			Chart: pattern.Chart{Unit: unit.Centimetre, Rows: map[body.Measure][]unit.Length{body.Bust: middle}}}
		for i, code := range c.codes {
			for _, cm := range []float64{c.edges[i] + 1, (c.edges[i] + c.edges[i+1]) / 2, c.edges[i+1] - 1} {
				if cm < middle[0].MM()/10 || cm > middle[len(middle)-1].MM()/10 {
					continue // outside the chart
				}
				b := testBody(nil)
				b.Measures[body.Bust] = unit.Of(cm, unit.Centimetre)
				r, found := choose(p, b, Choice{})
				if found.Stops() > 0 || r.zones[0].Nearest != code {
					t.Errorf("%g cm is %+v, want %s (%v)", cm, r.zones, code, found.Codes())
				}
			}
		}
	}
}

// topChart is a top chosen by the bust: the US pattern industry's misses.
func topChart() pattern.Pattern {
	c := publishedTables[0]
	c.choose = body.Bust
	return c.pattern()
}

// Tops are chosen by the bust, and by the high bust where the full bust is 2 in
// or more over it (Texas agricultural extension service): the high bust is then
// read in the bust's row.
func TestHighBust(t *testing.T) {
	for _, c := range []struct {
		bust, high float64
		size, from string
		code       string
	}{
		{36, 35, "14", "chart", ""},
		{36, 34.1, "14", "chart", ""},                   // 1.9 in over
		{36, 34, "12", "high-bust", "fit.high-bust"},    // 2 in over
		{40, 36, "14", "high-bust", "fit.high-bust"},    // 4 in over
		{46, 38, "16", "high-bust", "fit.high-bust"},    // the full bust is beyond the chart, the high is not
		{36, 0, "14", "chart", "fit.no-high-bust"},      // not measured
		{46, 43, "", "", "fit.outside-range"},           // the high bust is beyond it too
		{34, 34.5, "12", "chart", ""},                   // the high bust is the larger
		{37, 36, "15", "chart", ""},                     // between sizes
		{40, 37, "15", "high-bust", "fit.high-bust"},    // between sizes by the high bust
		{41.99, 40, "18", "high-bust", "fit.high-bust"}, // as near 2 in as a tape reads
		{30.5, 28.5, "", "", "fit.outside-range"},       // too small by the high bust
		{32.5, 30.5, "6", "high-bust", "fit.high-bust"}, // the smallest
		{42, 41, "20", "chart", ""},                     // the largest
		{42.05, 41, "20", "chart", ""},                  // within the tape's reading of it
	} {
		b := testBody(map[body.Measure]float64{body.Bust: c.bust, body.Waist: 28, body.Hip: 38, body.BackWaist: 16.5})
		if c.high > 0 {
			b.Measures[body.HighBust] = unit.Of(c.high, unit.Inch)
		}
		r, found := choose(topChart(), b, Choice{})
		found = found.Filter(func(f finding.Finding) bool { return f.Code() != "fit.size-jump" })
		if got := strings.Join(found.Codes(), ","); got != c.code {
			t.Errorf("bust %g over %g: %s, want %s", c.bust, c.high, got, c.code)
		}
		for _, z := range r.zones {
			if z.Zone == "bust" && (z.Label != c.size || z.From != c.from) {
				t.Errorf("bust %g over %g: %+v, want size %s by %s", c.bust, c.high, z, c.size, c.from)
			}
		}
	}
	// Trousers are not chosen by it.
	b := testBody(map[body.Measure]float64{body.Hip: 38, body.Bust: 40, body.HighBust: 36})
	if _, found := choose(publishedTables[0].pattern(), b, Choice{}); found.Has("fit.high-bust") {
		t.Error("trousers chosen by the high bust")
	}
	// How much the bust is to be enlarged: 40 in on a size drawn for 36.
	_, found := choose(topChart(), testBody(map[body.Measure]float64{body.Bust: 40, body.HighBust: 36}), Choice{})
	if f := found[0]; !strings.Contains(f.Mend(), "it is 4 in more than this size is drawn for") {
		t.Errorf("says %q", f.Mend())
	}
}

// Where the paper prints finished measures only, the size is the one whose
// finished hip leaves the least ease of 2 in (CWU costume textbook, ch. 16), and
// it is said.
func TestByFinished(t *testing.T) {
	p := publishedTables[0].pattern()
	p.Chart.Finished = map[body.Measure][]unit.Length{}
	for _, in := range publishedTables[0].rows[body.Hip] {
		p.Chart.Finished[body.Hip] = append(p.Chart.Finished[body.Hip], unit.Of(in+2.75, unit.Inch))
	}
	delete(p.Chart.Rows, body.Hip)
	r, found := choose(p, testBody(map[body.Measure]float64{body.Hip: 38.75, body.Waist: 28}), Choice{})
	if !found.Has("fit.by-finished") || found.Stops() > 0 {
		t.Errorf("%v", found.Codes())
	}
	for _, z := range r.zones {
		if z.Zone == "hip" && (z.Label != "14" || z.From != "finished") {
			t.Errorf("%+v", z)
		}
	}
	p.Choose = body.BackWaist // a measure without a least ease
	delete(p.Chart.Rows, body.BackWaist)
	p.Chart.Finished[body.BackWaist] = p.Chart.Finished[body.Hip]
	if _, found := choose(p, testBody(map[body.Measure]float64{body.BackWaist: 16}), Choice{}); !found.Has("fit.measure-missing") {
		t.Errorf("chosen by a finished measure whose ease nobody knows: %v", found.Codes())
	}
}

// A row with gaps at its ends chooses sizes between them, and none beyond.
func TestRowWithGaps(t *testing.T) {
	p := publishedTables[0].pattern()
	hip := p.Chart.Rows[body.Hip]
	hip[0], hip[1], hip[7] = unit.Length{}, unit.Length{}, unit.Length{}
	for _, c := range []struct {
		hip  float64
		size string
	}{{34.5, "10"}, {37, "13"}, {42, "18"}, {33.5, ""}, {44, ""}} {
		r, found := choose(p, testBody(map[body.Measure]float64{body.Hip: c.hip}), Choice{})
		if c.size == "" {
			if !found.Has("fit.outside-range") {
				t.Errorf("hip %g: %v", c.hip, found.Codes())
			}
			continue
		}
		if r.zones[indexOf(r.zones, "hip")].Label != c.size {
			t.Errorf("hip %g: %+v, want %s", c.hip, r.zones, c.size)
		}
	}
}

func indexOf(zones []ZoneSize, name string) int {
	for i, z := range zones {
		if z.Zone == name {
			return i
		}
	}
	return 0
}

// A missing thigh is told with what the figures of adults put it at.
func TestMissingIsEstimated(t *testing.T) {
	_, found := choose(testPattern(t), testBody(map[body.Measure]float64{body.Hip: 38, body.Waist: 29, body.Height: 65}), Choice{})
	for _, f := range found {
		if f.Code() == "fit.measure-missing" && len(f.Notes) == 1 && strings.Contains(f.Notes[0].Text, "which would be size") {
			return
		}
	}
	t.Errorf("no estimate: %v", found)
}

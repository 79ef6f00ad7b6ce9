package pattern

import (
	"math"
	"strings"
	"testing"

	"gusset/internal/source"
)

// load4 reads the test pattern with another chart.
func load4(t *testing.T, old, with string) (Pattern, []string, string) {
	t.Helper()
	if !strings.Contains(plain, old) {
		t.Fatalf("the pattern has no %q", old)
	}
	files := drawings(quarter)
	p, found := Load(source.File{Path: "patterns/cape/pattern.yaml", Data: []byte(strings.Replace(plain, old, with, 1))},
		func(name string) (source.File, error) { return source.File{Path: name, Data: []byte(files[name])}, nil })
	var texts []string
	for _, f := range found {
		texts = append(texts, f.Text())
	}
	return p, found.Codes(), strings.Join(texts, "\n")
}

// Gaps in a chart: inside a row they are filled from their neighbours and told,
// at its ends they stay; a row of one value is passed over.
func TestChartGaps(t *testing.T) {
	const waist = "waist: [26 1/2, 28, 29 1/2]"
	for _, c := range []struct {
		row, codes, says string
		want             []float64 // in
	}{
		{waist, "", "", []float64{26.5, 28, 29.5}},
		{"waist: [26 1/2, ~, 29 1/2]", "pattern.chart-gap", "no waist for size 10; 28 in is taken", []float64{26.5, 28, 29.5}},
		{"waist:\n    - 26 1/2\n    -\n    - 29 1/2", "pattern.chart-gap", "28 in", []float64{26.5, 28, 29.5}},
		{"waist: [~, 28, 29 1/2]", "pattern.chart-end", "from size 10 to size 12 only", []float64{0, 28, 29.5}},
		{"waist: [26 1/2, 28, ~]", "pattern.chart-end", "from size 8 to size 10 only", []float64{26.5, 28, 0}},
		{"waist: [~, 28, ~]", "pattern.chart-few", "for 1 size", nil},
		{"waist: [~, ~, ~]", "pattern.chart-few", "for 0 size", nil},
		{"waist: [29 1/2, ~, 28]", "pattern.chart-order", "from size 8 to size 12", nil},
		{"waist: [26 1/2, ~]", "pattern.chart-count", "2 values for 3 sizes", nil},
		{"waist: [67.3 cm, 28, 749 mm]", "", "", []float64{67.3 / 2.54, 28, 74.9 / 2.54}},
	} {
		p, codes, texts := load4(t, waist, c.row)
		if got := strings.Join(codes, ","); got != c.codes || !strings.Contains(texts, c.says) {
			t.Errorf("%s: %s, want %s saying %q:\n%s", c.row, got, c.codes, c.says, texts)
		}
		row := p.Chart.Rows["waist"]
		if len(row) != len(c.want) {
			t.Errorf("%s: read as %v", c.row, row)
			continue
		}
		for i, w := range c.want {
			if math.Abs(row[i].MM()-w*25.4) > 1e-9 {
				t.Errorf("%s: size %s has %s, want %g in", c.row, p.Sizes[i], row[i], w)
			}
		}
	}
}

// A pattern may print finished measures only, in a unit of their own; one that
// prints neither for the measure it is chosen by is refused.
func TestFinishedOnly(t *testing.T) {
	const chart = "chart:\n  unit: in\n  waist: [26 1/2, 28, 29 1/2]\n  hip: [36, 38, 40]\n"
	p, codes, _ := load4(t, chart, "finished:\n  unit: cm\n  hip: [98, 103, 108]\n")
	if len(codes) > 0 || len(p.Chart.Rows) > 0 || p.Chart.Finished["hip"][1].MM() != 1030 || p.Chart.Unit != "cm" {
		t.Errorf("%v: %+v", codes, p.Chart)
	}
	if _, codes, _ := load4(t, chart, "finished:\n  unit: cm\n  waist: [98, 103, 108]\n"); strings.Join(codes, ",") != "pattern.choose" {
		t.Errorf("chosen by a hip that is nowhere: %v", codes)
	}
	// The same girths in any unit are the same chart.
	for _, row := range []string{"unit: cm\n  hip: [91.44, 96.52, 101.6]", "unit: mm\n  hip: [914.4, 965.2, 1016]"} {
		p, codes, _ := load4(t, "unit: in\n  waist: [26 1/2, 28, 29 1/2]\n  hip: [36, 38, 40]", row)
		for i, in := range []float64{36, 38, 40} {
			if math.Abs(p.Chart.Rows["hip"][i].MM()-in*25.4) > 1e-9 || len(codes) > 0 {
				t.Errorf("%s: %v %v", row, p.Chart.Rows["hip"], codes)
			}
		}
	}
}

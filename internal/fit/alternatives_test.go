package fit

import (
	"math"
	"slices"
	"strings"
	"testing"

	"gusset/internal/body"
	"gusset/internal/unit"
)

func names(all []Alternative) string {
	var out []string
	for _, a := range all {
		out = append(out, a.Name)
	}
	return strings.Join(out, ", ")
}

// Which ways are laid side by side: a blend where the body needs one, the
// docket's own where it asks for one, the nearest printed size and its
// neighbours as far as there are any.
func TestAlternatives(t *testing.T) {
	p := testPattern(t)
	as := func(hip, waist float64) body.Body {
		return testBody(map[body.Measure]float64{body.Hip: hip, body.Waist: waist, body.Thigh: 22.5})
	}
	for _, c := range []struct {
		name string
		b    body.Body
		c    Choice
		want string
	}{
		{"a blend", as(38, 30), Choice{}, "blend, 12 smaller, 14 nearest, 16 larger"},
		{"auto is no choice", as(38, 30), Choice{All: "auto"}, "blend, 12 smaller, 14 nearest, 16 larger"},
		{"one size all over", as(38, 28), Choice{}, "12 smaller, 14 nearest, 16 larger"},
		{"the smallest", as(33.5, 24), Choice{Zones: map[string]string{"thigh": "8"}}, "blend, 8 nearest, 10 larger"},
		{"the docket's size is a neighbour", as(38, 28), Choice{All: "12"}, "12 smaller, 14 nearest, 16 larger"},
		{"the docket's size is far off", as(38, 28), Choice{All: "20"}, "docket, 12 smaller, 14 nearest, 16 larger"},
		{"the docket's own blend", as(38, 30), Choice{Zones: map[string]string{"waist": "15"}}, "docket, blend, 12 smaller, 14 nearest, 16 larger"},
		{"the docket says what the chart does", as(38, 30), Choice{Zones: map[string]string{"waist": "16"}}, "docket, 12 smaller, 14 nearest, 16 larger"},
		{"lengths of another size", as(38, 28), Choice{Zones: map[string]string{LengthZone: "16"}}, "docket, 12 smaller, 14 nearest, 16 larger"},
		{"outside the chart", as(50, 40), Choice{}, "18 smaller, 20 nearest"},
		{"nothing measured", testBody(nil), Choice{}, "12 smaller, 14 nearest, 16 larger"},
	} {
		if c.name == "the smallest" {
			c.b.Measures[body.Thigh] = unit.Of(20, unit.Inch)
		}
		if got := names(Alternatives(p, "long", c.b, c.c)); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
	if all := Alternatives(p, "short", as(38, 30), Choice{}); all != nil {
		t.Errorf("a view that is not there: %v", all)
	}
}

// A printed size's ease is that of fitting in this size all over, at every
// level, and the blend's that of fitting by the chart.
func TestAlternativesEase(t *testing.T) {
	p := testPattern(t)
	b := testBody(map[body.Measure]float64{body.Hip: 38, body.Waist: 30, body.Thigh: 22.5})
	for _, a := range Alternatives(p, "long", b, Choice{}) {
		c := Choice{}
		if a.Name != "blend" {
			c.All, _, _ = strings.Cut(a.Name, " ")
		}
		s, _ := Fit(p, "long", b, c)
		if len(a.Ease) != 5 || !slices.EqualFunc(a.Ease, s.Ease(), func(x, y Ease) bool {
			return x.Zone == y.Zone && math.Abs(x.Ease-y.Ease) < 1e-9 && math.Abs(x.Garment-y.Garment) < 1e-9
		}) {
			t.Errorf("%s: %+v, fitting gives %+v", a.Name, a.Ease, s.Ease())
		}
	}
}

// Finished measures that the paper prints are held against the pieces: the hips
// of the test's leg are drawn with 60 mm of ease (see legOf).
func TestFinishedDiffers(t *testing.T) {
	p := testPattern(t)
	b := testBody(map[body.Measure]float64{body.Hip: 38, body.Waist: 28, body.Thigh: 22.5})
	v, _ := p.View("long")
	round, err := Girth(printed(p, v, 3), v.Girths[1])
	if err != nil || v.Girths[1].Zone != "hip" {
		t.Fatal(err)
	}
	for _, c := range []struct {
		off  float64
		told bool
	}{{0, false}, {5.5, false}, {-5.5, false}, {6.5, true}, {-30, true}} {
		row := make([]unit.Length, len(p.Sizes))
		row[3] = unit.MM(round + c.off)
		p.Chart.Finished = map[body.Measure][]unit.Length{body.Hip: row}
		if _, found := Fit(p, "long", b, Choice{}); found.Has("fit.finished-differs") != c.told {
			t.Errorf("finished hip printed %.1f mm off: %v", c.off, found.Codes())
		}
	}
}

package fit

import (
	"math"
	"testing"

	"gusset/internal/body"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// tube is a garment of one straight tube: two boards of the given width, with a
// level half way up.
func tube(t *testing.T, width float64) pattern.Garment {
	p := box("board", width, 200, "bottom", "right", "top", "left")
	p.Lines = []piece.Line{{Kind: piece.Level, Name: "hip", Curve: geom.Polyline(geom.Pt{X: width / 4, Y: 100}, geom.Pt{X: width / 2, Y: 100})}}
	return pattern.Garment{
		Pieces: map[string]piece.Piece{"board": p},
		View: pattern.View{
			Uses:   []pattern.Use{{Piece: "board", Copies: pattern.Pair}},
			Girths: []pattern.Girth{{Zone: "hip", Pieces: side(t, "board:/hip")}},
		},
	}
}

// Finished 43.5 in on a body of 38 in is 5.5 in of ease: the worked example of
// the fitting literature.
func TestEaseWorkedExample(t *testing.T) {
	zones := []pattern.Zone{{Name: "hip", Measure: body.Hip}}
	g := tube(t, 43.5/2*25.4)
	table, fs := easeTable(g, zones, testBody(map[body.Measure]float64{body.Hip: 38}), unit.Inch)
	if len(table) != 1 || math.Abs(table[0].Ease-5.5*25.4) > 1e-6 || len(fs) > 0 {
		t.Fatalf("%+v %v", table, fs.Codes())
	}
	g.View.Girths[0].Less = unit.Of(2, unit.Inch)
	g.View.Girths[0].Pieces = nil
	g.View.Girths[0].Edges = side(t, "board@left:bottom", "board@right:bottom")
	table, _ = easeTable(g, zones, testBody(map[body.Measure]float64{body.Hip: 38}), unit.Inch)
	if math.Abs(table[0].Ease-3.5*25.4) > 1e-6 {
		t.Errorf("with 2 in of overlap the ease is %.2f in, want 3.5", table[0].Ease/25.4)
	}
}

// Minimum wearing ease as published (Central Washington University, Costume
// Construction textbook, ch. 16), in inches: hip 2 to 2 3/4, waist of skirts and
// trousers 1/2 to 3/4, thigh at least 1, bodice bust 1 1/2 to 2.
func TestEaseShortOfThePublishedMinimum(t *testing.T) {
	for _, c := range []struct {
		measure body.Measure
		least   float64
	}{{body.Hip, 2}, {body.Waist, 0.5}, {body.Thigh, 1}, {body.Bust, 1.5}} {
		zones := []pattern.Zone{{Name: "hip", Measure: c.measure}}
		for _, over := range []float64{-0.5, -0.01, 0.01, 1} {
			g := tube(t, (30+c.least+over)/2*25.4)
			table, fs := easeTable(g, zones, testBody(map[body.Measure]float64{c.measure: 30}), unit.Inch)
			if fs.Has("fit.ease-short") != (over < 0) {
				t.Errorf("%s: %g in over the minimum: %v", c.measure, over, fs.Codes())
			}
			if math.Abs(table[0].Minimum-c.least*25.4) > 1e-9 || table[0].Source == "" {
				t.Errorf("%s: %+v", c.measure, table[0])
			}
		}
	}
	g := tube(t, 39.5/2*25.4)
	_, fs := easeTable(g, []pattern.Zone{{Name: "hip", Measure: body.Hip}}, testBody(map[body.Measure]float64{body.Hip: 38}), unit.Inch)
	want := "hip ease is 1 1/2 in (garment 39 1/2 in, body 38 in), 1/2 in less than the 2 in usually needed to move"
	if len(fs) != 1 || fs[0].Text() != want {
		t.Errorf("%v", fs)
	}
}

func TestGirthThatCannotBeMeasured(t *testing.T) {
	g := tube(t, 500)
	for _, r := range []string{"board:/waist", "sleeve:/hip", "board:hip"} {
		g.View.Girths[0].Pieces = side(t, r)
		table, fs := easeTable(g, []pattern.Zone{{Name: "hip", Measure: body.Hip}}, testBody(nil), unit.Inch)
		if len(table) > 0 || !fs.Has("fit.girth") {
			t.Errorf("%s: %v %v", r, table, fs.Codes())
		}
	}
}

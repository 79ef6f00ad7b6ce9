package finish

import (
	"math"
	"testing"

	"gusset/internal/geom"
	"gusset/internal/method"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// ending is a seam of 10 mm with a corner rule.
func ending(c method.Corner) method.Method {
	return method.Method{
		Name: string(c), Takes: method.Finish, Corner: c,
		Values:    map[string]unit.Length{"allowance": unit.MM(10)},
		Allowance: map[string][]string{"edge": {"allowance"}},
	}
}

func ends() []method.Method {
	var out []method.Method
	for _, c := range method.Corners {
		out = append(out, ending(c))
	}
	return out
}

// Corners worked by hand. The right side leans out by 1 in 5, so its cut line,
// 15 mm out, crosses the level of the bottom edge at 200 + 15·√1.04.
func TestCornerRules(t *testing.T) {
	leaning := quad(15, pt(0, 0), pt(200, 0), pt(240, 200), pt(0, 200))
	x := 200 + 15*math.Sqrt(1.04)
	top := 200 + 15*math.Sqrt(1.04) + 215*0.2
	for rule, want := range map[string][]geom.Pt{
		"natural": {pt(-15, -10), pt(x-2, -10), pt(top, 215), pt(-15, 215)},
		"mirror":  {pt(-15, -10), pt(x+2, -10), pt(x, 0), pt(top, 215), pt(-15, 215)},
		"square":  {pt(-15, -10), pt(x, -10), pt(x, 0), pt(top, 215), pt(-15, 215)},
	} {
		t.Run(rule, func(t *testing.T) {
			corners(t, oneCut(t, leaning, made{extra: ends(), methods: map[string]string{"hem": rule}}), want...)
		})
	}
}

// A right angle mitred: the cut crosses the bisector 5 mm outside the corner at
// 45°, so that of 10 mm allowances 10 - 5·√2 = 2.929 mm are cut away beyond it.
func TestMitre(t *testing.T) {
	m := made{extra: ends(), methods: map[string]string{"hem": "mitre", "right": "mitre"}}
	c := oneCut(t, board, m)
	const s = 10 - 5*math.Sqrt2
	corners(t, c, pt(-15, -10), pt(200-s, -10), pt(210, s), pt(210, 315), pt(-15, 315))
}

// Turned in on both edges, the ends of mitred allowances lie along the
// bisector of the corner, whatever its angle.
func TestMitreMeetsOnTheBisector(t *testing.T) {
	for _, deg := range []float64{60, 75, 90, 110, 140} {
		far := geom.Pt{X: 200}.Add(geom.Pt{X: -300}.Rot(-deg * math.Pi / 180))
		p := shape([]string{"hem", "right", "top"}, 15, pt(0, 0), pt(200, 0), far)
		c := oneCut(t, p, made{extra: ends(), methods: map[string]string{"hem": "mitre", "right": "mitre"}})
		bisector := geom.Pt{X: -1}.Rot(-deg / 2 * math.Pi / 180)
		var hem, right geom.Pt // the ends of the two allowances: the cut corners nearest to the corner on each cut line
		for _, q := range c.Exact {
			if math.Abs(q.Y+10) < 1e-6 && q.Dist(pt(200, 0)) < 40 {
				hem = geom.MirrorAbout(pt(0, 0), pt(200, 0)).Apply(q)
			}
			if v := q.Sub(pt(200, 0)); math.Abs(far.Sub(pt(200, 0)).Unit().Cross(v)+10) < 1e-6 && v.Len() < 40 {
				right = geom.MirrorAbout(pt(200, 0), far).Apply(q)
			}
		}
		// Each lies past the bisector by what 5 mm of room come to there.
		past := 5 * math.Sin(deg*math.Pi/180)
		for name, q := range map[string]geom.Pt{"hem": hem, "right": right} {
			if d := math.Abs(bisector.Cross(q.Sub(pt(200, 0)))); math.Abs(d-past) > 1e-3 {
				t.Errorf("%g°: %s ends %.4f mm from the bisector, want %.4f", deg, name, d, past)
			}
		}
	}
}

// A hollow corner: the cut lines meet inside of where they would have ended.
func TestHollowCorner(t *testing.T) {
	p := shape([]string{"a", "b", "c", "d", "e", "f"}, 10,
		pt(0, 0), pt(200, 0), pt(200, 100), pt(100, 100), pt(100, 300), pt(0, 300))
	corners(t, oneCut(t, p, made{}), pt(-10, -10), pt(210, -10), pt(210, 110), pt(110, 110), pt(110, 310), pt(-10, 310))
}

// Two edges in one line with different allowances: a square step.
func TestStep(t *testing.T) {
	p := shape([]string{"a", "b", "c", "d", "e"}, 10, pt(0, 0), pt(120, 0), pt(200, 0), pt(200, 300), pt(0, 300))
	p.Edges[1].Printed = 20
	corners(t, oneCut(t, p, made{}), pt(-10, -10), pt(120, -10), pt(120, -20), pt(210, -20), pt(210, 310), pt(-10, 310))
}

// A very sharp corner is cut off at three times its allowance.
func TestSharpCornerIsBlunted(t *testing.T) {
	p := shape([]string{"a", "b", "c"}, 10, pt(0, 0), pt(400, 0), pt(0, 60))
	c := oneCut(t, p, made{})
	bisector := pt(400, 0).Unit().Add(pt(400, -60).Unit()).Unit()
	reach := 0.0
	for _, q := range c.Exact {
		reach = math.Max(reach, q.Sub(pt(400, 0)).Dot(bisector))
	}
	if math.Abs(reach-30) > 1e-6 {
		t.Errorf("the tip reaches %.4f mm beyond the corner, want 30", reach)
	}
}

func TestTooTight(t *testing.T) {
	slot := shape([]string{"a", "b", "c", "d", "e", "f", "g", "h"}, 15,
		pt(0, 0), pt(300, 0), pt(300, 200), pt(160, 200), pt(160, 100), pt(140, 100), pt(140, 200), pt(0, 200))
	bite := shape([]string{"a", "b", "c", "d"}, 15, pt(0, 0), pt(110, 0), pt(110, 200), pt(0, 200))
	bite.Edges[1].Curve = geom.Curve{geom.Line(pt(110, 0), pt(110, 90)),
		geom.Cubic(pt(110, 90), pt(96, 90), pt(96, 110), pt(110, 110)), geom.Line(pt(110, 110), pt(110, 200))}
	for want, p := range map[string]piece.Piece{"finish.swallowed": slot, "finish.folds-over": bite} {
		if cuts, found := finished(t, p, made{}); !found.Has(want) || len(cuts) > 0 {
			t.Errorf("%v and %d cuts, want %s", found.Codes(), len(cuts), want)
		}
	}
}

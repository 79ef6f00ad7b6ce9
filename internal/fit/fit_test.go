package fit

import (
	"fmt"
	"math"
	"strconv"
	"testing"

	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"pgregory.net/rapid"
)

func TestPrintedSizesComeOutAsPrinted(t *testing.T) {
	p := testPattern(t)
	for i, size := range p.Sizes {
		s, fs := Fit(p, "long", testBody(nil), Choice{All: size})
		if fs.Stops() > 0 || fs.Has("fit.trued") {
			t.Fatalf("size %s: %v", size, fs.Codes())
		}
		for name, q := range s.Garment().Pieces {
			same(t, size, q, p.Pieces[name].In[i], 1e-9)
		}
		if w := checkWalk(t, p, s.Garment(), i, i, 1e-6); w > 1e-6 {
			t.Errorf("size %s walks %g mm off the print", size, w)
		}
	}
}

// A billionth of a size from a printed one the general way of blending is
// taken; it must meet the print.
func TestBlendMeetsThePrint(t *testing.T) {
	p := testPattern(t)
	for i := range p.Sizes[1:] {
		v, _ := strconv.ParseFloat(p.Sizes[i], 64)
		s, _ := Fit(p, "long", testBody(nil), Choice{All: fmt.Sprintf("%.9f", v+2e-9)})
		for name, q := range s.Garment().Pieces {
			same(t, p.Sizes[i], q, p.Pieces[name].In[i], 1e-6)
		}
	}
}

func TestOneSizeBetween(t *testing.T) {
	p := testPattern(t)
	for i := range p.Sizes[1:] {
		v, _ := strconv.ParseFloat(p.Sizes[i], 64)
		for _, part := range []float64{0.25, 0.5, 0.9} {
			s, fs := Fit(p, "long", testBody(nil), Choice{All: fmt.Sprintf("%.2f", v+2*part)})
			if fs.Stops() > 0 {
				t.Fatal(fs.Codes())
			}
			g := s.Garment()
			w := checkWalk(t, p, g, i, i+1, 0.1)
			if testing.Verbose() {
				t.Logf("%.2f: widest %.4f mm, %v", v+2*part, w, fs.Codes())
			}
			checkOutlines(t, g)
			checkSmooth(t, p, g)
			checkStraight(t, p, g)
			checkBetween(t, p, g, i)
		}
	}
}

// bands are zone sizes that bodies have; the first is the design's own example.
var blends = [][5]string{
	{"16", "12", "15", "14", "14"}, {"8", "20", "14", "14", "14"}, {"20", "8", "20", "8", "20"},
	{"10", "12", "16", "18", "12"}, {"14.6", "16.1", "16.1", "16.1", "16.1"}, {"18", "14", "14", "14", "14"},
	{"12", "14", "14", "14", "14"}, {"14", "14", "17", "14", "14"},
}

func blendChoice(z [5]string) Choice {
	return Choice{Zones: map[string]string{"waist": z[0], "hip": z[1], "thigh": z[2], "knee": z[3], "hem": z[4]}}
}

func TestBlends(t *testing.T) {
	p := testPattern(t)
	for _, z := range blends {
		s, fs := Fit(p, "long", testBody(nil), blendChoice(z))
		if fs.Stops() > 0 {
			t.Fatal(fs.Codes())
		}
		g := s.Garment()
		w := checkWalk(t, p, g, 0, 6, 0.1)
		t.Logf("%v: widest miss %.4f mm", z, w)
		for _, f := range fs {
			t.Logf("  %s %s", f.Code(), f.Text())
		}
		checkOutlines(t, g)
		checkSmooth(t, p, g)
		checkStraight(t, p, g)
	}
}

func TestAnyBlendWalks(t *testing.T) {
	p := testPattern(t)
	rapid.Check(t, func(t *rapid.T) {
		var z [5]string
		at := rapid.Float64Range(8, 20).Draw(t, "waist")
		for i := range z {
			z[i] = fmt.Sprintf("%.2f", at)
			at = rapid.Float64Range(math.Max(8, at-5), math.Min(20, at+5)).Draw(t, "next")
		}
		s, fs := Fit(p, "long", testBody(nil), blendChoice(z))
		if fs.Stops() > 0 {
			t.Fatal(fs.Codes())
		}
		g := s.Garment()
		checkWalk(t, p, g, 0, 6, 0.5)
		checkOutlines(t, g)
		checkSmooth(t, p, g)
		checkStraight(t, p, g)
	})
}

// The girth at a zone is that of its size, but for what truing moves, however
// far apart neighbouring zones are.
func TestGirthsFollowTheirZones(t *testing.T) {
	p := testPattern(t)
	want := map[string][]float64{}
	for _, size := range p.Sizes {
		s, _ := Fit(p, "long", testBody(nil), Choice{All: size})
		for _, e := range s.Ease() {
			want[e.Zone] = append(want[e.Zone], e.Garment)
		}
	}
	for _, z := range blends {
		s, _ := Fit(p, "long", testBody(nil), blendChoice(z))
		if len(s.Ease()) != len(p.Zones) {
			t.Fatalf("%v: %d girths", z, len(s.Ease()))
		}
		for k, e := range s.Ease() {
			at, _, _, _ := position(z[k], p.Sizes)
			w := between(want[e.Zone], at)
			t.Logf("%v: %s is %.2f mm round, size %s has %.2f", z, e.Zone, e.Garment, z[k], w)
			if math.Abs(e.Garment-w) > 0.5 {
				t.Errorf("%v: %s is %.2f mm round, size %s has %.2f", z, e.Zone, e.Garment, z[k], w)
			}
		}
	}
}

// A size for the lengths moves heights only: levels stand where that size has
// them, girths stay those of their zones.
func TestLengthZone(t *testing.T) {
	p := testPattern(t)
	c := blendChoice([5]string{"16", "14", "14", "14", "14"})
	c.Zones[LengthZone] = "18"
	s, fs := Fit(p, "long", testBody(nil), c)
	if fs.Stops() > 0 {
		t.Fatal(fs.Codes())
	}
	for _, name := range []string{"front", "back"} {
		q := s.Garment().Pieces[name]
		for _, level := range []string{"hip", "thigh", "knee"} {
			got, _ := q.Line(piece.Level, level)
			want, _ := p.Pieces[name].In[5].Line(piece.Level, level)
			if d := got.Curve.Start().Y - want.Curve.Start().Y; math.Abs(d) > 1e-9 {
				t.Errorf("%s: the %s level is %g mm off size 18", name, level, d)
			}
		}
	}
	for _, e := range s.Ease() {
		if e.Zone == "hip" && math.Abs(e.Garment-1124.48) > 1 {
			t.Errorf("hip %.2f mm round, size 14 has 1124.48", e.Garment)
		}
	}
	t.Logf("widest miss %.4f mm", checkWalk(t, p, s.Garment(), 0, 6, 0.1))
	checkOutlines(t, s.Garment())
	checkSmooth(t, p, s.Garment())
	checkStraight(t, p, s.Garment())
}

// Notches that meet in print meet after blending.
func TestNotchesMeet(t *testing.T) {
	p := testPattern(t)
	for _, z := range blends {
		s, _ := Fit(p, "long", testBody(nil), blendChoice(z))
		f, b := s.Garment().Pieces["front"], s.Garment().Pieces["back"]
		back, _ := b.Edge("outseam")
		for _, name := range []string{"knee", "hip"} {
			m, _ := f.Notch("outseam", name)
			n, _ := b.Notch("outseam", name)
			if d := m.At - (fineLength(back.Curve) - n.At); math.Abs(d) > 0.1 {
				t.Errorf("%v: the %s notches lie %.3f mm apart", z, name, d)
			}
			if e, _ := f.Edge("outseam"); e.Curve.At(m.At).Dist(m.P) > 1e-6 {
				t.Errorf("%v: the %s notch is off its edge", z, name)
			}
		}
	}
}

// The blended line runs where every one of its points would go by itself: each
// point of the printed outseam, taken at the size of its own height, lies on it.
func TestLineFollowsTheField(t *testing.T) {
	p := testPattern(t)
	printed := p.Pieces["front"].In
	for _, z := range blends {
		s, fs := Fit(p, "long", testBody(nil), blendChoice(z))
		if fs.Has("fit.size-jump") {
			continue
		}
		var ys, ss []float64
		for k, level := range []string{"hem", "knee", "thigh", "hip", "waist"} {
			at, _, _, _ := position(z[4-k], p.Sizes)
			ss = append(ss, at)
			if l, ok := printed[3].Line(piece.Level, level); ok {
				ys = append(ys, l.Curve.Start().Y)
			}
		}
		waist, _ := printed[3].Edge("waist")
		lo, _ := waist.Curve.Bounds()
		ys = append(append([]float64{0}, ys...), lo.Y)
		sizeAt := geom.Monotone(ys, ss)
		got, _ := s.Garment().Pieces["front"].Edge("outseam")
		var widest float64
		for k := range printed[3].Edges[1].Curve {
			for u := 0.0; u <= 1; u += 0.02 {
				var xs, hs []float64
				for _, q := range printed {
					v := q.Edges[1].Curve[k].At(u)
					xs, hs = append(xs, v.X), append(hs, v.Y)
				}
				at := sizeAt(hs[3])
				_, d := got.Curve.Nearest(geom.Pt{X: between(xs, at), Y: between(hs, at)})
				widest = max(widest, d)
			}
		}
		t.Logf("%v: %.2f mm", z, widest)
		if widest > 0.5 {
			t.Errorf("%v: the outseam is up to %.2f mm off its field", z, widest)
		}
	}
}

// What a pocket is set on is not pulled out of shape by the field: the pocket is
// the same in all sizes.
func TestPlacementKeepsItsShape(t *testing.T) {
	p := testPattern(t)
	for _, z := range blends {
		s, _ := Fit(p, "long", testBody(nil), blendChoice(z))
		l, _ := s.Garment().Pieces["back"].Line(piece.Placement, "pocket-place")
		moved := pocketOutline().Transform(geom.Shift(l.Curve.Start()))
		for k, g := range l.Curve {
			if d := g.P[3].Dist(moved[k].P[3]); d > 1e-9 {
				t.Errorf("%v: the placement line is %g mm out of shape", z, d)
			}
		}
	}
}

// Where two edges that meet disagree about the corner's size, a zone goes before
// a join, and a join before what the piece says itself.
func TestCornerSize(t *testing.T) {
	d := ready(piece.Graded{Name: "box", In: []piece.Piece{box("box", 10, 10, "a", "b", "c", "d")}}, pattern.Use{})
	d.field.own = func(geom.Pt) float64 { return 9 }
	at := func(v float64) func(float64) float64 { return func(float64) float64 { return v } }
	d.patch(0, patch{0, 10, at(1), 1})
	d.patch(1, patch{0, 10, at(2), 0})
	for edge, want := range []float64{1, 2, 2, 9} {
		if got := d.cornerSize(edge); got != want {
			t.Errorf("corner before edge %d has size %g, want %g", edge, got, want)
		}
	}
}

func BenchmarkFit(b *testing.B) {
	p := testPattern(b)
	c := blendChoice([5]string{"16", "12", "15", "14", "14"})
	for b.Loop() {
		Fit(p, "long", testBody(nil), c)
	}
}

func TestFindingKinds(t *testing.T) {
	for _, k := range kinds {
		if err := k.Validate(); err != nil {
			t.Error(err)
		}
	}
}

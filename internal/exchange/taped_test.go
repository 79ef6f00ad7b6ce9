package exchange

import (
	"math"
	"os"
	"strings"
	"testing"

	"gusset/internal/geom"
	"gusset/internal/piece"
	"gusset/internal/source"

	"pgregory.net/rapid"
)

func pouch(t testing.TB) string {
	t.Helper()
	data, err := os.ReadFile("testdata/taped/lamp-pouch.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func taped1(text string) (Style, []string, string) {
	s, found := ReadTaped(source.File{Path: "taped.yaml", Data: []byte(text)})
	var texts []string
	for _, f := range found {
		texts = append(texts, f.Text())
	}
	return s, found.Codes(), strings.Join(texts, "\n")
}

// A piece by ruler and tape becomes a pattern's piece. The bottom is a parabola
// 18 cm wide and 4 cm deep at its marked places; its length is 20.148 cm by the
// formula for a parabola's arc (½√(b²+16h²) + b²/8h·ln((4h+√(b²+16h²))/b), an
// identity of plane geometry).
func TestTaped(t *testing.T) {
	style, codes, texts := taped1(pouch(t))
	if len(codes) > 0 {
		t.Fatal(texts)
	}
	pieces, sizes, found := Grade(style, nil, nil)
	if len(found) > 0 || len(pieces) != 1 || sizes[0] != "M" {
		t.Fatal(found)
	}
	p := pieces[0].In[0]
	b, h := 180.0, 40.0
	root := math.Sqrt(b*b + 16*h*h)
	want := root/2 + b*b/(8*h)*math.Log((4*h+root)/b)
	bottom, _ := p.Edge("bottom")
	if l := bottom.Curve.Length(); math.Abs(l-want) > 0.5 {
		t.Errorf("the bottom is %.2f mm long, want %.2f", l, want)
	}
	if _, off := bottom.Curve.Nearest(geom.Pt{X: 90, Y: 0}); off > 1e-9 {
		t.Errorf("the bottom passes its lowest place at %.3f mm", off)
	}
	top, _ := p.Edge("top")
	if m, ok := p.Notch("top", "middle"); !ok || math.Abs(m.At-90) > 1e-9 || math.Abs(top.Curve.Length()-180) > 1e-9 {
		t.Errorf("top %v, notch %v", top.Curve.Length(), m)
	}
	if _, ok := p.Line(piece.Fold, "flap"); !ok || len(p.Lines) != 2 {
		t.Errorf("lines %v", p.Lines)
	}
	q, told := loaded(t, Folder(pieces, sizes, Said{Title: "Pouch"}), 1)
	if told.Stops() > 0 || len(q.Pieces["lamp-pouch"].In) != 1 || q.Views[0].Uses[0].Copies != "pair" {
		t.Errorf("%v %v", told, q.Views)
	}
}

// A quarter of a circle through five measured points: 157.080 mm round at a radius
// of 100 mm (identity), and never a tenth of a millimetre off the circle.
func TestSmoothThroughCircle(t *testing.T) {
	var pts []geom.Pt
	for k := range 5 {
		pts = append(pts, geom.Pt{X: 100}.Rot(float64(k)*math.Pi/8))
	}
	c, err := smoothThrough(pts)
	if err != nil {
		t.Fatal(err)
	}
	if l := c.Length(); math.Abs(l-50*math.Pi) > 0.1 {
		t.Errorf("%.3f mm long", l)
	}
	for _, p := range c.Flatten(0.01) {
		if d := math.Abs(p.Len() - 100); d > 0.1 {
			t.Errorf("%.3f mm off the circle", d)
		}
	}
}

// Points on a parabola y = kx² are followed exactly where they lie evenly along
// the chords, and the curve always passes through its points.
func TestSmoothThroughPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 9).Draw(t, "points")
		var pts []geom.Pt
		for i := range n {
			pts = append(pts, geom.Pt{X: float64(40*i) + rapid.Float64Range(0, 20).Draw(t, "x"), Y: rapid.Float64Range(-20, 20).Draw(t, "y")})
		}
		c, err := smoothThrough(pts)
		if err != nil {
			t.Fatal(err)
		}
		for i, s := range c {
			if s.P[0].Dist(pts[i]) > 1e-9 || s.P[3].Dist(pts[i+1]) > 1e-9 {
				t.Errorf("segment %d does not pass through its points", i)
			}
			if i > 0 && n > 2 {
				if a, b := c[i-1].Deriv(1).Unit(), s.Deriv(0).Unit(); a.Dist(b) > 1e-6 {
					t.Errorf("a corner of %g at point %d", a.Dist(b), i)
				}
			}
		}
	})
}

// The tape is held against the drawing: 1.5 mm apart warns, 3 mm stops (traced
// paper, common practice).
func TestTape(t *testing.T) {
	for _, c := range []struct{ old, with, code, says string }{
		{"top, from: c, to: d, tape: 18}", "top, from: c, to: d, tape: 17.9}", "", ""},
		{"top, from: c, to: d, tape: 18}", "top, from: c, to: d, tape: 17.8}", "exchange.taped-near", "edge top is 180.0 mm as drawn and 178.0 mm by the tape: 2.0 mm apart"},
		{"top, from: c, to: d, tape: 18}", "top, from: c, to: d, tape: 7 1/8 in}", "", ""},
		{"top, from: c, to: d, tape: 18}", "top, from: c, to: d, tape: 17.6}", "exchange.taped-off", "4.0 mm apart"},
		{"{from: b, to: d, tape: 25.5}", "{from: b, to: d, tape: 26}", "exchange.taped-off", "the distance from b to d is 254.6 mm"},
		{"tape: 20.1 cm", "tape: 19.6 cm", "exchange.taped-off", "edge bottom"},
		{"  - {name: top, from: c", "  - {name: top, from: x", "exchange.taped-point", "no point called x"},
		{"  d: [0, 22]\n", "  d: [0, 22]\n  x: [18, 22.1]\n  y: [18, 22.2]\n  z: [18, 22.5]\n", "", ""},
	} {
		text := strings.Replace(pouch(t), c.old, c.with, 1)
		if text == pouch(t) {
			t.Fatalf("nothing to replace: %s", c.old)
		}
		_, codes, texts := taped1(text)
		if strings.Join(codes, " ") != c.code || !strings.Contains(texts, c.says) {
			t.Errorf("%s: %v, want %s saying %q:\n%s", c.with, codes, c.code, c.says, texts)
		}
	}
	// A corner that was measured twice.
	for by, code := range map[string]string{"22.1": "exchange.taped-slip", "22.5": "exchange.taped-gap"} {
		text := strings.Replace(pouch(t), "  d: [0, 22]\n", "  d: [0, 22]\n  x: [18, "+by+"]\n", 1)
		text = strings.Replace(text, "top, from: c", "top, from: x", 1)
		if _, codes, texts := taped1(text); len(codes) == 0 || codes[0] != code {
			t.Errorf("measured again at %s: %v, want %s: %s", by, codes, code, texts)
		}
	}
}

// FuzzTaped: no file makes the reader panic.
func FuzzTaped(f *testing.F) {
	f.Add([]byte(pouch(f)))
	f.Fuzz(func(_ *testing.T, data []byte) {
		s, _ := ReadTaped(source.File{Path: "x.yaml", Data: data})
		Grade(s, nil, nil)
	})
}

package exchange

import (
	"image/png"
	"io/fs"
	"os"
	"testing"

	"gusset/demo"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/source"
)

// quay is the demo's pattern of trousers: thirteen pieces in seven sizes.
func quay(t testing.TB) pattern.Pattern {
	t.Helper()
	return demoPattern(t, "quay")
}

// demoPattern is a pattern of the demo.
func demoPattern(t testing.TB, of string) pattern.Pattern {
	t.Helper()
	read := func(name string) (source.File, error) {
		data, err := fs.ReadFile(demo.Files, "patterns/"+of+"/"+name)
		return source.File{Path: "patterns/quay/" + name, Data: data}, err
	}
	f, err := read("pattern.yaml")
	if err != nil {
		t.Fatal(err)
	}
	p, found := pattern.Load(f, read)
	if found.Stops() > 0 {
		t.Fatal(found)
	}
	return p
}

// apart is the largest distance of points of either curve from the other, in mm.
func apart(a, b geom.Curve) float64 {
	var worst float64
	for _, c := range [][2]geom.Curve{{a, b}, {b, a}} {
		l := c[0].Length()
		for k := range 101 {
			_, d := c[1].Nearest(c[0].At(l * float64(k) / 100))
			worst = max(worst, d)
		}
	}
	return worst
}

// samePiece compares a piece with what it has come back as.
func samePiece(t *testing.T, size string, want, got piece.Piece, tol float64) (worst float64) {
	t.Helper()
	if len(want.Edges) != len(got.Edges) {
		t.Fatalf("%s %s: %d edges %v, want %d %v", want.Name, size, len(got.Edges), got.EdgeNames(), len(want.Edges), want.EdgeNames())
	}
	for i, e := range want.Edges {
		b := got.Edges[i]
		if e.Name != b.Name {
			t.Errorf("%s %s: edge %d is %s, want %s", want.Name, size, i, b.Name, e.Name)
		}
		d := apart(e.Curve, b.Curve)
		worst = max(worst, d)
		if d > tol {
			t.Errorf("%s %s: %s comes back %.4f mm off", want.Name, size, e.Name, d)
		}
		if d := e.Curve.Length() - b.Curve.Length(); d > tol || d < -tol {
			t.Errorf("%s %s: %s comes back %.4f mm longer or shorter", want.Name, size, e.Name, d)
		}
	}
	if len(want.Lines) != len(got.Lines) || len(want.Marks) != len(got.Marks) {
		t.Fatalf("%s %s: %d lines and %d marks, want %d and %d", want.Name, size, len(got.Lines), len(got.Marks), len(want.Lines), len(want.Marks))
	}
	for _, l := range want.Lines {
		b, ok := got.Line(l.Kind, l.Name)
		if !ok {
			t.Errorf("%s %s: no line %s %s", want.Name, size, l.Kind, l.Name)
			continue
		}
		if d := apart(l.Curve, b.Curve); d > tol || l.Curve.Start().Dist(b.Curve.Start()) > tol {
			t.Errorf("%s %s: line %s %s comes back %.4f mm off", want.Name, size, l.Kind, l.Name, d)
		}
	}
	for _, m := range want.Marks {
		found := false
		for _, b := range got.Marks {
			if b.Kind == m.Kind && b.Name == m.Name && b.Edge == m.Edge {
				found = true
				if d := m.P.Dist(b.P); d > tol {
					t.Errorf("%s %s: %s %s %s comes back %.4f mm off", want.Name, size, m.Kind, m.Edge, m.Name, d)
				}
			}
		}
		if !found {
			t.Errorf("%s %s: no %s %s %s", want.Name, size, m.Kind, m.Edge, m.Name)
		}
	}
	return worst
}

func shiftBy(v geom.Pt) geom.Affine { return geom.Shift(v) }

// inkBox is the box round what is drawn dark in a picture, in pixels; in a PDF
// without the rules at its left and lower side.
func inkBox(t *testing.T, file string, rules bool) (w, h float64) {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	b := img.Bounds()
	if rules { // 13 mm at the left, 40 mm below
		b.Min.X += 13 * 5
		b.Max.Y -= 40 * 5
	}
	x0, y0, x1, y1 := b.Max.X, b.Max.Y, b.Min.X, b.Min.Y
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			if r, _, _, _ := img.At(x, y).RGBA(); r < 0x8000 {
				x0, y0, x1, y1 = min(x0, x), min(y0, y), max(x1, x), max(y1, y)
			}
		}
	}
	return float64(x1 - x0), float64(y1 - y0)
}

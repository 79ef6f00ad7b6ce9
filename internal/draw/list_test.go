package draw

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"gusset/internal/geom"
)

func near2(a, b geom.Pt) bool { return a.Dist(b) < 1e-9 }

func TestBounds(t *testing.T) {
	var l List
	if lo, hi := l.Bounds(); lo != hi {
		t.Errorf("empty list: %v %v", lo, hi)
	}
	l.Line(Pen(Black, 2), pt2(10, 10), pt2(30, 10))
	l.Clip(Box(0, 0, 20, 50), func(l *List) { l.Rect(Fill(Black), Box(15, 15, 100, 10)) })
	l.Clip(Box(0, 0, 5, 5), func(l *List) { l.Rect(Fill(Black), Box(100, 100, 10, 10)) }) // nothing is left
	lo, hi := l.Bounds()
	if !near2(lo, pt2(9, 9)) || !near2(hi, pt2(31, 25)) {
		t.Errorf("bounds %v %v", lo, hi)
	}
}

// A word is as wide as poppler finds it in the PDF, from the widths that the
// PDF library read in the font: a second reader of the same tables.
func TestTextWidth(t *testing.T) {
	const size = 20
	words := []string{"0123456789", "Waistband", "12½°", "–×é", "WAVE"}
	for _, isBold := range []bool{false, true} {
		l := &List{}
		for i, w := range words {
			l.Text(Text{At: pt2(10, 20+30*float64(i)), Size: size, Bold: isBold, Body: w})
		}
		file := pdfFile(t, Doc{Pages: []Page{{300, 200, l}}})
		boxes := string(runTool(t, "pdftotext", "-bbox", file, "-"))
		for _, w := range words {
			m := regexp.MustCompile(`xMin="([0-9.]+)".* xMax="([0-9.]+)".*>` + w + `</word>`).FindStringSubmatch(boxes)
			if m == nil {
				t.Fatalf("no word %q in %s", w, boxes)
			}
			from, _ := strconv.ParseFloat(m[1], 64)
			to, _ := strconv.ParseFloat(m[2], 64)
			want := (to - from) / pointsPerMM
			if got := TextWidth(w, size, isBold); math.Abs(got-want) > 0.001*want {
				t.Errorf("%q bold %v: %.3f mm, poppler finds %.3f", w, isBold, got, want)
			}
		}
	}
}

func TestMissing(t *testing.T) {
	if got := Missing("½ – × ° é 10 mm"); got != nil {
		t.Errorf("missing %q", got)
	}
	if got := Missing("a漢b"); !slices.Equal(got, []rune{'漢'}) {
		t.Errorf("missing %q", got)
	}
}

// A mirrored label stays where it was, mirrored, and stays readable.
func TestMirroredText(t *testing.T) {
	m := geom.MirrorAbout(pt2(0, 0), pt2(0, 1))
	for _, angle := range []float64{0, 30, 90, 180, 250} {
		in := Text{At: pt2(10, 5), Size: 4, Angle: angle, Body: "front"}
		out := in.transform(m)
		a, b := in.corners(), out.corners()
		mid := a[0].Lerp(a[1], 0.5)
		if got := b[0].Lerp(b[1], 0.5); math.Abs(got.X+mid.X) > 4 || math.Abs(got.Y-mid.Y) > 4 {
			t.Errorf("at %g°: middle %v, was %v before mirroring", angle, got, mid)
		}
		if out.Size != in.Size {
			t.Errorf("at %g°: size %g", angle, out.Size)
		}
		if v := math.Cos(in.Angle * math.Pi / 180); v > 0.01 && math.Cos(out.Angle*math.Pi/180) < 0 {
			t.Errorf("at %g°: upside down", angle)
		}
	}
}

// The circle's four arcs are within 0.027 % of the radius.
func TestCircle(t *testing.T) {
	for _, r := range Circle(pt2(3, 4), 100).runs(0.001) {
		for _, p := range r.pts {
			if d := p.Dist(pt2(3, 4)); d < 100-0.002 || d > 100.028 {
				t.Fatalf("radius %.4f at %v", d, p)
			}
		}
	}
}

func TestPaths(t *testing.T) {
	side := geom.Curve{geom.Line(pt2(0, 0), pt2(10, 0))}
	back := geom.Curve{geom.Line(pt2(10, 0), pt2(5, 8))}
	closed := Closed(side, nil, back)
	want := Polygon(pt2(0, 0), pt2(10, 0), pt2(5, 8))
	if !slices.Equal(closed.Steps, want.Steps) {
		t.Errorf("closed path %v, want %v", closed.Steps, want.Steps)
	}
	if open := Open(side, back); len(open.Steps) != 4 || open.Steps[2].Op != Move {
		t.Errorf("open path %v", open.Steps)
	}
}

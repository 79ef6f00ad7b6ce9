package draw

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/png"
	"math"
	"testing"

	"gusset/internal/geom"
)

// At 25.4 dpi a pixel is a millimetre, so what is painted can be said by hand.
func TestPNGPixels(t *testing.T) {
	l := &List{}
	l.Rect(Fill(RGB(255, 0, 0)), Box(2, 1, 5, 3))                              // x 2..7, y 1..4
	l.Rect(Fill(Color{0, 0, 0, 128}), Box(10, 10, 2, 2))                       // half through
	l.Line(Style{Stroke: Black, Width: 2, Cap: CapButt}, pt2(0, 8), pt2(6, 8)) // y 7..9
	l.Line(DashPen(Black, 2, 2, 2), pt2(10, 5), pt2(10, 5))                    // a dot
	l.Clip(Box(14, 0, 3, 20), func(l *List) { l.Rect(Fill(RGB(0, 0, 255)), Box(12, 12, 8, 2)) })
	var b bytes.Buffer
	if err := PNG(&b, Page{20, 15, l}, 25.4); err != nil {
		t.Fatal(err)
	}
	if got := binary.BigEndian.Uint32(b.Bytes()[41:]); string(b.Bytes()[37:41]) != "pHYs" || got != 1000 {
		t.Errorf("pixels per metre: %d", got)
	}
	img, err := png.Decode(bytes.NewReader(b.Bytes()))
	if err != nil {
		t.Fatal(err)
	}
	if img.Bounds() != image.Rect(0, 0, 20, 15) {
		t.Fatalf("size %v", img.Bounds())
	}
	white, red, blue := color.RGBA{255, 255, 255, 255}, color.RGBA{255, 0, 0, 255}, color.RGBA{0, 0, 255, 255}
	black := color.RGBA{0, 0, 0, 255}
	for _, c := range []struct {
		x, y int // of the pixel's lower left corner, in mm
		want color.RGBA
	}{
		{2, 1, red}, {6, 3, red}, {1, 1, white}, {7, 1, white}, {2, 4, white}, {2, 0, white},
		{0, 7, black}, {5, 8, black}, {6, 7, white}, {0, 9, white}, {0, 6, white},
		{10, 10, color.RGBA{127, 127, 127, 255}},
		{13, 12, white}, {14, 12, blue}, {16, 13, blue}, {17, 12, white},
	} {
		got := color.RGBAModel.Convert(img.At(c.x, 14-c.y)).(color.RGBA)
		if diff(got, c.want) > 1 {
			t.Errorf("pixel at (%d, %d) mm: %v, want %v", c.x, c.y, got, c.want)
		}
	}
}

func pt2(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }

func diff(a, b color.RGBA) int {
	d := func(p, q uint8) int { return max(int(p)-int(q), int(q)-int(p)) }
	return max(d(a.R, b.R), d(a.G, b.G), d(a.B, b.B), d(a.A, b.A))
}

// The area a pen covers is known: width × length, and a disc for round ends.
func TestStrokeAreas(t *testing.T) {
	area := func(s Style, p Path) float64 {
		l := &List{}
		l.Path(s, p)
		img := rasterOf(t, Page{60, 60, l}, 508) // 20 pixels per mm
		return total(darkness(img, true)) / 400
	}
	butt := Pen(Black, 3)
	butt.Cap = CapButt
	dashed := DashPen(Black, 3, 5, 2.5)
	dashed.Cap = CapButt
	cases := []struct {
		name string
		s    Style
		p    Path
		want float64
	}{
		{"butt", butt, Polyline(pt2(10, 10), pt2(50, 40)), 50 * 3},
		{"round", Pen(Black, 3), Polyline(pt2(10, 10), pt2(50, 40)), 50*3 + math.Pi*1.5*1.5},
		{"ring", Pen(Black, 3), Circle(pt2(30, 30), 20), math.Pi * (21.5*21.5 - 18.5*18.5)},
		{"square", Pen(Black, 3), Box(10, 10, 40, 40).path(), 43*43 - 37*37 - (4-math.Pi)*1.5*1.5},
		{"corner", Pen(Black, 3), Polyline(pt2(10, 10), pt2(40, 10), pt2(40, 40)), 60*3 + math.Pi*1.5*1.5*1.25 - 1.5*1.5},
		{"dashes", dashed, Polyline(pt2(5, 30), pt2(55, 30)), 35 * 3}, // 6 full dashes and 5 mm
		{"dot", Pen(Black, 3), Polyline(pt2(30, 30)), math.Pi * 1.5 * 1.5},
	}
	for _, c := range cases {
		if got := area(c.s, c.p); math.Abs(got-c.want) > 0.005*c.want {
			t.Errorf("%s: %.3f mm², want %.3f", c.name, got, c.want)
		}
	}
}

func TestPNGRefusesHugePictures(t *testing.T) {
	var b bytes.Buffer
	if err := PNG(&b, Page{5000, 5000, &List{}}, 1200); err == nil || b.Len() > 0 {
		t.Errorf("error %v, %d bytes", err, b.Len())
	}
}

func TestPNGSampler(t *testing.T) {
	var b, again bytes.Buffer
	if err := PNG(&b, sampler(), 150); err != nil {
		t.Fatal(err)
	}
	if err := PNG(&again, sampler(), 150); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(b.Bytes(), again.Bytes()) {
		t.Error("two runs differ")
	}
	look(t, "sampler.png", b.Bytes())
}

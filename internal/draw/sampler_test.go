package draw

import (
	"bytes"
	"image"
	"math"
	"os"
	"path/filepath"
	"testing"

	"gusset/internal/geom"
)

// shapes has something of every kind that is not text.
func shapes() *List {
	l := &List{Title: "shapes < & >"}
	red, blue := RGB(190, 40, 30), RGB(30, 70, 180)
	l.Layer("cut line", func(l *List) {
		var p Path
		p.Move(geom.Pt{X: 10, Y: 80})
		p.Cubic(geom.Pt{X: 10, Y: 110}, geom.Pt{X: 50, Y: 115}, geom.Pt{X: 60, Y: 90})
		p.Line(geom.Pt{X: 55, Y: 70})
		p.Close()
		l.Path(Style{Stroke: Black, Width: 1.5, Fill: RGB(250, 220, 120)}, p)
		l.Rect(Pen(red, 0.5), Box(70, 75, 30, 35))
	})
	l.Layer("stitching line", func(l *List) {
		l.Path(DashPen(blue, 0.8, 4, 2), Polyline(geom.Pt{X: 10, Y: 60}, geom.Pt{X: 60, Y: 62}, geom.Pt{X: 62, Y: 45}, geom.Pt{X: 20, Y: 57}))
		butt := DashPen(blue, 2, 5, 3)
		butt.Cap = CapButt
		l.Circle(butt, geom.Pt{X: 85, Y: 55}, 14)
	})
	l.Clip(Box(10, 10, 40, 25), func(l *List) {
		l.Circle(Fill(red.Fade(0.5)), geom.Pt{X: 15, Y: 20}, 20)
		l.Clip(Box(20, 5, 60, 20), func(l *List) {
			l.Circle(Fill(blue.Fade(0.5)), geom.Pt{X: 45, Y: 20}, 18)
		})
	})
	// A ring: the hole runs the other way round.
	ring := Circle(geom.Pt{X: 75, Y: 22}, 12)
	ring.Append(Polygon(geom.Pt{X: 70, Y: 17}, geom.Pt{X: 70, Y: 27}, geom.Pt{X: 80, Y: 27}, geom.Pt{X: 80, Y: 17}))
	l.Path(Fill(Gray(90)), ring)
	turned := geom.Turn(math.Pi/6, geom.Pt{X: 100, Y: 20})
	l.Transform(turned, func(l *List) { l.Rect(Pen(Black, 1), Box(94, 10, 12, 20)) })
	return l
}

// sampler is a page with every kind of shape and of text.
func sampler() Page {
	l := shapes()
	l.Text(Text{At: geom.Pt{X: 10, Y: 138}, Size: 6, Body: "Front × 2 – 12½ cm, 45°"})
	l.Text(Text{At: geom.Pt{X: 110, Y: 123}, Size: 4, Anchor: End, Body: "café éàü"})
	l.Text(Text{At: geom.Pt{X: 60, Y: 117}, Size: 4, Anchor: Middle, Bold: true, Body: "bold edge", Color: RGB(0, 90, 60)})
	l.Text(Text{At: geom.Pt{X: 5, Y: 70}, Size: 4, Angle: 90, Anchor: Middle, Body: "upwards"})
	mirror := geom.MirrorAbout(geom.Pt{X: 60}, geom.Pt{X: 60, Y: 1})
	l.Transform(mirror, func(l *List) {
		l.Text(Text{At: geom.Pt{X: 10, Y: 128}, Size: 4, Body: "read me, mirrored"})
	})
	return Page{Width: 120, Height: 150, List: l}
}

// look writes a picture where GUSSET_LOOK says, for a person to see.
func look(t *testing.T, name string, data []byte) {
	t.Helper()
	if dir := os.Getenv("GUSSET_LOOK"); dir != "" {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
}

// grayOf returns a picture in grey.
func grayOf(img image.Image) *image.Gray {
	b := img.Bounds()
	out := image.NewGray(image.Rect(0, 0, b.Dx(), b.Dy()))
	for y := range b.Dy() {
		for x := range b.Dx() {
			out.Set(x, y, img.At(b.Min.X+x, b.Min.Y+y))
		}
	}
	return out
}

// differing returns the share of pixels that differ by more than a quarter of
// the range, once a shift of one pixel is forgiven: renderers agree on shapes
// but not on how a pixel at their border is shared out.
func differing(a, b *image.Gray) float64 {
	w, h := min(a.Rect.Dx(), b.Rect.Dx()), min(a.Rect.Dy(), b.Rect.Dy())
	bad := 0
	for y := 1; y < h-1; y++ {
		for x := 1; x < w-1; x++ {
			v := int(a.GrayAt(x, y).Y)
			lo, hi := 255, 0
			for dy := -1; dy <= 1; dy++ {
				for dx := -1; dx <= 1; dx++ {
					n := int(b.GrayAt(x+dx, y+dy).Y)
					lo, hi = min(lo, n), max(hi, n)
				}
			}
			if v < lo-64 || v > hi+64 {
				bad++
			}
		}
	}
	return float64(bad) / float64(w*h)
}

func rasterOf(t *testing.T, p Page, dpi float64) *image.Gray {
	t.Helper()
	img, err := Raster(p, dpi)
	if err != nil {
		t.Fatal(err)
	}
	return grayOf(img)
}

// The three writers and two outside renderers (poppler for PDF, librsvg for
// SVG) paint the same picture. Browsers and librsvg set SVG text in type of
// their own, so that comparison is of shapes.
func TestRenderersAgree(t *testing.T) {
	const dpi = 200
	const allowed = 1e-4 // of the pixels
	p := sampler()
	file := pdfFile(t, Doc{Pages: []Page{p}})
	ours, theirs := rasterOf(t, p, dpi), rasterised(t, file, 1, dpi, pixelCrop{})
	if d := max(differing(ours, theirs), differing(theirs, ours)); d > allowed {
		t.Errorf("PNG and PDF differ in %.3g of their pixels", d)
	}
	if d := differing(ours, rasterOf(t, Page{p.Width, p.Height, shapes()}, dpi)); d < 10*allowed {
		t.Errorf("the comparison does not see that text is missing: %.3g", d)
	}

	bare := Page{p.Width, p.Height, shapes()}
	var b bytes.Buffer
	if err := SVG(&b, bare); err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(t.TempDir(), "out.png")
	runTool(t, "rsvg-convert", "--dpi-x=200", "--dpi-y=200", "-b", "white", "-o", out, keep(t, "in.svg", b.Bytes()))
	f, err := os.Open(out)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, _, err := image.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	ours, theirs = rasterOf(t, bare, dpi), grayOf(img)
	if d := max(differing(ours, theirs), differing(theirs, ours)); d > allowed {
		t.Errorf("PNG and SVG differ in %.3g of their pixels", d)
	}
}

package draw

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"gusset/internal/geom"
)

// big is a drawing of 500 × 640 mm: a piece larger than two sheets each way
// with lines in it, and a small one in the lower right corner.
func big() (*List, Rect) {
	l := &List{Title: "big"}
	l.Path(Pen(Black, 0.5), Polygon(pt2(5, 200), pt2(380, 210), pt2(400, 630), pt2(20, 635)))
	l.Circle(Pen(Black, 0.5), pt2(460, 40), 30)
	l.Line(DashPen(Black, 0.25, 4, 2), pt2(30, 260), pt2(360, 600))
	l.Text(Text{At: pt2(60, 520), Size: 20, Body: "front"})
	return l, Box(0, 0, 500, 640)
}

func tilesOf(t *testing.T, l *List, area Rect, p Paper) Tiles {
	t.Helper()
	tiles, err := l.Tile(area, p)
	if err != nil {
		t.Fatal(err)
	}
	return tiles
}

func TestTileNames(t *testing.T) {
	for _, c := range []struct {
		column, row int
		want        string
	}{{0, 0, "A1"}, {1, 2, "B3"}, {25, 0, "Z1"}, {26, 0, "AA1"}, {27, 9, "AB10"}, {701, 0, "ZZ1"}, {702, 0, "AAA1"}} {
		if got := tileName(c.column, c.row); got != c.want {
			t.Errorf("column %d, row %d: %s, want %s", c.column, c.row, got, c.want)
		}
	}
}

func TestTilesSkipOnlyWhatShowsNothing(t *testing.T) {
	l, area := big()
	tiles := tilesOf(t, l, area, A4)
	var names []string
	for _, s := range tiles.Sheets {
		names = append(names, s.Name)
	}
	// A4 upright has windows of 186 × 267 mm: 3 × 3, of which the lower row
	// shows only the ring, in C3. On its side it takes as many, 2 × 4 less A4.
	want := "[A1 B1 C1 A2 B2 C2 C3]"
	if got := fmt.Sprint(names); got != want || tiles.Columns != 3 || tiles.Rows != 3 {
		t.Errorf("%d × %d sheets %s, want %s", tiles.Columns, tiles.Rows, got, want)
	}
	// A sheet in the middle of a piece shows no line, but is part of it.
	l = &List{}
	l.Rect(Pen(Black, 0.5), Box(0, 0, 600, 900))
	if got := len(tilesOf(t, l, Box(0, 0, 600, 900), A4).Sheets); got != 15 {
		t.Errorf("a large box takes %d sheets, want 15", got)
	}
}

func TestTileRefusals(t *testing.T) {
	l, _ := big()
	for name, c := range map[string]struct {
		area  Rect
		paper Paper
		want  string
	}{
		"empty area":  {Box(0, 0, 0, 10), A4, "the area is empty"},
		"tiny paper":  {Box(0, 0, 100, 100), Paper{"card", 30, 40, 7}, "leaves no room"},
		"too many":    {Box(0, 0, 1e7, 1e7), A4, "more than 10000 sheets"},
		"not numbers": {Rect{Max: geom.Pt{X: math.NaN(), Y: 1}}, A4, "the area is empty"},
	} {
		if _, err := l.Tile(c.area, c.paper); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", name, err, c.want)
		}
	}
}

// Live windows do not overlap, and every point drawn is in one of a sheet that
// is made.
func TestLiveWindowsSplitTheArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := rapid.Float64Range(50, 1200).Draw(t, "w")
		h := rapid.Float64Range(50, 1200).Draw(t, "h")
		x := rapid.Float64Range(-500, 500).Draw(t, "x")
		var pts []geom.Pt
		for range rapid.IntRange(1, 5).Draw(t, "n") {
			pts = append(pts, pt2(x+w*rapid.Float64Range(0, 1).Draw(t, "px"), h*rapid.Float64Range(0, 1).Draw(t, "py")))
		}
		l := &List{}
		l.Path(Pen(Black, 0.5), Polyline(pts...))
		tiles, err := l.Tile(Box(x, 0, w, h), Letter)
		if err != nil {
			t.Fatal(err)
		}
		for i, a := range tiles.Sheets {
			for _, b := range tiles.Sheets[:i] {
				if shared := a.Live.Intersect(b.Live).Inset(1e-9); !shared.Empty() {
					t.Fatalf("%s and %s share %v", a.Name, b.Name, shared)
				}
			}
		}
		for i := 1; i < len(pts); i++ {
			for k := range 50 {
				p := pts[i-1].Lerp(pts[i], float64(k)/49)
				in := false
				for _, s := range tiles.Sheets {
					in = in || s.Live.Inset(-1e-6).Contains(p)
				}
				if !in {
					t.Fatalf("no sheet shows %v", p)
				}
			}
		}
	})
}

// Both sheets at a joint have its rings, at the same place of the drawing.
func TestJointMarksAreShared(t *testing.T) {
	l, area := big()
	tiles := tilesOf(t, l, area, A4)
	rings := map[string]map[geom.Pt]int{}
	for _, s := range tiles.Sheets {
		mine := &List{}
		tiles.joints(mine, s)
		walk(mine.items, func(it item) {
			if it.shape == nil || len(it.shape.path.Steps) != 6 {
				return
			}
			box, _ := it.shape.path.box()
			c := box.Center()
			at := geom.Pt{X: math.Round(c.X*1e6) / 1e6, Y: math.Round(c.Y*1e6) / 1e6}
			if rings[s.Name] == nil {
				rings[s.Name] = map[geom.Pt]int{}
			}
			rings[s.Name][at]++
		})
	}
	all := map[geom.Pt]int{}
	for _, mine := range rings {
		for at, n := range mine {
			all[at] += n
		}
	}
	for at, n := range all {
		if n != 2 {
			t.Errorf("ring at %v is on %d sheets, want 2", at, n)
		}
	}
	// A1-B1, B1-C1, A2-B2, B2-C2, A1-A2, B1-B2, C1-C2, C2-C3, two rings each.
	if len(all) != 16 {
		t.Errorf("%d rings, want 16", len(all))
	}
}

// Cut and laid together, the windows of the sheets give the whole drawing. At
// 5 pixels per mm the windows begin at whole pixels.
func TestSheetsGiveTheWholeDrawing(t *testing.T) {
	const k = 5
	l, area := big()
	whole := rasterOf(t, Page{area.Max.X, area.Max.Y, l}, k*25.4)
	laid := rasterOf(t, Page{area.Max.X, area.Max.Y, &List{}}, k*25.4)
	tiles := tilesOf(t, l, area, A4)
	for _, s := range tiles.Sheets {
		img := rasterOf(t, s.Page, k*25.4)
		left, top := int(A4.Margin*k), int(A4.Margin*k)
		x0, y0 := int(math.Round(s.Live.Min.X*k)), int(math.Round((area.Max.Y-s.Live.Max.Y)*k))
		for y := range int(math.Round(s.Live.H() * k)) {
			for x := range int(math.Round(s.Live.W() * k)) {
				if x0+x < laid.Rect.Dx() && y0+y < laid.Rect.Dy() {
					laid.SetGray(x0+x, y0+y, img.GrayAt(left+x, top+y))
				}
			}
		}
	}
	// What is drawn is there, and what joints add is grey. The rasteriser sums
	// along a line in single precision: a long one, begun elsewhere, comes out
	// up to 8 of 255 steps of grey apart, 0.006 mm here.
	const step = 12
	missing, added := 0, 0
	for y := range whole.Rect.Dy() {
		for x := range whole.Rect.Dx() {
			a, b := int(whole.GrayAt(x, y).Y), int(laid.GrayAt(x, y).Y)
			if b > a+step {
				missing++
			}
			if a == 255 && b < 80 {
				added++
			}
		}
	}
	if missing > 0 || added > 0 {
		t.Errorf("%d pixels missing, %d too dark", missing, added)
	}
}

func TestTilePicture(t *testing.T) {
	l, area := big()
	tiles := tilesOf(t, l, area, A4)
	for _, s := range tiles.Sheets[:4] {
		var b bytes.Buffer
		if err := PNG(&b, s.Page, 75); err != nil {
			t.Fatal(err)
		}
		look(t, "tile-"+s.Name+".png", b.Bytes())
	}
	box := Box(10, 10, 90, 70)
	m := tiles.Map(l, box)
	lo, hi := m.Bounds()
	if !box.Inset(-0.2).Contains(lo) || !box.Inset(-0.2).Contains(hi) || hi.Y-lo.Y < 69 {
		t.Errorf("page map covers %v %v of %v", lo, hi, box)
	}
	var b bytes.Buffer
	if err := PNG(&b, Page{110, 90, m}, 150); err != nil {
		t.Fatal(err)
	}
	look(t, "map.png", b.Bytes())
}

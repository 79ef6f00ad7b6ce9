package sheet

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"testing"

	"gusset/internal/draw"
	"gusset/internal/finish"
	"gusset/internal/geom"
)

const (
	dpi   = 1200
	perMM = dpi / 25.4
	// trueScale is how far a printed length may be off, in mm.
	trueScale = 0.05
)

// print is one printed page to be measured.
type print struct {
	t      *testing.T
	file   string
	page   int
	height float64 // of the page in mm
}

// at returns where a straight line that crosses a window of 3 × 1 mm round the
// expected place really is, in mm, as poppler paints it. upright lines are
// found along x, others along y.
func (p print) at(x, y float64, upright bool) float64 {
	p.t.Helper()
	w, h := 3.0, 1.0
	if !upright {
		w, h = h, w
	}
	px := func(v float64) int { return int(math.Round(v * perMM)) }
	left, top := px(x-w/2), px(p.height-y-h/2)
	data := poppler(p.t, "pdftoppm", "-gray", "-singlefile", "-r", strconv.Itoa(dpi), "-f", strconv.Itoa(p.page), "-l", strconv.Itoa(p.page),
		"-x", strconv.Itoa(left), "-y", strconv.Itoa(top), "-W", strconv.Itoa(px(w)), "-H", strconv.Itoa(px(h)), p.file)
	var cols, rows, most int
	if _, err := fmt.Sscanf(string(data[:min(40, len(data))]), "P5\n%d %d\n%d", &cols, &rows, &most); err != nil {
		p.t.Fatal(err)
	}
	pix := data[len(data)-cols*rows:]
	var sum, moment float64
	for i, v := range pix {
		k := i % cols
		if !upright {
			k = i / cols
		}
		sum += float64(255 - v)
		moment += float64(255-v) * (float64(k) + 0.5)
	}
	if sum == 0 {
		p.t.Fatalf("page %d: no line near (%.1f, %.1f) mm", p.page, x, y)
	}
	if upright {
		return (float64(left) + moment/sum) / perMM
	}
	return p.height - (float64(top)+moment/sum)/perMM
}

func (p print) same(what string, got, want float64) {
	p.t.Helper()
	p.t.Logf("%s: %.4f mm printed, %.4f mm drawn", what, got, want)
	if math.Abs(got-want) > trueScale {
		p.t.Errorf("%s: %.4f mm printed, %.4f mm drawn", what, got, want)
	}
}

// oblong is a piece cut as a plain rectangle without anything inside.
func oblong(w, h float64) []finish.Cut {
	p := outlined("gauge", "Gauge", straight(geom.Pt{X: 10, Y: 10}, geom.Pt{X: w - 10, Y: 10}, geom.Pt{X: w - 10, Y: h - 10}, geom.Pt{X: 10, Y: h - 10})...)
	c := cutFrom(p, 10)
	c.Notches = nil
	return []finish.Cut{c}
}

func TestRollIsTrueToScale(t *testing.T) {
	d, told := Roll(testHeading(), oblong(250, 600), 900)
	if len(told) > 0 {
		t.Fatal(told)
	}
	page := d.Pages[0]
	p := print{t, pdfOf(t, "gauge-roll", d), 1, page.Height}
	a, _ := arrange(append(parts(testHeading(), showEach(oblong(250, 600))), scaleBlock()), 900-2*rollEdge, longestOnRoll)
	for _, part := range a.parts {
		to := func(x, y float64) geom.Pt {
			return part.to.Apply(geom.Pt{X: x, Y: y}).Add(geom.Pt{X: rollEdge, Y: rollEdge + rollFoot})
		}
		if part.outline == nil {
			o := to(12, 0) // the corner of both rules
			p.same("level rule", p.at(o.X+250, o.Y+1.2, true)-p.at(o.X, o.Y+1.2, true), 250)
			p.same("upright rule", p.at(o.X-1.2, o.Y+250, false)-p.at(o.X-1.2, o.Y, false), 250)
			s := to(24, 14)
			p.same("100 mm square across", p.at(s.X+100, s.Y+50, true)-p.at(s.X, s.Y+50, true), 100)
			p.same("100 mm square up", p.at(s.X+50, s.Y+100, false)-p.at(s.X+50, s.Y, false), 100)
			s = to(134, 14)
			p.same("4 in square across", p.at(s.X+101.6, s.Y+50, true)-p.at(s.X, s.Y+50, true), 101.6)
			p.same("4 in square up", p.at(s.X+50, s.Y+101.6, false)-p.at(s.X+50, s.Y, false), 101.6)
			continue
		}
		lo, hi := to(0, 0), to(250, 600)
		box := draw.Rect{Min: geom.Pt{X: min(lo.X, hi.X), Y: min(lo.Y, hi.Y)}, Max: geom.Pt{X: max(lo.X, hi.X), Y: max(lo.Y, hi.Y)}}
		y, x := box.Min.Y+25, box.Min.X+25
		p.same("piece across", p.at(box.Max.X, y, true)-p.at(box.Min.X, y, true), box.W())
		p.same("piece up", p.at(x, box.Max.Y, false)-p.at(x, box.Min.Y, false), box.H())
	}
}

func TestFirstTiledPageIsTrueToScale(t *testing.T) {
	for _, paper := range []draw.Paper{draw.A4, draw.Letter} {
		d, err := Tiled(testHeading(), testCuts(), paper)
		if err != nil {
			t.Fatal(err)
		}
		p := print{t, pdfOf(t, "cover-"+paper.Name, d), 1, paper.Height}
		p.same("upright rule", p.at(15.8, 268, false)-p.at(15.8, 18, false), 250)
		p.same("level rule", p.at(197, 19.2, true)-p.at(17, 19.2, true), 180)
		p.same("100 mm square across", p.at(126, 100, true)-p.at(26, 100, true), 100)
		p.same("100 mm square up", p.at(76, 130, false)-p.at(76, 30, false), 100)
		p.same("4 in square across", p.at(127.6, 160, true)-p.at(26, 160, true), 101.6)
		p.same("4 in square up", p.at(76, 237.6, false)-p.at(76, 136, false), 101.6)
	}
}

// A piece of 420 × 560 mm takes at least two sheets each way. Its sides are measured on
// the pages they are printed on, and the pages are joined where the windows
// meet.
func TestPieceOverJointsIsTrueToScale(t *testing.T) {
	const w, h = 420.0, 560.0
	for _, paper := range []draw.Paper{draw.A4, draw.Letter} {
		cuts := oblong(w, h)
		d, err := Tiled(testHeading(), cuts, paper)
		if err != nil {
			t.Fatal(err)
		}
		file := pdfOf(t, "gauge-"+paper.Name, d)
		a, tiles, err := fewestSheets(testHeading(), showEach(cuts), paper)
		if err != nil {
			t.Fatal(err)
		}
		var pts []geom.Pt
		for _, q := range a.parts[0].outline {
			pts = append(pts, a.parts[0].to.Apply(q))
		}
		lo, hi := geom.BoundsOf(pts)
		// found returns where a side is printed, in the drawing's coordinates.
		found := func(q geom.Pt, upright bool) float64 {
			for i, s := range tiles.Sheets {
				if s.Live.Inset(2).Contains(q) {
					shift := geom.Pt{X: tiles.Paper.Margin, Y: tiles.Paper.Height - tiles.Paper.Margin}.Sub(s.Live.TopLeft())
					p := print{t, file, 2 + i, tiles.Paper.Height}
					at := q.Add(shift)
					if upright {
						return p.at(at.X, at.Y, true) - shift.X
					}
					return p.at(at.X, at.Y, false) - shift.Y
				}
			}
			t.Fatalf("no sheet shows %v", q)
			return 0
		}
		if len(tiles.Sheets) < 4 {
			t.Errorf("%s: %d sheets, want at least 4", paper.Name, len(tiles.Sheets))
		}
		y, x := lo.Y+30, lo.X+30
		p := print{t: t}
		p.same(paper.Name+" across", found(geom.Pt{X: hi.X, Y: y}, true)-found(geom.Pt{X: lo.X, Y: y}, true), hi.X-lo.X)
		p.same(paper.Name+" up", found(geom.Pt{X: x, Y: hi.Y}, false)-found(geom.Pt{X: x, Y: lo.Y}, false), hi.Y-lo.Y)
		if d := math.Abs(min(hi.X-lo.X, hi.Y-lo.Y) - w); d > 1e-6 || math.Abs(max(hi.X-lo.X, hi.Y-lo.Y)-h) > 1e-6 {
			t.Errorf("the piece is drawn %v to %v", lo, hi)
		}
	}
}

// No part lies on another, and all lie on the strip.
func TestArrangedPartsAreApart(t *testing.T) {
	all := append(parts(testHeading(), showEach(testCuts())), scaleBlock())
	for _, width := range []float64{400, 700, 1500} {
		a, left := arrange(all, width, math.Inf(1))
		if len(left) > 0 || len(a.parts) != len(all) {
			t.Fatalf("%g mm: %d parts left", width, len(left))
		}
		var boxes []draw.Rect
		for _, p := range a.parts {
			p0, p1 := p.to.Apply(p.box.Min), p.to.Apply(p.box.Max)
			lo, hi := geom.BoundsOf([]geom.Pt{p0, p1})
			box := draw.Rect{Min: lo, Max: hi}
			if !a.area().Contains(lo) || !a.area().Contains(hi) {
				t.Errorf("%g mm: %s lies outside", width, p.name)
			}
			for _, other := range boxes {
				if !box.Inset(-partGap / 2.001).Intersect(other.Inset(-partGap / 2.001)).Inset(0.01).Empty() {
					t.Errorf("%g mm: %s lies on another part", width, p.name)
				}
			}
			boxes = append(boxes, box)
		}
	}
	if _, left := arrange(all, 400, 300); len(left) == 0 {
		t.Error("a strip of 400 × 300 mm takes everything")
	}
}

func TestRollOfSeveralPages(t *testing.T) {
	var cuts []finish.Cut
	for i := range 8 {
		c := oblong(500, 1500)[0]
		c.Piece = fmt.Sprintf("panel-%d", i)
		cuts = append(cuts, c)
	}
	d, told := Roll(testHeading(), cuts, 900)
	if len(told) > 0 || len(d.Pages) < 2 {
		t.Fatalf("%d pages, %v", len(d.Pages), told)
	}
	var b bytes.Buffer
	if err := draw.PDF(&b, d); err != nil {
		t.Error(err)
	}
}

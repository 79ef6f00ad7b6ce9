package source

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
)

// page is a drawing on a page of 200 by 100 mm whose corner is not the origin.
func page(body string) File {
	return File{Path: "patterns/quay/front.svg", Data: []byte(`<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" xmlns:ed="urn:editor" viewBox="-10 20 200 100" width="200mm" height="10cm">
` + body + "\n</svg>\n")}
}

func TestReadSVG(t *testing.T) {
	svg, found := ReadSVG(page(`<title>page</title><metadata><ed:x id="a"/></metadata><defs><path id="a" d="A"/></defs>
<ed:view id="a"><path id="a" d="broken"/></ed:view>
<g id="S12" ed:layer="yes"><g><g id="edges">
  <path id="S12.outseam" class="cut" ed:d="x" d="M-10 120 h10 v-20 l5,5 z m 1-1.5.5.5"><title> out
  seam </title><desc>x</desc></path>
  <line id="grain" x1="0" y1="20" x2="10" y2="30"/>
</g></g></g>
<polyline points="0,20 10,20 10,30"/>
<circle id="drill" cx="90" cy="70" r="2"/>
<text id="name" x="-10" y="120">Quay <tspan x="3">front <tspan>left</tspan></tspan></text>`))
	if len(found) > 0 {
		t.Fatal(texts(found))
	}
	var got []string
	for _, e := range svg.Elements {
		got = append(got, fmt.Sprintf("%s %s %s %v %q %q %d:%d %v %v %v", e.Kind, e.ID, e.Class, e.Groups, e.Label, e.Text,
			e.Place.Line, e.Place.Col, e.Center, e.R, len(e.Subpaths)))
	}
	want := []string{
		`path S12.outseam cut [S12 edges] "out seam" "" 6:3 [0 0] 0 2`,
		`line grain  [S12 edges] "" "" 8:3 [0 0] 0 1`,
		`polyline   [] "" "" 10:1 [0 0] 0 1`,
		`circle drill  [] "" "" 11:1 [100 50] 2 0`,
		`text name  [] "" "Quay front left" 12:1 [0 0] 0 0`,
	}
	if !slices.Equal(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if svg.ViewBox != [4]float64{-10, 20, 200, 100} {
		t.Errorf("viewBox %v", svg.ViewBox)
	}
	outseam := svg.Elements[0]
	if !outseam.Subpaths[0].Closed || outseam.Subpaths[1].Closed || len(outseam.Subpaths[0].Segs) != 4 {
		t.Errorf("outseam: %+v", outseam.Subpaths)
	}
	// The page's bottom-left corner is (0, 0) and y goes up.
	wantEnds(t, "outseam", outseam.Subpaths[0], [][2]float64{{0, 0}, {10, 0}, {10, 20}, {15, 15}, {0, 0}})
	wantEnds(t, "after z", outseam.Subpaths[1], [][2]float64{{1, 1.5}, {1.5, 1}})
	wantEnds(t, "grain", svg.Elements[1].Subpaths[0], [][2]float64{{10, 100}, {20, 90}})
	wantEnds(t, "polyline", svg.Elements[2].Subpaths[0], [][2]float64{{10, 100}, {20, 100}, {20, 90}})
}

func wantEnds(t *testing.T, name string, p Path, want [][2]float64) {
	t.Helper()
	got := [][2]float64{p.Segs[0].P[0]}
	for i, s := range p.Segs {
		got = append(got, s.P[3])
		if i > 0 && s.P[0] != p.Segs[i-1].P[3] {
			t.Errorf("%s: segment %d begins at %v, the last ended at %v", name, i, s.P[0], p.Segs[i-1].P[3])
		}
		for k := 1; k <= 2 && !s.Cubic; k++ {
			f := float64(k) / 3
			if far(s.P[k], [2]float64{s.P[0][0] + f*(s.P[3][0]-s.P[0][0]), s.P[0][1] + f*(s.P[3][1]-s.P[0][1])}) {
				t.Errorf("%s: a line's controls are not at its thirds: %v", name, s.P)
			}
		}
	}
	for i := range want {
		if len(got) != len(want) || far(got[i], want[i]) {
			t.Errorf("%s: ends %v, want %v", name, got, want)
			return
		}
	}
}

func far(a, b [2]float64) bool { return math.Hypot(a[0]-b[0], a[1]-b[1]) > 1e-9 }

// Transforms by hand, from the definitions in CSS Transforms Level 1: the point
// drawn at (3, 1) on a page whose top-left corner is (-10, 20), 100 mm high.
func TestTransforms(t *testing.T) {
	for _, c := range []struct {
		transform string
		x, y      float64 // as drawn, after the transform
	}{
		{"", 3, 1},
		{"translate(5)", 8, 1},
		{"translate(5,-2)", 8, -1},
		{" translate( 5 -2 ) ", 8, -1},
		{"scale(2)", 6, 2},
		{"scale(2 3)", 6, 3},
		{"scale(-1,1)", -3, 1},
		{"rotate(90)", -1, 3}, // clockwise on the page, as y goes down there
		{"rotate(-90)", 1, -3},
		{"rotate(180)", -3, -1},
		{"rotate(450)", -1, 3},
		{"rotate(90 3 1)", 3, 1},
		{"rotate(90,0,1)", 0, 4},
		{"rotate(30)", 3*math.Sqrt(3)/2 - 0.5, 1.5 + math.Sqrt(3)/2},
		{"matrix(1 2 3 4 5 6)", 11, 16},
		{"translate(5,0) scale(2)", 11, 2},
		{"scale(2),translate(5,0)", 16, 2},
	} {
		for _, body := range []string{
			`<line x2="3" y2="1" transform="` + c.transform + `"/>`,
			`<g transform="` + c.transform + `"><path d="M0 0 3 1"/></g>`,
			`<g transform="translate(1,1)"><g transform="translate(-1,-1)"><text x="3" y="1" transform="` + c.transform + `">a</text></g></g>`,
		} {
			svg, found := ReadSVG(page(body))
			if len(found) > 0 || len(svg.Elements) != 1 {
				t.Errorf("%s: %v", body, texts(found))
				continue
			}
			got := svg.Elements[0].Center
			if p := svg.Elements[0].Subpaths; len(p) > 0 {
				got = p[0].Segs[0].P[3]
			}
			if want := [2]float64{c.x + 10, 120 - c.y}; far(got, want) {
				t.Errorf("%s: at %v, want %v", body, got, want)
			}
		}
	}
	svg, _ := ReadSVG(page(`<circle r="2" transform="rotate(30) scale(-3,3)"/>`))
	if math.Abs(svg.Elements[0].R-6) > 1e-9 {
		t.Errorf("a circle scaled three times has r %v", svg.Elements[0].R)
	}
}

// A quadratic raised to a cubic is the same curve; S and T reflect the last
// control point (SVG 2, section 9.3.6 and 9.3.7).
func TestPathCurves(t *testing.T) {
	for _, c := range []struct {
		data string
		want [4][2]float64 // of the last segment
	}{
		{"M0 0C1 2 3 4 5 6", [4][2]float64{{0, 0}, {1, 2}, {3, 4}, {5, 6}}},
		{"M1 1c1 2 3 4 5 6", [4][2]float64{{1, 1}, {2, 3}, {4, 5}, {6, 7}}},
		{"M0 0C1 2 3 4 5 6S10 8 9 9", [4][2]float64{{5, 6}, {7, 8}, {10, 8}, {9, 9}}},
		{"M0 0C1 2 3 4 5 6s5 2 4 3", [4][2]float64{{5, 6}, {7, 8}, {10, 8}, {9, 9}}},
		{"M1 1S10 8 9 9", [4][2]float64{{1, 1}, {1, 1}, {10, 8}, {9, 9}}},
		{"M0 0Q1 2 3 4S10 8 9 9", [4][2]float64{{3, 4}, {3, 4}, {10, 8}, {9, 9}}},
		{"M0 0Q3 0 3 3", [4][2]float64{{0, 0}, {2, 0}, {3, 1}, {3, 3}}},
		{"M0 0Q3 0 3 3T6 6", [4][2]float64{{3, 3}, {3, 5}, {4, 6}, {6, 6}}},
		{"M0 0Q3 0 3 3t3 3", [4][2]float64{{3, 3}, {3, 5}, {4, 6}, {6, 6}}},
		{"M0 0L3 3T6 6", [4][2]float64{{3, 3}, {3, 3}, {4, 4}, {6, 6}}},
		{"M0 0q3 0 3 3 0 3 3 3", [4][2]float64{{3, 3}, {3, 5}, {4, 6}, {6, 6}}},
		{"m1 1 2 2 3 3", [4][2]float64{{3, 3}, {4, 4}, {5, 5}, {6, 6}}},
		{"M1e1-5E-1h+.5.5", [4][2]float64{{10.5, -0.5}, {10.5 + 1./6, -0.5}, {10.5 + 1./3, -0.5}, {11, -0.5}}},
		{"M0,0,3,3V0", [4][2]float64{{3, 3}, {3, 2}, {3, 1}, {3, 0}}},
		{"M0 0 3 0 3 3Z", [4][2]float64{{3, 3}, {2, 2}, {1, 1}, {0, 0}}},
		{"M0 0 3 0 3 3 0 0Z", [4][2]float64{{3, 3}, {2, 2}, {1, 1}, {0, 0}}},
		{"M9 9 8 8Zl-3-3", [4][2]float64{{9, 9}, {8, 8}, {7, 7}, {6, 6}}},
		{"M0 0M1 1M3 3L0 0", [4][2]float64{{3, 3}, {2, 2}, {1, 1}, {0, 0}}},
	} {
		paths, fault := pathData(c.data)
		if fault != nil {
			t.Errorf("%s: %+v", c.data, fault)
			continue
		}
		last := paths[len(paths)-1].Segs
		got := last[len(last)-1]
		for i := range got.P {
			if far(got.P[i], c.want[i]) {
				t.Errorf("%s: %v, want %v", c.data, got.P, c.want)
				break
			}
		}
	}
}

package sheet

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/draw"
	"gusset/internal/finish"
	"gusset/internal/geom"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// testCuts are the pieces of a plain bag-topped skirt panel set, made by hand:
// a tall panel as a pair, a small pocket as a pair, a band on the fold, and a
// narrow strip cut six times.
func testCuts() []finish.Cut {
	panel := outlined("panel", "Panel", geom.Curve{
		geom.Line(geom.Pt{}, geom.Pt{X: 320, Y: 0}),
	}, geom.Curve{
		geom.Cubic(geom.Pt{X: 320, Y: 0}, geom.Pt{X: 300, Y: 300}, geom.Pt{X: 290, Y: 500}, geom.Pt{X: 230, Y: 700}),
	}, geom.Curve{
		geom.Cubic(geom.Pt{X: 230, Y: 700}, geom.Pt{X: 160, Y: 690}, geom.Pt{X: 90, Y: 690}, geom.Pt{X: 20, Y: 705}),
	}, geom.Curve{
		geom.Line(geom.Pt{X: 20, Y: 705}, geom.Pt{}),
	})
	panel.Lines = []piece.Line{
		{Kind: piece.Grain, Name: "grain", Curve: geom.Polyline(geom.Pt{X: 150, Y: 100}, geom.Pt{X: 150, Y: 600})},
		{Kind: piece.Level, Name: "hip", Curve: geom.Polyline(geom.Pt{X: 15, Y: 520}, geom.Pt{X: 275, Y: 520})},
		{Kind: piece.Placement, Name: "pocket", Curve: geom.Polyline(geom.Pt{X: 90, Y: 480}, geom.Pt{X: 220, Y: 480})},
		{Kind: piece.Lengthen, Name: "skirt", Curve: geom.Polyline(geom.Pt{X: 10, Y: 350}, geom.Pt{X: 300, Y: 350})},
	}
	panel.Marks = []piece.Mark{{Kind: piece.Drill, Name: "dart", P: geom.Pt{X: 60, Y: 600}}}
	pocket := outlined("pocket", "Patch pocket", straight(geom.Pt{}, geom.Pt{X: 130}, geom.Pt{X: 130, Y: 150}, geom.Pt{Y: 150})...)
	pocket.Lines = []piece.Line{{Kind: piece.Grain, Curve: geom.Polyline(geom.Pt{X: 65, Y: 20}, geom.Pt{X: 65, Y: 130})}}
	band := outlined("band", "Band", straight(geom.Pt{}, geom.Pt{X: 380}, geom.Pt{X: 380, Y: 70}, geom.Pt{Y: 70})...)
	strip := outlined("strip", "Loop strip", straight(geom.Pt{}, geom.Pt{X: 12}, geom.Pt{X: 12, Y: 300}, geom.Pt{Y: 300})...)

	cuts := pairOf(cutFrom(panel, 15))
	cuts = append(cuts, pairOf(cutFrom(pocket, 10))...)
	cuts = append(cuts, foldCut(band, 10))
	for i := range 6 {
		c := cutFrom(strip, 8)
		c.Copy, c.Number = piece.Single, i+1
		cuts = append(cuts, c)
	}
	return cuts
}

// laidCuts are the same pieces with their cut lines in whole micrometres.
func laidCuts() []finish.Cut {
	cuts := testCuts()
	for i := range cuts {
		for _, q := range cuts[i].Exact {
			cuts[i].Outline = append(cuts[i].Outline, finish.Micron{X: int64(math.Round(q.X * 1000)), Y: int64(math.Round(q.Y * 1000))})
		}
		if cuts[i].Number > 1 {
			cuts[i].ID += fmt.Sprintf("#%d", cuts[i].Number)
		}
	}
	return cuts
}

func straight(pts ...geom.Pt) []geom.Curve {
	var out []geom.Curve
	for i, p := range pts {
		out = append(out, geom.Curve{geom.Line(p, pts[(i+1)%len(pts)])})
	}
	return out
}

var edgeNames = []string{"hem", "side", "waist", "centre"}

func outlined(name, title string, curves ...geom.Curve) piece.Piece {
	p := piece.Piece{Name: name, Title: title}
	for i, c := range curves {
		p.Edges = append(p.Edges, piece.Edge{Name: edgeNames[i], Curve: c})
	}
	return p
}

// cutFrom adds one allowance all round, by geom's plain polygon offset.
func cutFrom(p piece.Piece, allowance float64) finish.Cut {
	c := finish.Cut{ID: p.Name, Piece: p.Name, Title: p.Title, Cloth: cloth.Main, Sewn: p, Number: 1}
	c.Exact = geom.OffsetPolyline(p.Outline(0.01), -allowance, 4)[0]
	for _, e := range p.Edges {
		mid := e.Curve.At(e.Curve.Length() / 2)
		c.Allowances = append(c.Allowances, finish.Allowance{Edge: e.Name, Width: allowance, At: mid})
	}
	side := p.Edges[1].Curve
	at := side.Length() / 2
	in := side.TangentAt(at).Left()
	q := side.At(at)
	c.Notches = [][2]geom.Pt{{q.Sub(in.Mul(allowance)), q.Sub(in.Mul(allowance - 6))}}
	return c
}

func pairOf(c finish.Cut) []finish.Cut {
	left, right := c, c
	left.ID, right.ID = c.Piece+"@left", c.Piece+"@right"
	left.Copy, right.Copy = piece.Left, piece.Right
	left.Pair, right.Pair = right.ID, left.ID
	right.Sewn = c.Sewn.Mirror()
	right.Exact = nil
	for i := len(c.Exact) - 1; i >= 0; i-- {
		right.Exact = append(right.Exact, geom.Pt{X: -c.Exact[i].X, Y: c.Exact[i].Y})
	}
	return []finish.Cut{left, right}
}

// foldCut cuts the piece with its left edge ("centre") on the fold.
func foldCut(p piece.Piece, allowance float64) finish.Cut {
	c := cutFrom(p, allowance)
	c.Copy, c.OnFold = piece.Single, true
	c.Allowances = c.Allowances[:3]
	h := 70 + allowance
	c.Exact = []geom.Pt{{X: 0, Y: -allowance}, {X: 380 + allowance, Y: -allowance}, {X: 380 + allowance, Y: h}, {X: 0, Y: h}}
	c.Fold = [2]finish.Micron{{X: 0, Y: int64(-allowance * 1000)}, {X: 0, Y: int64(h * 1000)}}
	return c
}

func testHeading() Heading {
	return Heading{Docket: "Wardrobe skirt for Wren", View: "Panel skirt, short view", Size: "14", Digest: "5e1f09ab", Unit: unit.Millimetre}
}

// pdfOf writes a document to a file; with GUSSET_LOOK also where a person can
// look at it.
func pdfOf(t *testing.T, name string, d draw.Doc) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name+".pdf")
	if dir := os.Getenv("GUSSET_LOOK"); dir != "" {
		path = filepath.Join(dir, name+".pdf")
	}
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := draw.PDF(f, d); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}

func poppler(t *testing.T, name string, args ...string) []byte {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatalf("%s is not installed", name)
		}
		t.Skipf("%s is not installed", name)
	}
	out, err := exec.Command(path, args...).Output()
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return out
}

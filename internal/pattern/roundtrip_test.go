package pattern

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"gusset/internal/geom"

	"pgregory.net/rapid"
)

// backTol is how far a line may lie from where it was drafted, in mm.
const backTol = 0.02

// outlineNames are the edges of the drafted panel, counter-clockwise from the
// lower left corner.
var outlineNames = []string{"hem", "side", "waist", "centre"}

// draft is a panel on its stitching line: straight hem and centre, a side that
// is straight above the hem and then curved, and a curved waist. Curves have
// several segments, since the parallel of one long cubic is no cubic.
func draft(w, top, h, bulge, dip float64) []geom.Curve {
	a, b, b2 := geom.Pt{}, geom.Pt{X: w}, geom.Pt{X: w + bulge/4, Y: h / 4}
	c, d := geom.Pt{X: top, Y: h}, geom.Pt{Y: h - dip}
	side := geom.Cubic(b2, b2.Add(b2.Sub(b)), geom.Pt{X: top + bulge, Y: h * 0.7}, c)
	waist := geom.Cubic(c, geom.Pt{X: top * 0.66, Y: h - dip}, geom.Pt{X: top * 0.33, Y: h - dip}, d)
	return []geom.Curve{
		{geom.Line(a, b)}, append(geom.Curve{geom.Line(b, b2)}, parts(side, 4)...),
		parts(waist, 2), {geom.Line(d, a)},
	}
}

// parts divides a segment into n of equal parameter.
func parts(s geom.Seg, n int) geom.Curve {
	var out geom.Curve
	for k := range n {
		out = append(out, s.Between(float64(k)/float64(n), float64(k+1)/float64(n)))
	}
	return out
}

// printOut is the cut line as a paper prints it: each edge's own parallel,
// neighbours carried on until they meet. It shares the corner solver with what
// it tests; TestRecover and TestPolygon do not.
func printOut(t *rapid.T, edges []geom.Curve, allowances []float64) []geom.Curve {
	n := len(edges)
	moved, corners := make([]geom.Curve, n), make([]corner, n)
	for i, e := range edges {
		var err error
		var off float64
		if moved[i], off, err = e.ParallelSame(-allowances[i]); err != nil || off > backTol/4 {
			t.Skip("bends too sharply to be printed in so few segments")
		}
	}
	for i := range edges {
		a, b := moved[i], moved[(i+1)%n]
		onA, onB, err := cornerOf(a, b, 400)
		if err != nil {
			t.Skip("has no printed corner")
		}
		var ok bool
		if corners[i], ok = settle(a, b, onA[0], onB[0]); !ok {
			t.Skip("has no printed corner")
		}
	}
	out := make([]geom.Curve, n)
	for i := range edges {
		var ok bool
		if out[i], ok = stretch(moved[i], corners[(i+n-1)%n], corners[i]); !ok {
			t.Skip("has nothing left of an edge")
		}
	}
	return out
}

// drawn writes outlines as a drawing of 1200 by 1200 mm with y going down.
func drawn(sizes []string, outlines [][]geom.Curve) string {
	xy := func(p geom.Pt) string { return fmt.Sprintf("%.4f %.4f", p.X+200, 1000-p.Y) }
	var b strings.Builder
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1200 1200">`)
	for k, size := range sizes {
		fmt.Fprintf(&b, `<g id="S%s"><path id="S%[1]s.grain.grain" d="M230 900 V800"/>`, size)
		for i, e := range outlines[k] {
			fmt.Fprintf(&b, `<path id="S%s.%s" d="M%s`, size, outlineNames[i%len(outlineNames)], xy(e.Start()))
			for _, s := range e {
				if s.Straight {
					b.WriteString(" L" + xy(s.P[3]))
				} else {
					b.WriteString(" C" + xy(s.P[1]) + " " + xy(s.P[2]) + " " + xy(s.P[3]))
				}
			}
			b.WriteString(`"/>`)
		}
		b.WriteString("</g>")
	}
	return b.String() + "</svg>"
}

// onePiece is a pattern of that one panel with an allowance for each edge.
func onePiece(sizes []string, allowances []float64) string {
	var b strings.Builder
	b.WriteString("gusset: pattern/1\ntitle: a panel\nchoose: hip\nsizes: [\"" + strings.Join(sizes, `", "`) + "\"]\nchart:\n  unit: cm\n  hip: [")
	for k := range sizes {
		fmt.Fprintf(&b, "%d, ", 90+4*k)
	}
	b.WriteString("]\nprinted: {line: stitching}\npieces:\n  panel:\n    edges:\n")
	for i, a := range allowances {
		fmt.Fprintf(&b, "      %s: {line: cutting, allowance: %g mm}\n", outlineNames[i], a)
	}
	return b.String() + "views:\n  one: {pieces: [{piece: panel, copies: pair, cloth: [main]}]}\n"
}

// apart is the largest distance of sampled points of either curve from the
// other.
func apart(a, b geom.Curve) float64 {
	var worst float64
	for _, c := range [][2]geom.Curve{{a, b}, {b, a}} {
		for k := range 41 {
			_, d := c[1].Nearest(c[0].At(c[0].Length() * float64(k) / 40))
			worst = math.Max(worst, d)
		}
	}
	return worst
}

// What is drafted on the stitching line, printed outwards with an allowance of
// its own for each edge and read back is the draft again, within 0.02 mm, with
// the same segments.
func TestRoundTrip(t *testing.T) {
	sizes := []string{"10", "12", "14"}
	rapid.Check(t, func(t *rapid.T) {
		num := func(label string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, label) }
		tenths := func(label string, most float64) float64 { return math.Round(10*num(label, 0, most)) / 10 }
		allowances := []float64{tenths("hem", 60), tenths("side", 20), tenths("waist", 20), tenths("centre", 25)}
		w, h := num("w", 180, 320), num("h", 300, 700)
		top, bulge, dip := w*num("top", 0.7, 1), num("bulge", -10, 25), num("dip", 0, 20)
		var drafts, prints [][]geom.Curve
		for k := range sizes {
			grow := float64(10 * k)
			d := draft(w+grow, top+grow, h+grow/2, bulge, dip)
			drafts, prints = append(drafts, d), append(prints, printOut(t, d, allowances))
		}
		p, told := load(onePiece(sizes, allowances), map[string]string{"panel.svg": drawn(sizes, prints)})
		g, ok := p.Pieces["panel"]
		if !ok {
			t.Fatalf("not read: %s", strings.Join(told, "\n"))
		}
		for k, in := range g.In {
			for i, e := range in.Edges {
				want := drafts[k][i].Transform(geom.Shift(geom.Pt{X: 200, Y: 200}))
				if off := apart(e.Curve, want); off > backTol {
					t.Errorf("size %s: %s comes back %.4f mm off", sizes[k], e.Name, off)
				}
				if kinds(e.Curve) != kinds(want) {
					t.Errorf("size %s: %s comes back as %q, not %q", sizes[k], e.Name, kinds(e.Curve), kinds(want))
				}
			}
		}
	})
}

// A polygon printed by plane geometry (each side moved out along its normal,
// corners by Cramer's rule) comes back as the polygon.
func TestPolygon(t *testing.T) {
	corners := []geom.Pt{{X: 0, Y: 0}, {X: 300, Y: 20}, {X: 260, Y: 500}, {X: 10, Y: 480}}
	allowances := []float64{40, 15, 10, 0}
	n := len(corners)
	line := func(i int) (nx, ny, c float64) { // nx·x + ny·y = c, the side moved out
		a, b := corners[i], corners[(i+1)%n]
		l := math.Hypot(b.X-a.X, b.Y-a.Y)
		nx, ny = (b.Y-a.Y)/l, -(b.X-a.X)/l
		return nx, ny, nx*a.X + ny*a.Y + allowances[i]
	}
	printed := make([]geom.Pt, n)
	for i := range corners {
		a, b, e := line((i + n - 1) % n)
		c, d, f := line(i)
		det := a*d - b*c
		printed[i] = geom.Pt{X: (e*d - b*f) / det, Y: (a*f - e*c) / det}
	}
	var outline []geom.Curve
	for i := range printed {
		outline = append(outline, geom.Curve{geom.Line(printed[i], printed[(i+1)%n])})
	}
	sizes := []string{"10"}
	p, told := load(onePiece(sizes, allowances), map[string]string{"panel.svg": drawn(sizes, [][]geom.Curve{outline})})
	if len(p.Pieces["panel"].In) != 1 {
		t.Fatal(strings.Join(told, "\n"))
	}
	for i, e := range p.Pieces["panel"].In[0].Edges {
		if d := e.Curve.Start().Sub(geom.Pt{X: 200, Y: 200}).Dist(corners[i]); d > 1e-3 {
			t.Errorf("corner %d is %.5f mm off", i, d)
		}
	}
}

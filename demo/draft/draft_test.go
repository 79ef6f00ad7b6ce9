package main

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

func drafts(t *testing.T) []draft {
	t.Helper()
	d, err := draftAll()
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func edgeOf(t *testing.T, d draft, name, edge string) geom.Curve {
	t.Helper()
	p, ok := d[name]
	if !ok {
		t.Fatalf("no piece %q", name)
	}
	e, ok := p.Edge(edge)
	if !ok {
		t.Fatalf("%s has no edge %q", name, edge)
	}
	return e.Curve
}

// measured is the length of a curve by a fine chain of chords, apart from the
// arc length that the draft solved with.
func measured(c geom.Curve) float64 {
	var sum float64
	for _, s := range c {
		const n = 2000
		for i := range n {
			sum += s.At(float64(i) / n).Dist(s.At(float64(i+1) / n))
		}
	}
	return sum
}

// TestCommittedFilesAreTheDraft: the committed files are what the program draws.
func TestCommittedFilesAreTheDraft(t *testing.T) {
	for _, g := range garments {
		sheets, err := g.draw()
		if err != nil {
			t.Fatal(err)
		}
		folder := "../patterns/" + g.name
		found, err := os.ReadDir(folder)
		if err != nil {
			t.Fatal(err)
		}
		if want := len(sheets) + 1; len(found) != want { // and pattern.yaml
			t.Errorf("%s holds %d files, want %d", folder, len(found), want)
		}
		for _, s := range sheets {
			got, err := os.ReadFile(folder + "/" + s.name + ".svg")
			if err != nil {
				t.Error(err)
				continue
			}
			if !bytes.Equal(got, s.data) {
				t.Errorf("%s/%s.svg is not what the draft draws: run go run ./demo/draft from the repository root", g.name, s.name)
			}
		}
	}
}

// TestChartAgrees compares the chart printed in pattern.yaml with the size
// table that the draft is drawn from.
func TestChartAgrees(t *testing.T) {
	text, err := os.ReadFile("../patterns/quay/pattern.yaml")
	if err != nil {
		t.Fatal(err)
	}
	rows := map[string][]float64{
		"waist": chartWaist, "hip": chartHip, "thigh": chartThigh, "inside-leg": chartInsideLeg,
	}
	for name, values := range rows {
		var words []string
		for _, v := range values {
			words = append(words, inches(v))
		}
		row := fmt.Sprintf("\n  %s: [%s]\n", name, strings.Join(words, ", "))
		if !strings.Contains(string(text), row) {
			t.Errorf("pattern.yaml has no row%s", row)
		}
	}
}

func inches(v float64) string {
	whole, rest := math.Floor(v), v-math.Floor(v)
	part := map[float64]string{0: "", 0.25: " 1/4", 0.5: " 1/2", 0.75: " 3/4"}[rest]
	return fmt.Sprintf("%.0f%s", whole, part)
}

// TestJoinedEdgesAreEquallyLong measures every pair of chains that is sewn
// together, in every size, on the stitching line.
func TestJoinedEdgesAreEquallyLong(t *testing.T) {
	joins := []struct{ a, b string }{
		{"front:outseam", "back:outseam yoke:side"},
		{"front:inseam", "back:inseam"},
		{"front-cropped:outseam", "back-cropped:outseam yoke:side"},
		{"front-cropped:inseam", "back-cropped:inseam"},
		{"back:top", "yoke:lower"},
		{"back-cropped:top", "yoke:lower"},
		{"front:centre", "fly-facing:centre"},
		{"front:centre", "shield:inner"},
		{"front-cropped:centre", "shield:inner"},
		{"front:waist front:waist yoke:waist yoke:waist shield:top", "band:lower"},
		{"front-cropped:waist front:waist yoke:waist yoke:waist shield:bottom", "band:upper"},
		{"bag-front:round", "bag-back:round"},
	}
	chain := func(d draft, text string) float64 {
		var sum float64
		for _, ref := range strings.Fields(text) {
			name, edge, _ := strings.Cut(ref, ":")
			sum += measured(edgeOf(t, d, name, edge))
		}
		return sum
	}
	for i, d := range drafts(t) {
		for _, j := range joins {
			if off := chain(d, j.a) - chain(d, j.b); math.Abs(off) > 0.02 {
				t.Errorf("size %s: %s is %.3f mm longer than %s", labels[i], j.a, off, j.b)
			}
		}
		lo, _ := d["front-cropped"].Notch("outseam", "pocket-bottom")
		hi, _ := d["front-cropped"].Notch("outseam", "pocket-top")
		if off := hi.At - lo.At - measured(edgeOf(t, d, "bag-front", "mouth")); math.Abs(off) > 0.02 {
			t.Errorf("size %s: the pocket mouth misses the bag by %.3f mm", labels[i], off)
		}
		edge, _ := d["front"].Notch("waist", "fly-edge")
		left := measured(edgeOf(t, d, "front", "waist")) - edge.At
		if off := left - measured(edgeOf(t, d, "fly-facing", "waist")); math.Abs(off) > 0.02 {
			t.Errorf("size %s: the top of the facing misses its notch by %.3f mm", labels[i], off)
		}
	}
}

// TestPocketsFitTheirPlace compares each patch pocket's sewn edges with the
// placement line, edge by edge and corner by corner.
func TestPocketsFitTheirPlace(t *testing.T) {
	for i, d := range drafts(t) {
		for pocket, on := range map[string]string{"front-pocket": "front", "back-pocket": "back"} {
			line, _ := d[on].Line(piece.Placement, "pocket")
			sewn := d[pocket].Edges[1:]
			if len(sewn) != len(line.Curve) {
				t.Fatalf("%s has %d sewn edges, its place %d", pocket, len(sewn), len(line.Curve))
			}
			shift := line.Curve.Start().Sub(sewn[0].Curve.Start())
			for k, e := range sewn {
				if off := e.Curve.End().Add(shift).Dist(line.Curve[k].End()); off > 0.02 {
					t.Errorf("size %s: %s:%s ends %.3f mm off its place", labels[i], pocket, e.Name, off)
				}
			}
			for _, p := range line.Curve.Flatten(1) {
				if !geom.Inside(d[on].Outline(0.1), p) {
					t.Errorf("size %s: the place of the %s leaves the %s at %.0f %.0f", labels[i], pocket, on, p.X, p.Y)
				}
			}
		}
	}
}

// TestNotchesBalance checks that a notch lies equally far from the seam's lower
// end on front and back.
func TestNotchesBalance(t *testing.T) {
	for i, d := range drafts(t) {
		for _, ends := range [][2]string{{"front", "back"}, {"front-cropped", "back-cropped"}} {
			for _, m := range d[ends[1]].Marks {
				back := edgeOf(t, d, ends[1], m.Edge)
				other, ok := d[ends[0]].Notch(m.Edge, m.Name)
				if !ok {
					t.Errorf("%s:%s has no notch %s", ends[0], m.Edge, m.Name)
					continue
				}
				front := edgeOf(t, d, ends[0], m.Edge)
				a, b := fromHem(front, other.At), fromHem(back, m.At)
				if math.Abs(a-b) > 0.02 {
					t.Errorf("size %s: %s %s is %.3f mm up the front, %.3f mm up the back", labels[i], m.Edge, m.Name, a, b)
				}
			}
		}
	}
}

func fromHem(c geom.Curve, at float64) float64 {
	if c.Start().Y < c.End().Y {
		return measured(c.Between(0, at))
	}
	return measured(c.Between(at, c.Length()))
}

// everyPiece draws every piece of every garment in every size, as it is printed
// too.
func everyPiece(t *testing.T, look func(what string, p piece.Piece, printed printedPiece)) {
	t.Helper()
	for _, g := range garments {
		drafts, err := g.draft()
		if err != nil {
			t.Fatal(err)
		}
		for i, d := range drafts {
			for name, p := range d {
				printed, err := printPiece(p)
				if err != nil {
					t.Fatal(err)
				}
				look(g.name+" "+g.labels[i]+" "+name, p, printed)
			}
		}
	}
}

// TestCurvesAreSmooth looks for corners inside the edges that are one line to
// the eye, on the stitching line and on the printed line.
func TestCurvesAreSmooth(t *testing.T) {
	everyPiece(t, func(what string, p piece.Piece, printed printedPiece) {
		for k, e := range p.Edges {
			if at := e.Curve.Kinks(1e-9); len(at) > 0 {
				t.Errorf("%s: %s has a corner at %.1f mm", what, e.Name, at)
			}
			if at := printed.cut[k].Kinks(1e-6); len(at) > 0 {
				t.Errorf("%s: the printed %s has a corner at %.1f mm", what, e.Name, at)
			}
		}
	})
}

// TestPrintedLinesKeepTheirAllowance samples the cutting lines, short of the
// ends that a neighbour's cuts off: what is nearer to another edge is not sampled.
func TestPrintedLinesKeepTheirAllowance(t *testing.T) {
	everyPiece(t, func(what string, p piece.Piece, printed printedPiece) {
		for k, e := range p.Edges {
			for _, s := range e.Curve {
				for u := 0.0; u <= 1; u += 0.125 {
					// Square to the stitching line, inside the printed ends.
					q := outside(s, u, e.Printed)
					if _, off := printed.cut[k].Nearest(q); off > 0.01 && geom.Inside(flat(printed), q) && clearOf(p, q) > e.Printed-0.01 {
						t.Errorf("%s: %s is printed %.3f mm off", what, e.Name, off)
					}
				}
			}
		}
	})
}

// clearOf is how far a point lies from the stitching line.
func clearOf(p piece.Piece, q geom.Pt) float64 {
	least := math.Inf(1)
	for _, e := range p.Edges {
		_, off := e.Curve.Nearest(q)
		least = math.Min(least, off)
	}
	return least
}

func flat(p printedPiece) []geom.Pt {
	var out []geom.Pt
	for _, c := range p.cut {
		pts := c.Flatten(0.01)
		out = append(out, pts[:len(pts)-1]...)
	}
	return out
}

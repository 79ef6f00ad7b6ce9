package compare

import (
	"math"
	"testing"

	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// box is a rectangle with a level at half its height and its grain up the middle.
func box(name string, x, y, w, h float64) piece.Piece {
	at := []geom.Pt{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}
	p := piece.Piece{Name: name, Title: name, Lines: []piece.Line{
		{Kind: piece.Level, Name: "hip", Curve: geom.Polyline(geom.Pt{X: x, Y: y + h/2}, geom.Pt{X: x + w, Y: y + h/2})},
		{Kind: piece.Grain, Name: "grain", Curve: geom.Polyline(geom.Pt{X: x + w/2, Y: y + 10}, geom.Pt{X: x + w/2, Y: y + 50})},
	}}
	for i, n := range []string{"hem", "side", "top", "centre"} {
		p.Edges = append(p.Edges, piece.Edge{Name: n, Curve: geom.Polyline(at[i], at[(i+1)%4])})
	}
	return p
}

func garment(pieces ...piece.Piece) pattern.Garment {
	g := pattern.Garment{Pieces: map[string]piece.Piece{}}
	for _, p := range pieces {
		g.Pieces[p.Name] = p
		g.View.Uses = append(g.View.Uses, pattern.Use{Piece: p.Name, Copies: pattern.Pair})
	}
	g.View.Girths = []pattern.Girth{{Zone: "hip", Pieces: []piece.Ref{{Piece: "front", Inside: true, Edge: "hip"}}}}
	return g
}

func row(t *testing.T, list []Row, what string) Row {
	t.Helper()
	for _, r := range list {
		if r.What == what {
			return r
		}
	}
	t.Fatalf("no row %s in %v", what, list)
	return Row{}
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-6 {
		t.Errorf("%s: %.6f, want %.6f", what, got, want)
	}
}

// By hand: a rectangle 200 by 600 against one 206 by 590 from the same corner.
// The far corner lies 6 across and 10 down, so the outlines are 10 apart along the
// top, and no further; two of the front make a hip 12 wider.
func TestRectangles(t *testing.T) {
	r := Compare(Version{Name: "a", Garment: garment(box("front", 0, 0, 200, 600))}, Version{Name: "b", Garment: garment(box("front", 0, 0, 206, 590), box("band", 0, 0, 40, 400))}, "")
	p := r.Pieces[0]
	near(t, "apart", p.Apart, 10)
	if p.Edge != "top" {
		t.Errorf("furthest apart at %s", p.Edge)
	}
	near(t, "hip across", row(t, p.Levels, "hip").By(), 6)
	near(t, "hip above the hem", row(t, p.Heights, "hip").By(), -5)
	near(t, "side", row(t, p.Edges, "side").By(), -10)
	near(t, "hem", row(t, p.Edges, "hem").By(), 6)
	near(t, "area", p.Area.By(), 206*590-200*600)
	near(t, "hip round", row(t, r.Girths, "hip").By(), 12)
	if r.Pieces[1].Only() != "B" || p.Only() != "" {
		t.Errorf("only in %q and %q", p.Only(), r.Pieces[1].Only())
	}
}

// Laid on each other at a level, two that are drawn elsewhere on the paper are
// the same.
func TestLaidAtALevel(t *testing.T) {
	a, b := box("front", 0, 0, 200, 600), box("front", 70, -30, 200, 600)
	near(t, "as drawn", Compare(Version{Name: "a", Garment: garment(a)}, Version{Name: "b", Garment: garment(b)}, "").Pieces[0].Apart, math.Hypot(70, 30))
	near(t, "at the hip", Compare(Version{Name: "a", Garment: garment(a)}, Version{Name: "b", Garment: garment(b)}, "hip").Pieces[0].Apart, 0)
}

// An edge that has been cut up is as long as its parts together.
func TestPartsOfAnEdge(t *testing.T) {
	a := box("front", 0, 0, 200, 600)
	b := a.Clone()
	side := b.Edges[1]
	lower, upper := side, side
	lower.Curve, upper.Curve = side.Curve.Split(250)
	upper.Name = "side-2"
	b.Edges = []piece.Edge{b.Edges[0], lower, upper, b.Edges[2], b.Edges[3]}
	p := Compare(Version{Name: "a", Garment: garment(a)}, Version{Name: "b", Garment: garment(b)}, "").Pieces[0]
	near(t, "side", row(t, p.Edges, "side").By(), 0)
	if len(p.Edges) != 4 {
		t.Errorf("%d edges, want 4", len(p.Edges))
	}
}

// A level along the hem is measured up from, not across: the edge says how wide the
// hem is, and above a curved one the level would cut a sliver.
func TestLevelAlongTheHem(t *testing.T) {
	a := box("front", 0, 0, 200, 600)
	a.Lines = append(a.Lines, piece.Line{Kind: piece.Level, Name: "hem", Curve: geom.Polyline(geom.Pt{}, geom.Pt{X: 200})})
	b := a.Clone()
	low := geom.Pt{X: 100, Y: -20}
	b.Edges[0].Curve = geom.Polyline(b.Edges[0].Curve.Start(), low, b.Edges[0].Curve.End())
	p := Compare(Version{Name: "a", Garment: garment(a)}, Version{Name: "b", Garment: garment(b)}, "").Pieces[0]
	for _, r := range p.Levels {
		if r.What == "hem" {
			t.Errorf("across at the hem %.1f and %.1f mm", r.A, r.B)
		}
	}
	near(t, "hem", row(t, p.Edges, "hem").By(), 2*math.Hypot(100, 20)-200)
}

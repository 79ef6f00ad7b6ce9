package seam

import (
	"math"
	"testing"

	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// leaning is a panel whose top rises by so many degrees towards its right side,
// and whose hem is level.
func leaning(name string, up float64) piece.Piece {
	rise := 200 * math.Tan(up*math.Pi/180)
	at := []geom.Pt{{}, {X: 200}, {X: 200, Y: 500 + rise}, {Y: 500}}
	p := piece.Piece{Name: name}
	for i, n := range []string{"hem", "side", "top", "centre"} {
		p.Edges = append(p.Edges, piece.Edge{Name: n, Curve: geom.Polyline(at[i], at[(i+1)%4])})
	}
	return p
}

// Two panels sewn side to centre: the tops meet in corners of 90 - a and 90 + b
// degrees (by hand: the front's top rises by a towards the seam, the back's by b
// away from it), so they break by b - a; the hems run on.
func TestCrossings(t *testing.T) {
	for _, k := range []struct{ a, b float64 }{{0, 0}, {8, 0}, {0, 8}, {8, 8}, {-6, 3}} {
		g := garment(t, leaning("back", k.b), pattern.Join{ID: "side", Title: "side seam", Each: true, Sides: [][]piece.Ref{refs(t, "front:side"), refs(t, "back:centre")}})
		g.Pieces["front"] = leaning("front", k.a)
		g.View.Finishes = []pattern.Finish{{ID: "top", Edges: refs(t, "front:top", "back:top")}, {ID: "hem", Edges: refs(t, "front:hem", "back:hem")}}
		seams, _ := Resolve(g)
		all := Crossings(g, seams)
		if len(all) != 2 {
			t.Fatalf("%v: %d crossings, want the top's and the hem's", k, len(all))
		}
		for _, c := range all {
			want := 0.0
			if c.AtEnd { // the seam is sewn from the hem up
				want = k.b - k.a
			}
			if math.Abs(c.Break-want) > 1e-9 {
				t.Errorf("%v: %s of %s breaks by %.6f degrees, by hand %.1f", k, c.Edges[0].Edge, c.Edges[0].Piece, c.Break, want)
			}
		}
		if found := CheckCrossings(g, seams, nil); found.Has("seam.break") != (math.Abs(k.b-k.a) >= Smooth) {
			t.Errorf("%v: found %v", k, found.Codes())
		}
		g.Pieces["front"].Edges[2].Steps = []string{"up"}
		if found := CheckCrossings(g, seams, nil); found.Has("seam.hem-point") != (math.Abs(k.b-k.a) >= Smooth) {
			t.Errorf("%v, straight and moved by a step: found %v", k, found.Codes())
		}
		// A step that leaves the break as it was drawn has not made it.
		if found := CheckCrossings(g, seams, all); found.Has("seam.broken") || found.Has("seam.break") != (math.Abs(k.b-k.a) >= Smooth) {
			t.Errorf("%v, moved but drawn so: found %v", k, found.Codes())
		}
		// Half a millimetre out of straight, it cannot be folded on its line.
		top := &g.Pieces["front"].Edges[2].Curve
		bow := geom.Pt{Y: 0.5}
		*top = geom.Polyline(top.Start(), top.Start().Add(top.End()).Mul(0.5).Add(bow), top.End())
		if found := CheckCrossings(g, seams, nil); found.Has("seam.broken") != (math.Abs(k.b-k.a) >= Smooth) {
			t.Errorf("%v, bowed and moved by a step: found %v", k, found.Codes())
		}
	}
}

// Across a fold both halves have the same corner: a top that rises by 8 degrees
// from the fold has a notch of 16 there; what one finish does not take on both
// sides of a seam, and a corner sharper than a designed one, is no crossing.
func TestCrossingsOfFolds(t *testing.T) {
	for up, want := range map[float64]float64{0: 0, 8: 16, -3: -6} {
		g := garment(t, leaning("back", 0), pattern.Join{ID: "side", Each: true, Sides: [][]piece.Ref{refs(t, "front:side"), refs(t, "back:centre")}})
		g.View.Uses[0] = pattern.Use{Piece: "front", Copies: pattern.OnFold, FoldEdge: "centre"}
		g.Pieces["front"] = leaning("front", up)
		g.View.Finishes = []pattern.Finish{{ID: "top", Edges: refs(t, "front:top")}}
		seams, _ := Resolve(g)
		all := Crossings(g, seams)
		if len(all) != 1 || math.Abs(all[0].Break-want) > 1e-9 {
			t.Errorf("rising by %g: %+v, want one break of %g", up, all, want)
		}
	}
}

// What a break of Smooth degrees comes to under a rule laid over the seam, 20 mm
// to either side: more than the 0.03 in to which seams are walked on a screen, less
// than the 1/16 in of a strict walk on paper (Threads no. 200).
func TestSmoothIsBetweenTolerances(t *testing.T) {
	if off := 20 * math.Tan(Smooth*math.Pi/360); off < 0.03*25.4 || off > 25.4/16 {
		t.Errorf("a rule stands off by %.2f mm", off)
	}
}

package demo

import (
	"math"
	"testing"

	"gusset/internal/docket"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/seam"
	"gusset/internal/unit"
)

// A fold made a seam, and the seam saved again, is the piece as it was.
func TestFoldAndSeam(t *testing.T) {
	inSizes(t, weir, func(t *testing.T, g pattern.Garment) {
		for _, name := range []string{"front", "front-facing"} {
			cut := docket.Change{ID: "seam", Kind: docket.FoldToSeam, Piece: name, To: unit.MM(15), Method: "plain-open"}
			apiece := changed(t, g, cut)
			if u, _ := apiece.Use(name); u.Copies != pattern.Pair || misfits(t, apiece)["seam"] > 1e-9 {
				t.Errorf("%s is cut %s", name, u.Copies)
			}
			back := changed(t, g, cut, docket.Change{ID: "fold", Kind: docket.SeamToFold, Piece: name})
			u, _ := back.Use(name)
			was, _ := g.Use(name)
			if u.Copies != was.Copies || u.FoldEdge != was.FoldEdge || len(back.View.Joins) != len(g.View.Joins) || apart(g.Pieces[name], back.Pieces[name]) > 0.01 {
				t.Errorf("%s: %+v, was %+v", name, u, was)
			}
		}
	})
}

// A piece divided and joined again is the piece as it was, and every seam means
// what it meant.
func TestJoinPieces(t *testing.T) {
	for _, d := range []struct {
		docket, piece string
		at            float64
	}{{"dockets/quay-long.yaml", "front", 500}, {"dockets/quay-long.yaml", "band", 300}, {"dockets/quay-long.yaml", "back", 400}} {
		inSizes(t, d.docket, func(t *testing.T, g pattern.Garment) {
			apiece := docket.Change{ID: "cut", Kind: docket.Divide, Piece: d.piece, Where: unit.MM(d.at), Method: "plain-open"}
			now := changed(t, g, apiece, docket.Change{ID: "one", Kind: docket.JoinPieces, Item: "cut"})
			if off := apart(g.Pieces[d.piece], now.Pieces[d.piece]); off > 0.01 || len(now.Pieces) != len(g.Pieces) || len(now.View.Joins) != len(g.View.Joins) {
				t.Errorf("%s is %.4f mm off; %d pieces of %d", d.piece, off, len(now.Pieces), len(g.Pieces))
			}
			sameFit(t, g, now, 1e-3)
		})
	}
}

// A seam whose sides differ: the front's side is drawn 4 mm too long. Shared, each
// side moves by half; trimmed, the front by all of it; eased, nothing moves and the
// seam states 4 mm; and notches 4 mm apart are moved by as much.
func TestSettle(t *testing.T) {
	inSizes(t, weir, func(t *testing.T, g pattern.Garment) {
		g = g.Clone()
		p := g.Pieces["front"]
		hem, side, centre := p.Index("hem"), p.Index("side"), p.Index("centre")
		down := geom.Pt{Y: -4}
		a, b := p.Edges[hem].Curve.Start().Add(down), p.Edges[hem].Curve.End().Add(down)
		p.Edges[hem].Curve = geom.Polyline(a, b)
		p.Edges[side].Curve = append(geom.Polyline(b, p.Edges[side].Curve[0].End()), p.Edges[side].Curve[1:]...)
		p.Edges[centre].Curve = geom.Polyline(p.Edges[centre].Curve.Start(), a)
		for i, m := range p.Marks {
			if m.Edge == "side" {
				p.Marks[i].At += 4
			}
		}
		was := map[string]float64{"front": long(p, "side"), "back": long(g.Pieces["back"], "side")}
		for how, moved := range map[docket.How][2]float64{docket.Share: {-2, 2}, docket.Trim: {-4, 0}, docket.Ease: {0, 0}} {
			now := changed(t, g, docket.Change{ID: "fit", Kind: docket.Settle, Item: "side", How: how})
			for k, name := range []string{"front", "back"} {
				if by := long(now.Pieces[name], "side") - was[name]; math.Abs(by-moved[k]) > 0.05 {
					t.Errorf("%s: the side of the %s is longer by %.3f mm, want %g", how, name, by, moved[k])
				}
			}
			seams, _ := seam.Resolve(now)
			w, _ := seam.Walk(now, seams, unit.Millimetre)
			for _, r := range w.Seams() {
				if math.Abs(r.Gaps[1]) > 0.05 {
					t.Errorf("%s: %s misses by %.3f mm", how, r.Seam.ID, r.Gaps[1])
				}
			}
		}
		at := func(g pattern.Garment, name string) float64 {
			m, _ := g.Pieces[name].Notch("side", "hip")
			return m.At
		}
		now := changed(t, g, docket.Change{ID: "fit", Kind: docket.Settle, Item: "side", How: docket.Notches})
		if by := math.Abs(at(now, "back") - at(g, "back")); math.Abs(by-4) > 1e-6 || at(now, "front") != at(g, "front") {
			t.Errorf("the notch of the back has moved by %.3f mm, want 4", by)
		}
	})
}

// A shoulder is settled at the shoulder: what is taken off its longer side moves
// neither the hem nor the side seam (common practice: the shoulder end is trimmed and
// the armhole drawn in again).
func TestSettleStaysAtTheSeam(t *testing.T) {
	inSizes(t, "dockets/mooring-plain.yaml", func(t *testing.T, g pattern.Garment) {
		g = g.Clone()
		for i, x := range g.View.Joins {
			if x.ID == "shoulder" {
				g.View.Joins[i].Ease = nil // printed 6 mm longer at the back
			}
		}
		now := changed(t, g, docket.Change{ID: "fit", Kind: docket.Settle, Item: "shoulder", How: docket.Trim})
		back, was := now.Pieces["back"], g.Pieces["back"]
		if by := long(back, "shoulder") - long(was, "shoulder"); math.Abs(by+6) > 0.05 {
			t.Errorf("the back's shoulder is %.2f mm longer, want -6", by)
		}
		for _, edge := range []string{"hem", "side", "centre"} {
			a, _ := back.Edge(edge)
			b, _ := was.Edge(edge)
			if far := max(a.Curve.Start().Dist(b.Curve.Start()), a.Curve.End().Dist(b.Curve.End())); edge == "hem" && far > 0.15 || far > 1 {
				t.Errorf("the ends of the back's %s have moved by %.2f mm", edge, far)
			}
		}
	})
}

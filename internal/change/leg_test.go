package change

import (
	"math"
	"testing"

	"gusset/internal/docket"
	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/seam"
	"gusset/internal/unit"
)

// panel draws one piece of a trouser leg about a crease at x = 0: widths at
// waist, hip, knee and hem, heights fixed, sides curved between hip and waist.
// The inseam runs straight down from the hip's height; skew slants it.
func panel(name string, waist, hip, knee, hem float64) piece.Piece {
	at := func(w, y float64) (geom.Pt, geom.Pt) { return geom.Pt{X: -w / 2, Y: y}, geom.Pt{X: w / 2, Y: y} }
	wl, wr := at(waist, 1000)
	hl, hr := at(hip, 800)
	kl, kr := at(knee, 450)
	el, er := at(hem, 0)
	curve := func(a, b geom.Pt) geom.Seg {
		d := (b.Y - a.Y) / 3
		return geom.Cubic(a, geom.Pt{X: a.X, Y: a.Y + d}, geom.Pt{X: b.X, Y: b.Y - d}, b)
	}
	level := func(n string, y float64) piece.Line {
		return piece.Line{Kind: piece.Level, Name: n, Curve: geom.Polyline(geom.Pt{X: -200, Y: y}, geom.Pt{X: 200, Y: y})}
	}
	p := piece.Piece{
		Name: name,
		Edges: []piece.Edge{
			{Name: "top", Curve: geom.Polyline(wr, wl)},
			{Name: "inseam", Curve: geom.Curve{curve(wl, hl), curve(hl, kl), geom.Line(kl, el)}},
			{Name: "hem", Curve: geom.Polyline(el, er)},
			{Name: "outseam", Curve: geom.Curve{geom.Line(er, kr), curve(kr, hr), curve(hr, wr)}},
		},
		Lines: []piece.Line{
			level("hip", 800), level("knee", 450), level("hem", 0),
			{Kind: piece.Grain, Name: "grain", Curve: geom.Polyline(geom.Pt{Y: 50}, geom.Pt{Y: 900})},
			{Kind: piece.Lengthen, Name: "leg", Curve: geom.Polyline(geom.Pt{X: -150, Y: 625}, geom.Pt{X: 150, Y: 625})},
		},
	}
	for _, edge := range []string{"inseam", "outseam"} {
		e, _ := p.Edge(edge)
		for _, q := range []geom.Pt{kl, kr} {
			if d, miss := e.Curve.Nearest(q); miss < 1e-6 {
				p.Marks = append(p.Marks, piece.Mark{Kind: piece.Notch, Name: "knee", Edge: edge, At: d, P: q})
			}
		}
	}
	return p
}

func refs(t *testing.T, texts ...string) []piece.Ref {
	t.Helper()
	out := make([]piece.Ref, len(texts))
	for i, s := range texts {
		r, err := piece.ParseRef(s)
		if err != nil {
			t.Fatal(err)
		}
		out[i] = r
	}
	return out
}

func leg(t *testing.T) pattern.Garment {
	t.Helper()
	front, back := panel("front", 230, 290, 240, 230), panel("back", 250, 330, 260, 250).Mirror()
	g := pattern.Garment{
		View: pattern.View{
			Uses: []pattern.Use{{Piece: "front", Copies: pattern.Pair}, {Piece: "back", Copies: pattern.Pair}},
			Joins: []pattern.Join{
				{ID: "outseam", Each: true, Sides: [][]piece.Ref{refs(t, "front:outseam"), refs(t, "back:outseam")}, Notches: []string{"knee"}},
				{ID: "inseam", Each: true, Sides: [][]piece.Ref{refs(t, "front:inseam"), refs(t, "back:inseam")}, Notches: []string{"knee"}},
			},
			Finishes: []pattern.Finish{{ID: "hem", Edges: refs(t, "front:hem", "back:hem"), Method: "double-hem"}},
		},
		Pieces: map[string]piece.Piece{"front": front, "back": back},
		Order:  []string{"front", "back"},
	}
	// The test's own leg is not drafted to fit: make its small differences
	// the stated ease, so that every later miss is the change's.
	seams, found := seam.Resolve(g)
	if len(found) > 0 {
		t.Fatal(found)
	}
	for i, j := range g.View.Joins {
		for _, s := range seams {
			if s.Join == j.ID {
				d := seam.ChainLength(s.Sides[1]) - seam.ChainLength(s.Sides[0])
				g.View.Joins[i].Ease = []unit.Length{unit.MM(d)}
			}
		}
	}
	return g
}

func length(t *testing.T, text string) unit.Length {
	t.Helper()
	l, err := unit.Parse(text, "")
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func apply(t *testing.T, g pattern.Garment, steps ...docket.Change) (Changed, finding.List) {
	t.Helper()
	for i := range steps {
		if steps[i].ID == "" {
			steps[i].ID = string(steps[i].Kind)
		}
	}
	c, found := Apply(g, steps, unit.Centimetre)
	for _, f := range found {
		t.Logf("%s: %s", f.Code(), f.Text())
	}
	return c, found
}

// misses walks every seam of both hands and returns the largest miss of its sides.
func misses(g pattern.Garment) map[string]float64 {
	seams, _ := seam.Resolve(g)
	w, _ := seam.Walk(g, seams, unit.Millimetre)
	out := map[string]float64{}
	for _, r := range w.Seams() {
		out[r.Seam.ID] = miss(r)
	}
	return out
}

// widest is the worst miss of any seam's sides. (The test leg states its own
// small differences as ease, which spread evenly is not where they lie, so its
// notches are compared with where they were before.)
func widest(g pattern.Garment) float64 {
	worst := 0.0
	for _, miss := range misses(g) {
		worst = math.Max(worst, math.Abs(miss))
	}
	return worst
}

// widthAt measures a piece across at a height, on a fine polyline: independent
// of the curves' own arithmetic.
func widthAt(p piece.Piece, y float64) float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	pts := p.Outline(0.001)
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		if (a.Y-y)*(b.Y-y) <= 0 && a.Y != b.Y {
			x := a.X + (b.X-a.X)*(y-a.Y)/(b.Y-a.Y)
			lo, hi = math.Min(lo, x), math.Max(hi, x)
		}
	}
	return hi - lo
}

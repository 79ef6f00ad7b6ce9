package seam

import (
	"math"
	"testing"

	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// panel is a rectangle w wide and h high, counter-clockwise from the bottom
// left, with a notch on each side at the given height.
func panel(name string, w, h, notch float64) piece.Piece {
	a, b, c, d := geom.Pt{}, geom.Pt{X: w}, geom.Pt{X: w, Y: h}, geom.Pt{Y: h}
	edge := func(n string, from, to geom.Pt) piece.Edge {
		return piece.Edge{Name: n, Curve: geom.Polyline(from, to)}
	}
	return piece.Piece{
		Name:  name,
		Edges: []piece.Edge{edge("hem", a, b), edge("side", b, c), edge("top", c, d), edge("centre", d, a)},
		Marks: []piece.Mark{
			{Kind: piece.Notch, Name: "knee", Edge: "side", At: notch, P: geom.Pt{X: w, Y: notch}},
			{Kind: piece.Notch, Name: "knee", Edge: "centre", At: h - notch, P: geom.Pt{Y: notch}},
		},
	}
}

func garment(t *testing.T, back piece.Piece, join pattern.Join) pattern.Garment {
	t.Helper()
	return pattern.Garment{
		View: pattern.View{
			Uses:  []pattern.Use{{Piece: "front", Copies: pattern.Pair}, {Piece: "back", Copies: pattern.Pair}},
			Joins: []pattern.Join{join},
		},
		Pieces: map[string]piece.Piece{"front": panel("front", 200, 500, 180), "back": back},
	}
}

func refs(t *testing.T, texts ...string) []piece.Ref {
	t.Helper()
	var out []piece.Ref
	for _, s := range texts {
		r, err := piece.ParseRef(s)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, r)
	}
	return out
}

// The expected values of this table follow from the rectangles' own sides.
func TestWalk(t *testing.T) {
	side := func(s ...string) [][]piece.Ref {
		var out [][]piece.Ref
		for _, x := range s {
			out = append(out, refs(t, x))
		}
		return out
	}
	cases := []struct {
		name      string
		back      piece.Piece
		join      pattern.Join
		wantCodes []string // each once for each hand
		widest    float64
	}{
		{"fits", panel("back", 220, 500, 180),
			pattern.Join{ID: "outseam", Sides: side("front:side", "back:centre"), Each: true, Notches: []string{"knee"}}, nil, 0},
		{"longer", panel("back", 220, 503, 180),
			pattern.Join{ID: "outseam", Sides: side("front:side", "back:centre"), Each: true}, []string{"seam.gap"}, 3},
		{"stated ease", panel("back", 220, 503, 180),
			pattern.Join{ID: "outseam", Sides: side("front:side", "back:centre"), Each: true, Ease: []unit.Length{unit.MM(3)}}, nil, 0},
		{"notch astray", panel("back", 220, 500, 178),
			pattern.Join{ID: "outseam", Sides: side("front:side", "back:centre"), Each: true, Notches: []string{"knee"}}, []string{"seam.notch"}, 2},
		{"stretch", panel("back", 220, 500, 180),
			pattern.Join{ID: "lower", Sides: side("front:side[hem..knee]", "back:centre[knee..hem]"), Each: true}, nil, 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			g := garment(t, c.back, c.join)
			seams, fs := Resolve(g)
			if len(fs) > 0 || len(seams) != 2 {
				t.Fatalf("resolved %d seams with %v, want one for each hand", len(seams), fs)
			}
			w, found := Walk(g, seams, "mm")
			if got, want := len(found), 2*len(c.wantCodes); got != want {
				t.Fatalf("%d findings, want %d: %v", got, want, found)
			}
			for _, code := range c.wantCodes {
				if !found.Has(code) {
					t.Errorf("no finding %s in %v", code, found)
				}
			}
			if math.Abs(w.Widest()-c.widest) > 1e-6 {
				t.Errorf("widest miss %.6f mm, want %.3f", w.Widest(), c.widest)
			}
		})
	}
}

// Both hands of a chain begin at the same place of the body: the right is
// walked as the mirror image of the left.
func TestHandsMirror(t *testing.T) {
	join := pattern.Join{ID: "round", Each: true, Sides: [][]piece.Ref{
		refs(t, "front:hem", "front:side"), refs(t, "back:hem", "back:centre"),
	}}
	g := garment(t, panel("back", 200, 500, 180), join)
	seams, fs := Resolve(g)
	if len(fs) > 0 {
		t.Fatal(fs)
	}
	left, right := seams[0].Sides[0], seams[1].Sides[0]
	for i := range left {
		l, r := left[i].Curve.Start(), right[i].Curve.Start()
		if l.Dist(geom.Pt{X: -r.X, Y: r.Y}) > 1e-9 {
			t.Errorf("stretch %d begins at %v on the left and %v on the right: not mirrored", i, l, r)
		}
	}
}

// A join that names what is not there is reported, not walked.
func TestUnresolved(t *testing.T) {
	for _, bad := range []string{"front:sleeve", "front:side[hem..elbow]", "collar:side", "front:/pocket"} {
		join := pattern.Join{ID: "j", Each: true, Sides: [][]piece.Ref{refs(t, bad), refs(t, "back:centre")}}
		seams, fs := Resolve(garment(t, panel("back", 200, 500, 180), join))
		if len(seams) != 0 || !fs.Has("seam.unresolved") {
			t.Errorf("%s: %d seams, findings %v", bad, len(seams), fs)
		}
	}
}

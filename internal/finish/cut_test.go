package finish

import (
	"math"
	"slices"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/construct"
	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

const thick = 1.0 // mm, the test cloth

// shape makes a piece of straight edges from its corners, counter-clockwise.
func shape(names []string, printed float64, corners ...geom.Pt) piece.Piece {
	p := piece.Piece{Name: "panel", Title: "Panel"}
	for i, n := range names {
		c := geom.Polyline(corners[i], corners[(i+1)%len(corners)])
		p.Edges = append(p.Edges, piece.Edge{Name: n, Curve: c, Printed: printed})
	}
	return p
}

var foursides = []string{"hem", "right", "top", "left"}

func quad(printed float64, corners ...geom.Pt) piece.Piece {
	return shape(foursides, printed, corners...)
}

func pt(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }

// made is how a test piece's edges are finished: edge → method, and values.
type made struct {
	methods map[string]string
	values  map[string]float64
	use     pattern.Use
	extra   []method.Method // known besides the program's own
}

// finished cuts one piece by itself.
func finished(t testing.TB, p piece.Piece, m made) ([]Cut, finding.List) {
	t.Helper()
	lib, found := method.Builtin()
	if len(found) > 0 {
		t.Fatal(found.Codes())
	}
	for _, x := range m.extra {
		lib = lib.With(x)
	}
	values := map[string]unit.Length{}
	for k, v := range m.values {
		values[k] = unit.MM(v)
	}
	u := m.use
	u.Piece = p.Name
	if u.Copies == "" {
		u.Copies = pattern.Single
	}
	if len(u.Cloths) == 0 {
		u.Cloths = []cloth.Role{cloth.Main}
	}
	g := pattern.Garment{Pieces: map[string]piece.Piece{p.Name: p}, View: pattern.View{Uses: []pattern.Use{u}}}
	for _, e := range p.Edges {
		name, own := m.methods[e.Name]
		if !own {
			name = "raw"
		}
		f := pattern.Finish{ID: e.Name, Method: name, Edges: []piece.Ref{{Piece: p.Name, Edge: e.Name}}}
		if own {
			f.Values = values
		}
		if e.Name != u.FoldEdge {
			g.View.Finishes = append(g.View.Finishes, f)
		}
	}
	cloths := map[cloth.Role]cloth.Cloth{cloth.Main: {Thickness: unit.MM(thick)}, cloth.Interfacing: {Thickness: unit.MM(0.2)}}
	plan, found := construct.Construct(g, lib, cloths, nil)
	for _, f := range found {
		if f.Code() != "construct.value-unknown" {
			t.Fatalf("%s: %s", f.Code(), f.Text())
		}
	}
	set, out := Finish(plan)
	return set.Pieces(), out
}

func oneCut(t testing.TB, p piece.Piece, m made) Cut {
	t.Helper()
	cuts, found := finished(t, p, m)
	for _, f := range found {
		t.Errorf("%s: %s", f.Code(), f.Text())
	}
	if len(cuts) != 1 {
		t.Fatalf("%d cuts", len(cuts))
	}
	return cuts[0]
}

// corners compares an outline with hand-worked corners, whichever comes first.
func corners(t *testing.T, c Cut, want ...geom.Pt) {
	t.Helper()
	var got []geom.Pt
	for _, m := range c.Outline {
		got = append(got, pt(float64(m.X)/1000, float64(m.Y)/1000))
	}
	for i := range got {
		turnedBy := append(slices.Clone(got[i:]), got[:i]...)
		if len(want) == len(got) && near(turnedBy, want) {
			return
		}
	}
	t.Errorf("outline %.3f\nwant %.3f", got, want)
}

func near(a, b []geom.Pt) bool {
	for i := range a {
		if a[i].Dist(b[i]) > 0.0015 {
			return false
		}
	}
	return true
}

var board = quad(15, pt(0, 0), pt(200, 0), pt(200, 300), pt(0, 300))

// Corner coordinates worked by hand. A turn of cloth is π/2 mm here.
func TestBoard(t *testing.T) {
	double := 30 + math.Pi
	for name, c := range map[string]struct {
		made made
		want []geom.Pt
	}{
		"natural": {made{}, []geom.Pt{pt(-15, -15), pt(215, -15), pt(215, 315), pt(-15, 315)}},
		"double hem": {made{methods: map[string]string{"hem": "double-hem"}, values: map[string]float64{"depth": 20, "turn-under": 10}},
			[]geom.Pt{pt(-15, -double), pt(215, -double), pt(215, 315), pt(-15, 315)}},
		"own allowance": {made{methods: map[string]string{"top": "band-end"}},
			[]geom.Pt{pt(-15, -15), pt(215, -15), pt(215, 310), pt(-15, 310)}},
	} {
		t.Run(name, func(t *testing.T) { corners(t, oneCut(t, board, c.made), c.want...) })
	}
}

// Half a board on the fold: the fold is not offset and the hem runs on it.
func TestOnTheFold(t *testing.T) {
	m := made{use: pattern.Use{Copies: pattern.OnFold, FoldEdge: "left"}, methods: map[string]string{"hem": "single-hem"}}
	c := oneCut(t, board, m)
	low := -30 - math.Pi/2
	corners(t, c, pt(0, low), pt(215, low), pt(215, 315), pt(0, 315))
	if want := [2]Micron{micron(pt(0, 315)), micron(pt(0, low))}; !c.OnFold || c.Fold != want || c.ID != "panel" {
		t.Errorf("%s folded %v on %v, want %v", c.ID, c.OnFold, c.Fold, want)
	}
}

func TestFoldNotSquareToHem(t *testing.T) {
	p := quad(15, pt(0, 0), pt(200, 40), pt(200, 300), pt(0, 300))
	_, found := finished(t, p, made{use: pattern.Use{Copies: pattern.OnFold, FoldEdge: "left"}, methods: map[string]string{"hem": "single-hem"}})
	if !found.Has("finish.fold-bent") {
		t.Errorf("%v", found.Codes())
	}
}

// Pairs, numbers and interfacing.
func TestCopies(t *testing.T) {
	p := quad(15, pt(0, 0), pt(200, 0), pt(180, 300), pt(0, 300))
	m := made{use: pattern.Use{Copies: pattern.Pair, Number: 2, Cloths: []cloth.Role{cloth.Main, cloth.Interfacing}}}
	cuts, _ := finished(t, p, m)
	var ids []string
	for _, c := range cuts {
		ids = append(ids, c.ID+"/"+c.Pair+"/"+string(c.Cloth))
	}
	want := []string{
		"panel@left/panel@right/main", "panel@right/panel@left/main",
		"panel@left#2/panel@right#2/main", "panel@right#2/panel@left#2/main",
		"panel@left/panel@right/interfacing", "panel@right/panel@left/interfacing",
		"panel@left#2/panel@right#2/interfacing", "panel@right#2/panel@left#2/interfacing",
	}
	if !slices.Equal(ids, want) {
		t.Errorf("%v", ids)
	}
	lo, hi := geom.BoundsOf(cuts[4].Exact)
	if lo.Dist(pt(-3, -3)) > 0.01 || math.Abs(hi.Y-303) > 0.01 {
		t.Errorf("interfacing from %v to %v", lo, hi)
	}
}

// A piece drawn with its grain leaning is turned upright.
func TestGrainUpright(t *testing.T) {
	p := board.Clone()
	p.Lines = []piece.Line{{Kind: piece.Grain, Name: "grain", Curve: geom.Polyline(pt(100, 250), pt(100, 50))}}
	c := oneCut(t, p.Transform(geom.Turn(0.3, pt(10, 20))), made{})
	l, _ := c.Sewn.Line(piece.Grain, "")
	if v := l.Curve.End().Sub(l.Curve.Start()); math.Abs(v.X) > 1e-9 || v.Y > 0 {
		t.Errorf("the grain runs %v", v)
	}
	lo, hi := geom.BoundsOf(c.Exact)
	if hi.Sub(lo).Dist(pt(230, 330)) > 0.01 {
		t.Errorf("from %v to %v", lo, hi)
	}
}

// Slits: at most 3 mm and a third of the allowance, square to the line, none
// where there is no allowance.
func TestNotches(t *testing.T) {
	p := board.Clone()
	p.Edges[3].Printed = 0
	p.Edges[2].Printed = 6
	notch := func(edge string, at float64, q geom.Pt) piece.Mark {
		return piece.Mark{Kind: piece.Notch, Name: edge, Edge: edge, At: at, P: q}
	}
	p.Marks = []piece.Mark{notch("right", 120, pt(200, 120)), notch("top", 50, pt(150, 300)), notch("left", 100, pt(0, 200))}
	c := oneCut(t, p, made{})
	want := [][2]geom.Pt{{pt(215, 120), pt(212, 120)}, {pt(150, 306), pt(150, 304)}}
	if len(c.Notches) != 2 {
		t.Fatalf("%v", c.Notches)
	}
	for i, n := range c.Notches {
		if n[0].Dist(want[i][0]) > 0.01 || n[1].Dist(want[i][1]) > 0.01 {
			t.Errorf("%v, want %v", n, want[i])
		}
	}
}

func TestHemFaults(t *testing.T) {
	for name, c := range map[string]struct {
		p    piece.Piece
		made made
		want string
	}{
		"wider than the piece": {quad(15, pt(0, 0), pt(200, 0), pt(200, 50), pt(0, 50)),
			made{methods: map[string]string{"hem": "single-hem"}, values: map[string]float64{"depth": 90}}, "finish.hem-wider"},
		"turned under too far": {board, made{methods: map[string]string{"hem": "double-hem"}, values: map[string]float64{"depth": 20, "turn-under": 25}}, "finish.turn-under"},
	} {
		_, found := finished(t, c.p, c.made)
		if !slices.Equal(found.Codes(), []string{c.want}) {
			t.Errorf("%s: %v", name, found.Codes())
		}
	}
}

// A hem round a quarter of a circle: the edge of a full circle turned up h is
// 4πh too long (identity, checks of published hem rules), a quarter πh.
func TestCurvedHem(t *testing.T) {
	const r, k = 300, 0.5522847498
	p := shape([]string{"a", "hem", "b"}, 15, pt(0, 0), pt(r, 0), pt(0, r))
	p.Edges[1].Curve = geom.Curve{geom.Cubic(pt(r, 0), pt(r, r*k), pt(r*k, r), pt(0, r))}
	_, found := finished(t, p, made{methods: map[string]string{"hem": "single-hem"}, values: map[string]float64{"depth": 10}})
	if len(found) != 1 || found[0].Code() != "finish.hem-curved" {
		t.Fatalf("%v", found.Codes())
	}
	if excess := found[0].Args[2].(float64); math.Abs(excess-10*math.Pi) > 0.01 {
		t.Errorf("%.2f mm, want %.2f", excess, 10*math.Pi)
	}
}

func TestWording(t *testing.T) {
	for _, k := range []finding.Kind{foldsOver, swallowed, crossing, hemWider, turnUnder, hemCurved, foldBent, foldUneven} {
		if err := k.Validate(); err != nil {
			t.Error(err)
		}
	}
}

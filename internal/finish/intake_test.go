package finish

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/construct"
	"gusset/internal/geom"
	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// testPattern reads one of the small garments that package construct is tested
// with.
func testPattern(t *testing.T, name string) pattern.Pattern {
	t.Helper()
	read := func(file string) (source.File, error) {
		p := filepath.Join("..", "construct", "testdata", name, file)
		data, err := os.ReadFile(p)
		return source.File{Path: filepath.ToSlash(p), Data: data}, err
	}
	f, err := read("pattern.yaml")
	if err != nil {
		t.Fatal(err)
	}
	p, found := pattern.Load(f, read)
	if len(found) > 0 {
		t.Fatal(found.Codes())
	}
	return p
}

// cutOf cuts a view of a pattern in one printed size.
func cutOf(t *testing.T, p pattern.Pattern, view string, size int, swap map[string]string) map[string]Cut {
	t.Helper()
	v, _ := p.View(view)
	g := pattern.Garment{View: v, Pieces: map[string]piece.Piece{}, Order: p.Order}
	for _, u := range v.Uses {
		g.Pieces[u.Piece] = p.Pieces[u.Piece].In[size]
	}
	lib, _ := method.Builtin()
	cloths := map[cloth.Role]cloth.Cloth{}
	for _, r := range cloth.Roles {
		cloths[r] = cloth.Cloth{Thickness: unit.MM(0.6)}
	}
	plan, found := construct.Construct(g, lib, cloths, swap)
	set, more := Finish(plan)
	for _, f := range append(found, more...) {
		t.Errorf("%s %s: %s", f.Place, f.Code(), f.Text())
	}
	out := map[string]Cut{}
	for _, c := range set.Pieces() {
		if c.Cloth == cloth.Main {
			out[c.ID] = c
		}
	}
	return out
}

// A dart 2a wide and h deep, square to a straight edge. Its legs lean by φ with
// tan φ = a/h. Folded, the edge beside it is reflected in the leg, so it rises
// at 2φ and meets the crease a·tan 2φ = 2a²h/(h² - a²) above the edge. Worked by
// hand from the reflection; with an allowance of 0 nothing else enters.
func TestDartPeak(t *testing.T) {
	const a, h, w = 15.0, 100.0, 200.0
	p := quadDart(a, h, w)
	lib, _ := method.Builtin()
	ref := func(edge string) piece.Ref { return piece.Ref{Piece: "panel", Edge: edge} }
	g := pattern.Garment{Pieces: map[string]piece.Piece{"panel": p}, View: pattern.View{
		Uses: []pattern.Use{{Piece: "panel", Copies: pattern.Single, Cloths: []cloth.Role{cloth.Main}}},
		Joins: []pattern.Join{{ID: "dart", Method: "dart", Each: true,
			Sides: [][]piece.Ref{{ref("leg-in")}, {ref("leg-out")}}}},
		Finishes: []pattern.Finish{{ID: "edges", Method: "raw",
			Edges: []piece.Ref{ref("left"), ref("right"), ref("hem"), ref("top-in"), ref("top-out")}}},
	}}
	plan, found := construct.Construct(g, lib, map[cloth.Role]cloth.Cloth{cloth.Main: {Thickness: unit.MM(1)}}, nil)
	set, more := Finish(plan)
	if len(found)+len(more) > 0 || len(set.Pieces()) != 1 {
		t.Fatal(found.Codes(), more.Codes())
	}
	var top float64
	for _, q := range set.Pieces()[0].Exact {
		top = math.Max(top, q.Y)
	}
	if want := 300 + 2*a*a*h/(h*h-a*a); math.Abs(top-want) > 1e-6 {
		t.Errorf("the peak stands at %.4f mm, want %.4f", top, want)
	}
}

// quadDart is a panel 300 mm high with a dart in the middle of its top.
func quadDart(a, h, w float64) piece.Piece {
	at := []geom.Pt{pt(0, 0), pt(2*w, 0), pt(2*w, 300), pt(w+a, 300), pt(w, 300-h), pt(w-a, 300), pt(0, 300)}
	p := piece.Piece{Name: "panel"}
	for i, n := range []string{"hem", "right", "top-in", "leg-in", "leg-out", "top-out", "left"} {
		p.Edges = append(p.Edges, piece.Edge{Name: n, Curve: geom.Polyline(at[i], at[(i+1)%len(at)])})
	}
	return p
}

// Folded as it is pressed, the cut edge of every dart and pleat lies on the cut
// edge of its neighbour: each point of the cap, reflected in the crease where it
// lies beyond it and then in the leg, is a point of the neighbour's cut line.
func TestCapsFoldOntoTheirNeighbours(t *testing.T) {
	p := testPattern(t, "skirt")
	for size := range p.Sizes {
		cuts := cutOf(t, p, "faced", size, nil)
		for _, c := range []struct {
			cut, first, last string // the edges of the intake in outline order
			back             bool
		}{
			{"front", "dart-out", "dart-in", false}, // pressed over what follows: towards the centre
			{"front", "pleat-top", "pleat-top", false},
			{"back@left", "dart-in", "dart-out", true},
			{"back@right", "dart-out", "dart-in", false},
		} {
			checkCap(t, cuts[c.cut], c.first, c.last, c.back)
		}
	}
}

func checkCap(t *testing.T, c Cut, first, last string, back bool) {
	t.Helper()
	e, okE := c.Sewn.Edge(first)
	l, okL := c.Sewn.Edge(last)
	if !okE || !okL {
		t.Fatalf("%s is not cut", c.ID)
	}
	a, b := e.Curve.Start(), l.Curve.End()
	legA, legB := pt(0, -1), pt(0, -1) // of the pleat, which runs straight down
	if first != last {
		legA, legB = e.Curve.End().Sub(a).Unit(), l.Curve.Start().Sub(b).Unit()
	}
	mid := a.Lerp(b, 0.5)
	crease := legA.Add(legB).Unit()
	from, leg, far, farLeg := b, legB, a, legA
	if back {
		from, leg, far, farLeg = a, legA, b, legB
	}
	ring := geom.Polyline(append(append([]geom.Pt(nil), c.Exact...), c.Exact[0])...)
	n := 0
	for _, q := range c.Exact {
		if q.Sub(a).Cross(legA)*q.Sub(b).Cross(legB) >= 0 || q.Sub(mid).Dot(crease) > 0 {
			continue // not between the legs, or at the other end of the piece
		}
		if math.Abs(q.Sub(far).Cross(farLeg)) < 1e-6 {
			continue // the end of the far neighbour's own cut line, which may meet its leg at another angle
		}
		onFar := crease.Cross(q.Sub(mid))*crease.Cross(from.Sub(mid)) < 0
		if onFar {
			q = geom.MirrorAbout(mid, mid.Add(crease)).Apply(q)
		}
		q = geom.MirrorAbout(from, from.Add(leg)).Apply(q)
		if _, miss := ring.Nearest(q); miss > 0.05 {
			t.Errorf("%s: the cut edge of %s folds to %.3f, %.3f, %.2f mm off its neighbour", c.ID, first, q.X, q.Y, miss)
		}
		n++
	}
	if n == 0 {
		t.Errorf("%s: no corner of the cut line lies across %s", c.ID, first)
	}
}

// The legs of a dart are marked by slits on the cut line.
func TestLegsAreNotched(t *testing.T) {
	cuts := cutOf(t, testPattern(t, "skirt"), "faced", 1, nil)
	if n := len(cuts["back@left"].Notches); n != 3 { // two legs and the foot of the zip
		t.Errorf("%d notches on the back, want 3", n)
	}
	for _, s := range cuts["front"].Notches {
		if d := s[0].Dist(s[1]); d > longestSlit+1e-9 || d < 1 {
			t.Errorf("a slit of %.2f mm", d)
		}
	}
}

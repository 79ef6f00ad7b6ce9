package change

import (
	"math"
	"testing"

	"gusset/internal/docket"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// Taking in by an amount at each edge takes it from the girth as often as the
// seam has edges (CWU Costume Text ch. 17: an alteration is divided by the number
// of seam edges; its example: 2 in over two side seams is 1/2 in an edge), and
// nothing where it has died out.
func TestTakeIn(t *testing.T) {
	for _, by := range []float64{8, -8, 3} {
		g := leg(t)
		c, found := apply(t, g, docket.Change{Kind: docket.TakeIn, Item: "outseam", By: unit.MM(by), At: "hip", From: "knee"})
		if found.Stops() > 0 {
			t.Fatalf("%g: %v", by, found)
		}
		round := func(y float64) (sum float64) {
			for name, p := range c.Garment().Pieces {
				sum += widthAt(g.Pieces[name], y) - widthAt(p, y)
			}
			return sum
		}
		for y, want := range map[float64]float64{800: 2 * by, 449: 0, 100: 0} { // at the hip the sides stand upright
			if got := round(y); math.Abs(got-want) > 0.15 {
				t.Errorf("%g: girth at %g less by %.3f, want %.3f", by, y, got, want)
			}
		}
		if w := widest(c.Garment()); w > 0.5 {
			t.Errorf("%g: a seam misses by %.3f mm", by, w)
		}
	}
	if _, found := apply(t, leg(t), docket.Change{Kind: docket.TakeIn, Item: "side", By: unit.MM(5), At: "hip", From: "knee"}); !found.Has("change.no-seam") {
		t.Error("an unknown seam is not told")
	}
	if _, found := apply(t, leg(t), docket.Change{Kind: docket.TakeIn, Item: "outseam", By: unit.MM(5), At: "calf", From: "knee"}); !found.Has("change.level-off-seam") {
		t.Error("an unknown level is not told")
	}
}

// Below the blend a straightened leg is as wide as it was at the level, or as
// was asked for, measured on a fine polyline.
func TestStraighten(t *testing.T) {
	for _, to := range []float64{0, 470} {
		g := leg(t)
		want := widthAt(g.Pieces["front"], 450) + widthAt(g.Pieces["back"], 450)
		s := docket.Change{Kind: docket.Straighten, Edge: "hem", From: "knee"}
		if to > 0 {
			s.To, want = unit.MM(to), to
		}
		c, found := apply(t, g, s)
		if found.Stops() > 0 {
			t.Fatal(found)
		}
		for _, y := range []float64{250, 150, 50, 1} {
			got := widthAt(c.Garment().Pieces["front"], y) + widthAt(c.Garment().Pieces["back"], y)
			if math.Abs(got-want) > 0.2 {
				t.Errorf("%.3f mm round at %g, want %.3f", got, y, want)
			}
		}
	}
}

// A deeper rise moves everything well above the level up by the amount and
// leaves the leg below as it was (identity of cutting and spreading evenly);
// the same taken out again gives back the outline.
func TestCrotchDepth(t *testing.T) {
	g := leg(t)
	deeper := docket.Change{ID: "deeper", Kind: docket.CrotchDepth, At: "hip", By: unit.MM(15)}
	c, found := apply(t, g, deeper)
	if found.Stops() > 0 {
		t.Fatal(found)
	}
	for name, p := range c.Garment().Pieces {
		top, _ := p.Edge("top")
		if y := height(top.Curve); math.Abs(y-1015) > 0.1 {
			t.Errorf("%s: top at %.3f", name, y)
		}
		for _, y := range []float64{100, 400, 600} {
			if d := widthAt(p, y) - widthAt(g.Pieces[name], y); math.Abs(d) > 0.1 {
				t.Errorf("%s: width at %g changed by %.3f", name, y, d)
			}
		}
		l, _ := p.Line(piece.Level, "knee")
		if height(l.Curve) != 450 {
			t.Errorf("%s: the knee moved", name)
		}
	}
}

// A raised edge keeps its shape and moves by the amount.
func TestRaiseEdge(t *testing.T) {
	for _, by := range []float64{12, -20} {
		g := leg(t)
		c, found := apply(t, g, docket.Change{Kind: docket.RaiseEdge, Edge: "top", By: unit.MM(by)})
		if found.Stops() > 0 {
			t.Fatal(found)
		}
		for name, p := range c.Garment().Pieces {
			top, _ := p.Edge("top")
			if y := height(top.Curve); math.Abs(y-1000-by) > 0.1 {
				t.Errorf("%s: top at %.3f, want %.3f", name, y, 1000+by)
			}
		}
	}
	if _, found := apply(t, leg(t), docket.Change{Kind: docket.RaiseEdge, Edge: "top", By: unit.MM(-1500)}); !found.Has("change.edge-past") {
		t.Error("an edge moved past its neighbours' ends goes through")
	}
	if _, found := apply(t, leg(t), docket.Change{Kind: docket.RaiseEdge, Edge: "neck", By: unit.MM(5)}); !found.Has("change.no-edge") {
		t.Error("an unknown edge is not told")
	}
}

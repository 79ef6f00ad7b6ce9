package change

import (
	"slices"
	"testing"

	"gusset/internal/docket"
	"gusset/internal/fit"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// Facings in place of a hem are cut from the very edges they face (common
// practice): as long at the hem, as wide as asked for where the sides meet it
// square, their ends joined as the sides are, and nothing is left unfinished.
func TestFace(t *testing.T) {
	for size, g := range topSizes(t) {
		c, found := apply(t, g, docket.Change{ID: "low", Kind: docket.Face, Item: "hem", By: unit.MM(50), Method: "facing"})
		if found.Stops() > 0 {
			t.Fatal(told(found))
		}
		now := c.Garment()
		for _, on := range []string{"front", "back"} {
			p := now.Pieces[on+"-low"]
			for _, e := range []string{"hem", "free"} {
				same(t, size+" "+e+" of the "+on+"'s facing", edgeOn(t, now, on+"-low", e).Length(), edgeOn(t, g, on, "hem").Length(), 0.01)
			}
			same(t, size+" end of the "+on+"'s facing", edgeOn(t, now, on+"-low", endAfter).Length(), 50, 0.01)
			area := 0.0
			for i, a := range p.Outline(0.01) {
				b := p.Outline(0.01)[(i+1)%len(p.Outline(0.01))]
				area += a.Cross(b) / 2
			}
			same(t, size+" area of the "+on+"'s facing", area, 50*edgeOn(t, g, on, "hem").Length(), 1)
		}
		if u, _ := now.Use("back-low"); u.Copies != pattern.OnFold || u.FoldEdge != endAfter {
			t.Errorf("size %s: the back's facing is cut %s on %s", size, u.Copies, u.FoldEdge)
		}
		if !slices.ContainsFunc(now.View.Joins, func(j pattern.Join) bool { return j.ID == "low-side" }) {
			t.Errorf("size %s: the facings are not joined at the side", size)
		}
		if _, found := apply(t, g, docket.Change{Kind: docket.Face, Item: "hem", By: unit.MM(700), Method: "facing"}); !found.Has("change.no-facing") {
			t.Errorf("size %s: a facing longer than the side is cut: %v", size, told(found))
		}
	}
}

// A wider overlap moves the edge and its facing, and nothing else: the girths,
// which are measured with the front closed, stay.
func TestOverlap(t *testing.T) {
	for size, g := range topSizes(t) {
		for _, by := range []float64{8, -5} {
			c, _ := apply(t, g, docket.Change{Kind: docket.Overlap, Edge: "edge", By: unit.MM(by)})
			now := c.Garment()
			same(t, size+" hem of the front", edgeOn(t, now, "front", "hem").Length(), edgeOn(t, g, "front", "hem").Length()+by, 1e-6)
			same(t, size+" hem of the facing", edgeOn(t, now, "front-facing", "hem").Length(), edgeOn(t, g, "front-facing", "hem").Length()+by, 1e-6)
			for _, l := range now.Pieces["front"].Lines {
				if l.Kind == piece.Level { // drawn through to the new edge
					lo, _ := l.Curve.Bounds()
					edge, _ := edgeOn(t, now, "front", "edge").Bounds()
					same(t, size+" end of the level "+l.Name, lo.X, edge.X, 0.01)
				}
			}
			for i, girth := range now.View.Girths {
				a, err := fit.Girth(g, g.View.Girths[i])
				b, err2 := fit.Girth(now, girth)
				if err != nil || err2 != nil {
					t.Fatal(err, err2)
				}
				same(t, size+" girth at the "+girth.Zone, b, a, 1e-6)
			}
		}
	}
}

// The line of the buttons ends as far from neck and hem as before, whatever moves
// them.
func TestButtonLineFollows(t *testing.T) {
	gaps := func(g pattern.Garment) (top, foot float64) {
		p := g.Pieces["front"]
		l, _ := p.LineNamed("buttons")
		neck, _ := edgeOn(t, g, "front", "neck").Bounds()
		hem, _ := edgeOn(t, g, "front", "hem").Bounds()
		return neck.Y - l.Curve.Start().Y, l.Curve.End().Y - hem.Y
	}
	for size, g := range topSizes(t) {
		top, foot := gaps(g)
		for _, s := range []docket.Change{
			{Kind: docket.RaiseEdge, Edge: "neck", By: unit.MM(-12)},
			{Kind: docket.MoveHem, Edge: "hem", By: unit.MM(-30)},
			{Kind: docket.Lengthen, At: "body", By: unit.MM(40)},
			fullBustBy(20),
		} {
			c, found := apply(t, g, s)
			if found.Stops() > 0 {
				t.Errorf("size %s, %s: %v", size, s.Kind, told(found))
				continue
			}
			a, b := gaps(c.Garment())
			same(t, size+" "+string(s.Kind)+" below the neck", a, top, 0.1)
			same(t, size+" "+string(s.Kind)+" above the hem", b, foot, 0.1)
		}
	}
}

package change

import (
	"slices"
	"strings"
	"testing"

	"gusset/internal/docket"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

func fullBustBy(by float64) docket.Change {
	return docket.Change{Kind: docket.FullBust, At: "apex", Edge: "armhole", Item: "side", Where: unit.MM(60), Method: "dart", By: unit.MM(by)}
}

// A fuller bust by cut and spread (identities of turning about a hinge and of
// shifting): the bust line and the hem are wider by the amount, the side seam is
// as long with its dart closed and so is the armhole, both legs of the dart are
// equally long, the neck and the shoulder stay, and the front is longer than
// before by as much as the bust point went down on its circle about the hinge.
// The same taken out again closes the dart and gives back the view.
func TestFullBust(t *testing.T) {
	for size, g := range topSizes(t) {
		const by = 25.0
		c, found := apply(t, g, fullBustBy(by))
		if found.Stops() > 0 {
			t.Fatal(told(found))
		}
		now := c.Garment()
		level, _ := g.Pieces["front"].Line(piece.Level, "bust")
		y := height(level.Curve)
		same(t, size+" bust line", widthAt(now.Pieces["front"], y), widthAt(g.Pieces["front"], y)+by, 0.03*by) // the side turns as it goes out
		same(t, size+" hem", edgeOn(t, now, "front", "hem").Length(), edgeOn(t, g, "front", "hem").Length()+by, 0.1)
		lower, upper := edgeOn(t, now, "front", "side"), edgeOn(t, now, "front", "side-upper")
		same(t, size+" side", lower.Length()+upper.Length(), edgeOn(t, g, "front", "side").Length(), 0.1)
		same(t, size+" side above the dart", upper.Length(), 60, 0.1)
		same(t, size+" armhole", edgeOn(t, now, "front", "armhole").Length(), edgeOn(t, g, "front", "armhole").Length(), 0.4)
		a, b := edgeOn(t, now, "front", dartLower), edgeOn(t, now, "front", dartUpper)
		same(t, size+" legs of the dart", a.Length(), b.Length(), 0.05)
		for _, e := range []string{"neck", "shoulder"} {
			same(t, size+" "+e, edgeOn(t, now, "front", e).Length(), edgeOn(t, g, "front", e).Length(), 0.1)
		}
		hinge, _ := g.Pieces["front"].Notch("armhole", "front-pitch")
		apex, was := markOf(now.Pieces["front"], "apex"), markOf(g.Pieces["front"], "apex")
		same(t, size+" swing of the bust point", apex.Dist(hinge.P), was.Dist(hinge.P), 1e-6)
		down := was.Y - apex.Y
		same(t, size+" front edge", edgeOn(t, now, "front", "edge").Length(), edgeOn(t, g, "front", "edge").Length()+down, 0.1)
		same(t, size+" edge of the facing", edgeOn(t, now, "front-facing", "edge").Length(), edgeOn(t, now, "front", "edge").Length(), 0.1)
		if down < 1 || down > 40 {
			t.Errorf("size %s: the front is %.1f mm longer", size, down)
		}
		if !slices.ContainsFunc(now.View.Joins, func(j pattern.Join) bool { return j.Method == "dart" }) {
			t.Errorf("size %s: the dart is sewn by no join", size)
		}
		again, found := apply(t, now, docket.Change{ID: "back", Kind: docket.FullBust, At: "apex", Edge: "armhole", Item: "side", Where: unit.MM(60), Method: "dart", By: unit.MM(-by)})
		if found.Stops() > 0 || len(again.Garment().View.Joins) != len(g.View.Joins) || len(again.Garment().Pieces["front"].Edges) != len(g.Pieces["front"].Edges) {
			t.Errorf("size %s: the dart does not close: %v", size, told(found))
		}
		if _, found := apply(t, g, fullBustBy(-10)); !found.Has("change.no-bust-dart") {
			t.Errorf("size %s: a bust without a dart is made smaller: %v", size, told(found))
		}
	}
}

// What is told to do where there is no dart to make smaller comes to the amount
// asked for: 10 mm less on each front are 5 mm on each of the edges at the side, 20
// of them all round (CWU Costume Text ch. 17: divide by the number of garment
// seams' edges).
func TestSmallerBustWithoutDart(t *testing.T) {
	for size, g := range topSizes(t) {
		_, found := apply(t, g, fullBustBy(-10))
		if want := "take-in: {seam: side, by: 0.5 cm, at: bust}"; len(found) != 1 || !strings.Contains(found[0].Mend(), want) {
			t.Fatalf("size %s: %v, want %s", size, told(found), want)
		}
		c, found := apply(t, g, docket.Change{Kind: docket.TakeIn, Item: "side", At: "bust", By: unit.MM(5)})
		if found.Stops() > 0 {
			t.Fatal(told(found))
		}
		sum := 0.0
		for _, on := range []string{"front", "back"} {
			level, _ := g.Pieces[on].Line(piece.Level, "bust")
			sum += widthAt(g.Pieces[on], height(level.Curve)) - widthAt(c.Garment().Pieces[on], height(level.Curve))
		}
		same(t, size+" taken from front and back", sum, 10, 0.3)
	}
}

func markOf(p piece.Piece, name string) geom.Pt {
	for _, m := range p.Marks {
		if m.Name == name {
			return m.P
		}
	}
	return geom.Pt{}
}

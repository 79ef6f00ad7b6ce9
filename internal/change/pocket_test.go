package change

import (
	"testing"

	"gusset/internal/docket"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

func penPocket(hand piece.Copy) docket.Change {
	return docket.Change{
		Kind: docket.AddPocket, Piece: "pen-pocket", Edge: "front:edge", Where: unit.MM(90), At: "bust", By: unit.MM(-30),
		Wide: unit.MM(60), Deep: unit.MM(110), Hand: hand, Method: "patch-pocket",
	}
}

// An added pocket is as wide and deep as asked for and its mouth lies as far
// from the edge and the level; what is in the way is refused.
func TestAddPocket(t *testing.T) {
	for size, g := range topSizes(t) {
		c, found := apply(t, g, penPocket(piece.Right))
		if found.Stops() > 0 {
			t.Fatal(told(found))
		}
		now := c.Garment()
		l, ok := now.Pieces["front"].LineNamed("add-pocket")
		if !ok {
			t.Fatal("no placement")
		}
		level, _ := g.Pieces["front"].Line(piece.Level, "bust")
		same(t, size+" from the edge", l.Curve.Start().X-edgeOn(t, g, "front", "edge").Start().X, 90, 1e-6)
		same(t, size+" above the bust", l.Curve.Start().Y-height(level.Curve), 30, 1e-6)
		same(t, size+" round the pocket", l.Curve.Length(), 2*110+60, 1e-6)
		u, _ := now.Use("pen-pocket")
		if u.Copies != pattern.Single {
			t.Errorf("size %s: a pocket for one hand is cut %s", size, u.Copies)
		}
		off := penPocket(piece.Both)
		off.Where = unit.MM(320)
		twice := penPocket(piece.Both)
		twice.Piece = "breast-pocket"
		for _, s := range []docket.Change{off, twice} {
			if _, found := apply(t, g, s); !found.Has("change.no-pocket") {
				t.Errorf("size %s: %v", size, told(found))
			}
		}
	}
}

// A pocket set on a line keeps its place's shape when the body is lengthened
// through it.
func TestPlacesStayInShape(t *testing.T) {
	for size, g := range topSizes(t) {
		c, _ := apply(t, g, docket.Change{Kind: docket.Lengthen, At: "body", By: unit.MM(80)})
		for _, name := range []string{"breast", "hip-pocket"} {
			a, _ := g.Pieces["front"].LineNamed(name)
			b, _ := c.Garment().Pieces["front"].LineNamed(name)
			shift := b.Curve.Start().Sub(a.Curve.Start())
			for i, s := range a.Curve {
				if off := s.End().Add(shift).Dist(b.Curve[i].End()); off > 1e-6 {
					t.Errorf("size %s: %s is pulled %.3f mm out of shape", size, name, off)
				}
			}
		}
	}
}

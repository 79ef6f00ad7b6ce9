package seam

import (
	"math"
	"testing"

	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// Ease between notches, worked out by hand. An armhole of 500 is sewn to a head of 512:
// the 12 lie between the notches at 100 and 300, as over the head of a sleeve, with
// none below them (common practice: the head is eased between its notches, the
// underarm sewn flat). Then the head's notches stand at 100 and 312, its middle one,
// 100 into 200, at 206, and a match at 400 meets 412.
func TestEaseBetweenNotches(t *testing.T) {
	notch := func(name, edge string, at float64) piece.Mark {
		return piece.Mark{Kind: piece.Notch, Name: name, Edge: edge, At: at}
	}
	back := panel("back", 180, 512, 180)
	front := panel("front", 200, 500, 180)
	front.Marks = []piece.Mark{notch("front-pitch", "side", 100), notch("top", "side", 200), notch("back-pitch", "side", 300)}
	back.Marks = []piece.Mark{notch("front-pitch", "centre", 512-100), notch("top", "centre", 512-206), notch("back-pitch", "centre", 512-312)}
	join := pattern.Join{ID: "armhole", Each: true, Sides: [][]piece.Ref{refs(t, "front:side"), refs(t, "back:centre")},
		Ease: []unit.Length{unit.MM(12)}, Notches: []string{"front-pitch", "top", "back-pitch"}, EaseBetween: []string{"front-pitch", "back-pitch"}}
	for name, want := range map[string]float64{"between": 0, "swapped": 0, "all along": 4.8} {
		j := join
		switch name {
		case "swapped":
			j.EaseBetween = []string{"back-pitch", "front-pitch"}
		case "all along": // the back pitch would stand at 300 + 12·300/500
			j.EaseBetween = nil
		}
		g := garment(t, back, j)
		g.Pieces["front"] = front
		g.View.Matches = []pattern.Match{{Join: "armhole", At: unit.MM(400), Along: true}}
		seams, found := Resolve(g)
		w, _ := Walk(g, seams, unit.Millimetre)
		if len(found) > 0 || len(w.Seams()) != 2 {
			t.Fatalf("%d seams, %v", len(w.Seams()), found.Codes())
		}
		for _, r := range w.Seams() {
			for _, n := range r.Notches {
				if miss := math.Abs(n.Gaps[1]); name != "all along" && miss > 1e-9 || n.Name == "back-pitch" && math.Abs(miss-want) > 1e-9 {
					t.Errorf("%s, %s: notch %s misses by %.3f mm", name, r.Seam.ID, n.Name, n.Gaps[1])
				}
			}
		}
		points, _ := MatchPoints(g, seams, unit.Millimetre)
		meets := map[string]float64{"between": 412, "swapped": 412, "all along": 400 * 512.0 / 500}[name]
		for _, p := range points {
			if p.Piece == "back" && math.Abs(p.P.Y-meets) > 1e-6 {
				t.Errorf("%s: 400 of the armhole meets %.2f of the head, want %.2f", name, p.P.Y, meets)
			}
		}
	}
}

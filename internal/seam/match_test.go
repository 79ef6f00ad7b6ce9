package seam

import (
	"math"
	"testing"

	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// Two panels of 200 by 500 mm, sewn side to centre for each hand. By hand: the
// side runs up the right of the front, the centre down the left of the back, so
// that both are walked upwards; the notch lies at 180 mm, the middle at 250,
// and 100 mm from the start at 100. On the right hand all is mirrored.
func TestMatchPoints(t *testing.T) {
	for at, y := range map[string]float64{"knee": 180, pattern.Start: 0, pattern.Middle: 250, pattern.End: 500, "": 100} {
		m := pattern.Match{Join: "side", Point: at, Along: true}
		if at == "" {
			m.At = unit.MM(100)
		}
		g := garment(t, panel("back", 200, 500, 180), pattern.Join{ID: "side", Each: true, Sides: [][]piece.Ref{refs(t, "front:side"), refs(t, "back:centre")}})
		g.View.Matches = []pattern.Match{m}
		seams, _ := Resolve(g)
		got, found := MatchPoints(g, seams, unit.Millimetre)
		if len(found) > 0 || len(got) != 4 {
			t.Fatalf("%q: %v, found %v", at, got, found.Codes())
		}
		want := map[string]geom.Pt{"front left": {X: 200, Y: y}, "back left": {Y: y}, "front right": {X: -200, Y: y}, "back right": {Y: y}}
		for _, p := range got {
			if w := want[p.Piece+" "+string(p.Copy)]; p.P.Dist(w) > 1e-6 || !p.Along || p.Across {
				t.Errorf("%q: %s on %s %s at %v, by hand %v", at, p.Match, p.Piece, p.Copy, p.P, w)
			}
		}
		if got[0].Match == got[2].Match || got[0].Match != got[1].Match || got[0].Match != "side@left at "+pick(at, m) {
			t.Errorf("%q: called %s and %s", at, got[0].Match, got[2].Match)
		}
	}
}

func pick(at string, m pattern.Match) string {
	if at == "" {
		return m.At.String()
	}
	return at
}

// Along an eased seam the ease is shared: half way along a side of 500 mm lies
// 252 mm up one of 504.
func TestMatchPointsEased(t *testing.T) {
	g := garment(t, panel("back", 200, 504, 180), pattern.Join{ID: "side", Each: true, Sides: [][]piece.Ref{refs(t, "front:side"), refs(t, "back:centre")}})
	g.View.Matches = []pattern.Match{{Join: "side", At: unit.MM(250)}}
	seams, _ := Resolve(g)
	got, _ := MatchPoints(g, seams, unit.Millimetre)
	if len(got) != 4 || math.Abs(got[0].P.Y-250) > 1e-6 || math.Abs(got[1].P.Y-252) > 1e-6 {
		t.Errorf("%+v", got)
	}
}

func TestMatchPointsMissing(t *testing.T) {
	g := garment(t, panel("back", 200, 500, 180), pattern.Join{ID: "side", Each: true, Sides: [][]piece.Ref{refs(t, "front:side"), refs(t, "back:centre")}})
	seams, _ := Resolve(g)
	for code, m := range map[string]pattern.Match{
		"seam.match-missing": {Join: "side", Point: "elbow"},
		"seam.match-beyond":  {Join: "side", At: unit.MM(501)},
	} {
		g.View.Matches = []pattern.Match{m}
		if got, found := MatchPoints(g, seams, unit.Millimetre); len(got) > 0 || len(found) != 1 || !found.Has(code) {
			t.Errorf("%s: %v, found %v", code, got, found.Codes())
		}
	}
}

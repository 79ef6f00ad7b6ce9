package reach

import (
	"math"
	"slices"
	"testing"

	"gusset/internal/machine"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// bench is the machine of the worked example: an arm 28 cm round and 17 cm
// long, a throat of 17 cm.
var bench = []machine.Machine{{
	Kind: machine.Lockstitch, Stitches: []string{"301"},
	ArmGirth: unit.MM(280), ArmLength: unit.MM(170), Throat: unit.MM(170), ThroatHeight: unit.MM(110),
}}

// done says that the given operations are done.
func done(ids ...string) func(string) bool {
	return func(id string) bool { return slices.Contains(ids, id) }
}

func only(t *testing.T, s Survey, op string) Condition {
	t.Helper()
	for _, c := range s.Conditions() {
		if c.Op == op {
			return c
		}
	}
	t.Fatalf("nothing makes %s harder", op)
	return Condition{}
}

// tube is a leg or sleeve of two panels, open at top and hem.
func tube(width, long float64, outseam, inseam string) pattern.Garment {
	front := box("front", width, long, "hem", "outseam", "top", "inseam")
	back := box("back", width, long, "hem", "inseam", "top", "outseam")
	return garment([]piece.Piece{front, back}, []string{"front", "back"}, pattern.View{
		Joins: []pattern.Join{
			join("outseam", outseam, "front:outseam", "back:outseam"),
			join("inseam", inseam, "front:inseam", "back:inseam"),
		},
		Finishes: []pattern.Finish{finish("hem", "double-hem", "front:hem", "back:hem")},
	})
}

// felled lists what comes before the fell of a seam.
func felled(id string) []string { return []string{id + ".sew", id + ".press", id + ".turn"} }

// A leg of 38 cm, 74 cm long: the outseam is topstitched with ease while the
// inseam is open. Afterwards the worst place is halfway, 37 cm from either end:
// the cloth lies on the arm in 37/17 layers, so that 28 cm + 2π × 3 × 0.08 cm ×
// 37/17 = 31.3 cm of girth would do: awkward, not impossible.
func TestTopstitchOutseamAfterInseam(t *testing.T) {
	s := Look(planned(t, tube(190, 740, "felled-seam", "plain-overlocked")), bench)
	if a := s.At("outseam.fell", done(felled("outseam")...)); a.Level != Easy {
		t.Errorf("before the inseam: %s", a.Level)
	}
	a := s.At("outseam.fell", done(append(felled("outseam"), "inseam.sew")...))
	if a.Level != Awkward || !a.Along || math.Abs(a.Girth-380) > 1 || math.Abs(a.Depth-370) > 20 || math.Abs(a.Deep-740) > 1 {
		t.Errorf("after the inseam: %s, %+v", a.Level, a)
	}
	if need := bench[0].ArmGirth.MM() + a.Machine.bunched(370, 0.8); math.Abs(need-313) > 1 {
		t.Errorf("with the cloth bunched up the arm is %.0f mm round, by hand 313", need)
	}
	b := only(t, s, "outseam.fell").Blockers(Awkward)
	if len(b) != 1 || !slices.Equal(b[0].Closers, []string{"inseam.sew"}) {
		t.Errorf("blocked by %+v", b)
	}
}

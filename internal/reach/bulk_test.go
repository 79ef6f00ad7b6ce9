package reach

import (
	"testing"

	"gusset/internal/machine"
	"gusset/internal/unit"
)

// A double hem has three plies (common practice: the cloth, the hem and its edge
// turned under). Where it runs over a felled seam, four plies thick under its
// topstitching, twelve lie under the foot: of a cloth 0.8 mm thick 9.6 mm. Over a
// seam overlocked together and pressed to one side, three plies, it is nine and
// 7.2 mm; over one pressed open, two plies at either side, six and 4.8 mm.
func TestHemOverASeam(t *testing.T) {
	for _, c := range []struct {
		outseam, inseam string
		plies           int
		mm              float64
		over            string
	}{
		{"felled-seam", "plain-open", 12, 9.6, "outseam"},
		{"plain-open", "felled-seam", 12, 9.6, "inseam"},
		{"plain-overlocked", "plain-open", 9, 7.2, "outseam"},
		{"plain-open", "plain-open", 6, 4.8, "inseam"},
	} {
		s := Look(planned(t, tube(220, 740, c.outseam, c.inseam)), bench)
		b, over := s.bulk(s.lines[s.index["hem.topstitch"]])
		if !over || b.Plies != c.plies || b.Thickness < c.mm-1e-9 || b.Thickness > c.mm+1e-9 || b.Over != c.over {
			t.Errorf("%s and %s: %+v; want %d plies, %.1f mm over %s", c.outseam, c.inseam, b, c.plies, c.mm, c.over)
		}
		if !b.Guessed || b.Lift != 6 {
			t.Errorf("a foot of no stated lift lifts %+v", b)
		}
		if told := len(s.Bulky()) > 0; told != (c.mm > 6) {
			t.Errorf("%s and %s: told %v", c.outseam, c.inseam, s.Bulky())
		}
	}
}

// The machine file's own figure counts, and of two machines the higher foot.
func TestStatedLift(t *testing.T) {
	high := bench[0]
	high.FootLift = unit.MM(10)
	low := bench[0]
	low.FootLift = unit.MM(5)
	p := planned(t, tube(220, 740, "felled-seam", "plain-open"))
	for _, c := range []struct {
		machines []machine.Machine
		lift     float64
		told     bool
	}{{[]machine.Machine{low}, 5, true}, {[]machine.Machine{high}, 10, false}, {[]machine.Machine{low, high}, 10, false}} {
		s := Look(p, c.machines)
		b, _ := s.bulk(s.lines[s.index["hem.topstitch"]])
		if b.Guessed || b.Lift != c.lift || len(s.Bulky()) > 0 != c.told {
			t.Errorf("%+v, told %v", b, s.Bulky())
		}
	}
}

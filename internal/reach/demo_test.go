package reach

import (
	"math"
	"strings"
	"testing"

	"gusset/demo/printed"
	"gusset/internal/cloth"
	"gusset/internal/construct"
	"gusset/internal/method"
	"gusset/internal/seam"
	"gusset/internal/unit"
)

// quay is a view of the demo pattern in one printed size.
func quay(t testing.TB, view string, size int) construct.Plan {
	t.Helper()
	g := printed.View(t, "quay", view, size)
	library, _ := method.Builtin()
	c := cloth.Cloth{Thickness: unit.MM(0.8)}
	plan, found := construct.Construct(g, library, map[cloth.Role]cloth.Cloth{cloth.Main: c, cloth.Pocketing: c, cloth.Interfacing: c}, nil)
	if found.Stops() > 0 {
		t.Fatal(found.Codes())
	}
	return plan
}

func BenchmarkLook(b *testing.B) {
	for _, view := range []string{"long", "cropped"} {
		p := quay(b, view, 3)
		b.Run(view, func(b *testing.B) {
			for b.Loop() {
				Look(p, bench)
			}
		})
	}
}

// The demo's trousers are wide: a leg of 58 cm is laid open on the bench, so that
// every step is easy when all is done that has to come before it. The only lines
// that any seams can hinder are those of the cropped trousers' pockets: with the
// outseam closed above and below, the mouth is a slit of two edges 15 cm long and
// 30 cm round, which goes on the arm.
func TestDemoIsEasy(t *testing.T) {
	for _, view := range []string{"long", "cropped"} {
		s := Look(quay(t, view, 3), bench)
		for _, c := range s.Conditions() {
			for _, a := range c.When {
				mouth := view == "cropped" && (strings.HasPrefix(c.Op, "pocket-") || strings.HasPrefix(c.Op, "bag."))
				if a.Level > Easy && (!mouth || a.Level > RoundArm || math.Abs(a.Girth-300) > 2) {
					t.Errorf("%s: %s is %s: %+v", view, c.Op, a.Level, a)
				}
			}
		}
		if len(s.Conditions()) > 0 != (view == "cropped") {
			t.Errorf("%s: %d conditions", view, len(s.Conditions()))
		}
		for _, l := range s.lines {
			if a := s.At(l.op.ID, func(id string) bool { return l.before[id] }); a.Level > Easy {
				t.Errorf("%s: %s is %s: %s", view, l.op.ID, a.Level, a.Words(unit.Centimetre))
			}
		}
	}
}

// The two sides of a seam are glued from end to end, also where one of them is one
// edge and the other a chain of several, as the outseam over back and yoke.
func TestEveryDemoSeamIsGlued(t *testing.T) {
	for _, view := range []string{"long", "cropped"} {
		p := quay(t, view, 3)
		s := newSurface(p.Garment(), p.Seams())
		for i, m := range s.seams {
			if !edges(m) {
				continue
			}
			full, own := true, false
			for _, side := range m.Sides[:2] {
				length := 0.0
				for _, w := range s.along(side) {
					if s.arcs[w.arc].mate >= 0 {
						length += s.arcs[w.arc].to - s.arcs[w.arc].from
					}
					own = own || s.arcs[w.arc].seam == i
				}
				full = full && math.Abs(length-seam.ChainLength(side)) < 1
			}
			// The inside of the band and the facing's top lie on the waist seam, which is
			// glued already.
			if on := m.ID == "band-inner" || m.ID == "fly-facing-waist"; full == on || own == on {
				t.Errorf("%s: %s is glued in full: %v, by itself: %v", view, m.ID, full, own)
			}
		}
	}
}

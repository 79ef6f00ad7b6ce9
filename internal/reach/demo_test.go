package reach

import (
	"path"
	"testing"

	"gusset/demo"
	"gusset/internal/cloth"
	"gusset/internal/construct"
	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// quay is a view of the demo pattern in one printed size.
func quay(t testing.TB, view string, size int) construct.Plan {
	t.Helper()
	read := func(name string) (source.File, error) {
		p := path.Join("patterns/quay", name)
		data, err := demo.Files.ReadFile(p)
		return source.File{Path: p, Data: data}, err
	}
	f, err := read("pattern.yaml")
	if err != nil {
		t.Fatal(err)
	}
	p, found := pattern.Load(f, read)
	if found.Stops() > 0 {
		t.Fatal(found.Codes())
	}
	v, _ := p.View(view)
	g := pattern.Garment{View: v, Pieces: map[string]piece.Piece{}, Order: p.Order}
	for _, u := range v.Uses {
		g.Pieces[u.Piece] = p.Pieces[u.Piece].In[size]
	}
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

// The demo's trousers are wide: a leg of 58 cm is laid open on the bench, so
// that no seam stands in the way of any other and every step is easy when all
// is done that has to come before it.
func TestDemoIsEasy(t *testing.T) {
	for _, view := range []string{"long", "cropped"} {
		s := Look(quay(t, view, 3), bench)
		for _, c := range s.Conditions() {
			t.Errorf("%s: %s is hindered by %v", view, c.Op, c.Blockers(c.When[0].Level+1))
		}
		for _, l := range s.lines {
			if a := s.At(l.op.ID, func(id string) bool { return l.before[id] }); a.Level > Easy {
				t.Errorf("%s: %s is %s: %s", view, l.op.ID, a.Level, a.Words(unit.Centimetre))
			}
		}
	}
}

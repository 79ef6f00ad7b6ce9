package construct

import (
	"os"
	"path/filepath"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/pattern"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// fixture reads a small test pattern through the loader.
func fixture(t *testing.T, name string) pattern.Pattern {
	t.Helper()
	read := func(file string) (source.File, error) {
		p := filepath.Join("testdata", name, file)
		data, err := os.ReadFile(p)
		return source.File{Path: filepath.ToSlash(p), Data: data}, err
	}
	f, err := read("pattern.yaml")
	if err != nil {
		t.Fatal(err)
	}
	p, found := pattern.Load(f, read)
	for _, f := range found {
		t.Errorf("%s %s: %s", f.Place, f.Code(), f.Text())
	}
	if t.Failed() {
		t.FailNow()
	}
	return p
}

// allCloths gives every role a cloth of the given thickness in mm.
func allCloths(thickness float64) map[cloth.Role]cloth.Cloth {
	out := map[cloth.Role]cloth.Cloth{}
	for _, r := range cloth.Roles {
		out[r] = cloth.Cloth{Name: string(r), Thickness: unit.MM(thickness)}
	}
	return out
}

// garmentOf plans a view of a test pattern in one size.
func garmentOf(t *testing.T, p pattern.Pattern, view string, size int, swap map[string]string) Plan {
	t.Helper()
	v, ok := p.View(view)
	if !ok {
		t.Fatalf("no view %s", view)
	}
	plan, found := Construct(inSize(p, v, size), library(t), allCloths(0.6), swap)
	for _, f := range found {
		t.Errorf("%s in %s: %s %s: %s", view, p.Sizes[size], f.Place, f.Code(), f.Text())
	}
	return plan
}

func wantOrder(t *testing.T, p Plan, pairs [][2]string) {
	t.Helper()
	all := reaches(p)
	for _, c := range pairs {
		switch {
		case all[c[0]] == nil || all[c[1]] == nil:
			t.Errorf("no operations %s and %s", c[0], c[1])
		case !all[c[1]][c[0]]:
			t.Errorf("%s does not wait for %s", c[1], c[0])
		}
	}
}

// A skirt: darts and pleats before the seams that cross them (handbooks: darts
// first), zip before the facing, facing after its own seams, hem last.
func TestSkirt(t *testing.T) {
	p := fixture(t, "skirt")
	for size := range p.Sizes {
		plan := garmentOf(t, p, "faced", size, nil)
		wantOrder(t, plan, [][2]string{
			{"front-dart.press@left", "waist.sew@left"},
			{"back-dart.press@right", "waist.sew@right"},
			{"pleat.hold@left", "waist.sew@left"},
			{"side.press@left", "waist.sew@left"},
			{"facing-side.press@right", "waist.sew@right"},
			{"zip.lap", "waist.sew@left"},
			{"back-seam.press", "zip.press"},
			{"back-seam.press", "hem.turn"},
			{"side.press@left", "hem.turn"},
			{"zip-edges.overlock@left", "zip.press"},
		})
		for _, d := range plan.Demands() {
			if in := d.Kind == ForIntake; in != (d.Edge == "dart-in" || d.Edge == "dart-out" || d.Edge == "pleat-top") {
				t.Errorf("%s:%s is a %s", d.Piece, d.Edge, d.Kind)
			}
		}
	}
}

package construct

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"gusset/demo/printed"
	"gusset/internal/cloth"
	"gusset/internal/finding"
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
	plan, found := Construct(printed.Garment(p, v, size), library(t), allCloths(0.6), swap)
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

// A sleeve set in the round waits for side and underarm; set in flat it comes
// before both (handbooks give the two orders).
func TestSleeves(t *testing.T) {
	p := fixture(t, "overshirt")
	wantOrder(t, garmentOf(t, p, "buttoned", 0, nil), [][2]string{
		{"shoulder.press@left", "armhole.sew@left"},
		{"side.press@right", "armhole.sew@right"},
		{"underarm.press@left", "armhole.sew@left"},
		{"underarm.press@left", "cuff.turn@left"},
		{"side.press@right", "hem.turn"},
		{"hem.press", "buttons.mark"},
		{"front-edge.fold@left", "buttons.mark"},
	})
	flat := garmentOf(t, p, "buttoned", 0, map[string]string{"armhole": "sleeve-flat"})
	wantOrder(t, flat, [][2]string{
		{"shoulder.press@left", "armhole.sew@left"},
		{"armhole.press@right", "side.sew@right"},
		{"armhole.press@left", "underarm.sew@left"},
	})
}

// Nothing that prevents altering a seam comes before its fitting: the seams'
// own stitching, the zip set in one of them, the facing over them all. A toile
// comes before everything.
func TestFitting(t *testing.T) {
	p := fixture(t, "skirt")
	wantOrder(t, garmentOf(t, p, "faced", 0, nil), [][2]string{
		{"fitting.baste@side-left", "fitting.try"},
		{"fitting.unpick", "side.sew@left"},
		{"fitting.unpick", "side.sew@right"},
		{"fitting.unpick", "back-dart.sew@left"},
		{"fitting.unpick", "zip.under"},
		{"fitting.unpick", "waist.sew@left"},
		{"fitting.unpick", "hem.turn"},
		{"interfacing.fuse@back-facing@left", "facing-side.sew@left"},
		{"interfacing.fuse@front-facing", "waist.sew@right"},
	})
	all := reaches(garmentOf(t, p, "faced", 0, nil))
	if all["pleat.sew@left"]["fitting.unpick"] {
		t.Error("the pleat, which is not tried, waits for the fitting")
	}
	toile := garmentOf(t, p, "faced", 0, map[string]string{"fitting": "toile"})
	all = reaches(toile)
	for _, o := range toile.Operations() {
		if o.Item != "fitting" && !all[o.ID]["fitting.carry"] {
			t.Errorf("%s does not wait for the toile", o.ID)
		}
	}
}

// Buttons are counted anew in every size: n = round((L - first - last) /
// spacing) + 1 and gaps L/(n-1), worked by hand from the line of 630 mm that
// grows by 30 mm a size: (630-95)/85 = 6.3, (660-95)/85 = 6.6, (690-95)/85 = 7.
func TestButtonsFollowTheSize(t *testing.T) {
	p := fixture(t, "overshirt")
	for size, want := range []struct {
		count int
		gap   string
	}{{7, "89.2 mm apart"}, {8, "80.7 mm apart"}, {8, "85.0 mm apart"}} {
		plan := garmentOf(t, p, "buttoned", size, nil)
		var bought int
		for _, n := range plan.Notions() {
			if n.Kind == "button" {
				bought += n.Count
				if span := 630 + 30*float64(size) - 95; math.Abs(n.Gap*float64(n.Count-1)-span) > 1e-6 {
					t.Errorf("size %s: %d buttons %.2f mm apart on %.0f mm", p.Sizes[size], n.Count, n.Gap, span)
				}
			}
		}
		if bought != want.count {
			t.Errorf("size %s: %d buttons, want %d", p.Sizes[size], bought, want.count)
		}
		for _, o := range plan.Operations() {
			if o.ID == "buttons.holes" && o.Length != float64(want.count)*(17+3+3) {
				t.Errorf("size %s: %.0f mm of buttonholes", p.Sizes[size], o.Length)
			}
			if o.ID == "buttons.mark" && !strings.Contains(strings.ReplaceAll(o.Do, "85 mm", "85.0 mm"), want.gap) {
				t.Errorf("size %s: %q, want %s", p.Sizes[size], o.Do, want.gap)
			}
		}
	}
}

// Every method stands in for every other of its family, on the demo and the
// test garments: no finding stops, and something moves with it: an allowance,
// an operation or a notion.
func TestEverySwap(t *testing.T) {
	lib := library(t)
	for _, p := range []pattern.Pattern{printed.Pattern(t, "quay"), fixture(t, "skirt"), fixture(t, "overshirt")} {
		for _, v := range p.Views {
			g := printed.Garment(p, v, 1)
			plain, found := Construct(g, lib, allCloths(0.6), nil)
			if found.Stops() > 0 {
				t.Fatal(found.Codes())
			}
			for _, id := range itemsOf(plain) {
				b := &builder{garment: g}
				b.readItems(lib)
				now := b.items[id].method
				for _, name := range lib.Names() {
					m, _ := lib.Find(name)
					if m.Family != now.Family || m.Takes != now.Takes || name == now.Name {
						continue
					}
					swapped, found := Construct(g, lib, allCloths(0.6), map[string]string{id: name})
					for _, f := range found {
						if f.Severity() == finding.Stop {
							t.Errorf("%s %s: %s by %s: %s", p.Name, v.Name, id, name, f.Text())
						}
					}
					if summary(plain, id) == summary(swapped, id) {
						t.Errorf("%s %s: %s by %s moves nothing", p.Name, v.Name, id, name)
					}
				}
			}
		}
	}
}

func itemsOf(p Plan) []string {
	var ids []string
	for _, o := range p.Operations() {
		if !slices.Contains(ids, o.Item) {
			ids = append(ids, o.Item)
		}
	}
	return ids
}

// summary writes what an item's method settles.
func summary(p Plan, id string) string {
	var b strings.Builder
	for _, d := range p.Demands() {
		if d.Source == id {
			fmt.Fprintf(&b, "%s %s %s %.3f %v\n", d.Piece, d.Edge, d.Kind, d.Width, d.Folds)
		}
	}
	for _, o := range p.Operations() {
		if o.Item == id {
			fmt.Fprintf(&b, "%s %s %s %.1f\n", o.ID, o.Do, o.Stitch, o.Length)
		}
	}
	for _, n := range p.Notions() {
		if n.Item == id {
			fmt.Fprintf(&b, "%s %d %.1f\n", n.Kind, n.Count, n.Length)
		}
	}
	return b.String()
}

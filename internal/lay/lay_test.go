package lay_test

import (
	"context"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/finish"
	"gusset/internal/lay"
	"gusset/internal/referee"
	"gusset/internal/unit"
)

func pass(t *testing.T, cuts []finish.Cut, c cloth.Cloth, l lay.Lay) {
	t.Helper()
	for _, f := range referee.Check(cuts, c, l) {
		t.Errorf("%s: %s", f.Code(), f.Text())
	}
}

// Lengths by hand, on 1460 mm of usable width. The search keeps pieces 5 µm
// apart, so two in a row along the cloth may take that much more.
func TestKnownLengths(t *testing.T) {
	two := pair("front", rect(700, 500))
	wide := pair("cape", rect(740, 500))
	for _, c := range []struct {
		name     string
		cuts     []finish.Cut
		fold     string
		plan     lay.Plan
		length   float64
		sections int
	}{
		{"two side by side", two, "open", lay.Open, 510, 1},
		{"the same, at one go", two, "lengthwise", lay.Lengthwise, 510, 1},
		{"no cloth saved either way: fewer cuts", two, "auto", lay.Lengthwise, 510, 1},
		{"a pair wider than half the cloth cannot be folded", wide, "lengthwise", lay.Lengthwise, 1010, 1},
		{"singles only", []finish.Cut{single("band", rect(1460, 90))}, "auto", lay.Open, 100, 1},
		{"pair and single: folding leaves a gap beside the single",
			append(pair("leg", rect(500, 300)), single("band", rect(400, 300))), "auto", lay.Open, 310, 1},
		{"the same, folded", append(pair("leg", rect(500, 300)), single("band", rect(400, 300))), "lengthwise", lay.Lengthwise, 610, 2},
		{"a small pair moves beside the single, the large one stays folded",
			append(append(pair("leg", rect(700, 500)), pair("yoke", rect(500, 300))...), single("band", rect(400, 300))),
			"lengthwise", lay.Lengthwise, 810, 2},
		{"half on the fold", []finish.Cut{half("shield", 5, 730, 200)}, "lengthwise", lay.Lengthwise, 210, 1},
		{"half opened out", []finish.Cut{half("shield", 5, -730, 200)}, "open", lay.Open, 210, 1},
		{"nothing to cut", nil, "auto", lay.Open, 0, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			for _, d := range cloth.Directions {
				l, found := lay.Make(context.Background(), drill(d), cloth.Main, c.cuts, lay.Options{Fold: c.fold})
				if len(found) > 0 {
					t.Errorf("%s: %s", found[0].Code(), found[0].Text())
				}
				if l.Plan != c.plan || math.Abs(l.Length-c.length) > 0.02 || len(l.Sections) != c.sections {
					t.Errorf("%s cloth: %s, %d sections, %.3f mm", d, l.Plan, len(l.Sections), l.Length)
				}
				pass(t, c.cuts, drill(d), l)
			}
		})
	}
}

// Whatever is laid, the referee finds nothing wrong with it.
func TestRefereePasses(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 5))
	for k := range 24 {
		cuts, c := trousers(rng), drill(cloth.Directions[k%3])
		fold := []string{"open", "lengthwise", "auto"}[k/3%3]
		l, found := lay.Make(context.Background(), c, cloth.Main, cuts, lay.Options{Fold: fold, Rounds: 40 * (k % 2), Seed: uint64(k)})
		if len(found) > 0 {
			t.Fatalf("%s: %s", found[0].Code(), found[0].Text())
		}
		pass(t, cuts, c, l)
		if len(l.Unplaced) > 0 || l.Density < 0.4 || l.Density > 1 {
			t.Errorf("%s: unplaced %v, density %.2f", fold, l.Unplaced, l.Density)
		}
	}
}

// auto keeps the shorter of the plans and tells both.
func TestAutoKeepsTheShorter(t *testing.T) {
	cuts := trousers(rand.New(rand.NewPCG(9, 9)))
	c := drill(cloth.OneWay)
	auto, _ := lay.Make(context.Background(), c, cloth.Main, cuts, lay.Options{})
	var plans []lay.Plan
	for _, a := range auto.Tried {
		plans = append(plans, a.Plan)
	}
	if want := []lay.Plan{lay.Lengthwise, lay.Open, lay.PartFold, lay.TwoFolds, lay.Turned}; !slices.Equal(plans, want) {
		t.Fatalf("tried %v", plans)
	}
	for _, a := range auto.Tried {
		one, _ := lay.Make(context.Background(), c, cloth.Main, cuts, lay.Options{Fold: string(a.Plan)})
		if one.Length != a.Length || auto.Length > a.Length || a.Unplaced != 0 {
			t.Errorf("%s alone takes %v, tried %v, kept %v", a.Plan, one.Length, a.Length, auto.Length)
		}
	}
}

func TestSameSeedSameLay(t *testing.T) {
	cuts := trousers(rand.New(rand.NewPCG(3, 3)))
	o := lay.Options{Rounds: 60, Seed: 11}
	a, _ := lay.Make(context.Background(), drill(cloth.TwoWay), cloth.Main, cuts, o)
	b, _ := lay.Make(context.Background(), drill(cloth.TwoWay), cloth.Main, cuts, o)
	if !reflect.DeepEqual(a, b) {
		t.Error("the same seed gave two lays")
	}
}

func TestFindings(t *testing.T) {
	one := func(o []finish.Micron) []finish.Cut { return []finish.Cut{single("band", o)} }
	slanting := half("shield", 0, 80, 200)
	slanting.Fold[1].X += 1000
	slanting.Outline = outline(0, 0, 80, 0, 80, 180, 1, 200)
	short, unwashed := drill(cloth.OneWay), drill(cloth.OneWay)
	short.Length = unit.MM(500)
	unwashed.Washed, unwashed.ShrinkWarp, unwashed.ShrinkWeft = false, 0.1, 0.05
	for _, c := range []struct {
		code  string
		cloth cloth.Cloth
		cuts  []finish.Cut
		o     lay.Options
		text  string
		left  []string
	}{
		{"lay.short", short, one(rect(1460, 512.4)), lay.Options{},
			"the pieces need 52.2 cm of rust drill and there are 50 cm: 2.3 cm too short", nil},
		{"lay.too-wide", short, one(rect(1461, 50)), lay.Options{},
			"band is 146.1 cm wide across the grain and rust drill only 146 cm between its selvedges", []string{"band"}},
		{"lay.too-wide", short, []finish.Cut{half("apron", 0, 731, 100)}, lay.Options{},
			"apron is 146.2 cm wide across the grain and rust drill only 146 cm between its selvedges", []string{"apron"}},
		{"lay.unwashed", unwashed, one(rect(1387, 50)), lay.Options{},
			"rust drill is not washed yet; the lay reckons with the 810 cm by 138.7 cm between the selvedges that washing leaves of it", nil},
		{"lay.table", short, one(rect(1460, 400)), lay.Options{Table: 300}, "the lay is 41 cm long and the table 30 cm", nil},
		{"lay.outline", short, one(outline(0, 0, 50, 50, 60, 0, 0, 60)), lay.Options{},
			"the cut line of band crosses itself or encloses nothing", []string{"band"}},
		{"lay.outline", short, one(mirror(mirror(outline(0, 0, 0, 50, 50, 0)))), lay.Options{},
			"the cut line of band crosses itself or encloses nothing", []string{"band"}},
		{"lay.fold", short, []finish.Cut{slanting}, lay.Options{},
			"the fold line of shield does not run with its grain along one side of it, so the piece cannot be laid on a fold nor opened out", []string{"shield"}},
	} {
		l, found := lay.Make(context.Background(), c.cloth, cloth.Main, c.cuts, c.o)
		if !slices.Equal(found.Codes(), []string{c.code}) || found[0].Text() != c.text || !slices.Equal(l.Unplaced, c.left) {
			t.Errorf("want %s, found %v: unplaced %v", c.code, found.Codes(), l.Unplaced)
			for _, f := range found {
				t.Log(f.Text())
			}
		}
	}
}

// After a change to one hand only the two are no mirror images: each is cut by
// itself, also where the cloth is folded for the rest.
func TestUnlikePairIsCutSingly(t *testing.T) {
	cuts := append(pair("front", rect(300, 400)), pair("back", rect(310, 400))...)
	cuts[1].Outline = rect(300, 401)
	l, found := lay.Make(context.Background(), drill(cloth.OneWay), cloth.Main, cuts, lay.Options{Fold: "lengthwise"})
	pass(t, cuts, drill(cloth.OneWay), l)
	if len(found) > 0 || len(l.Placed) != 3 || len(l.Sections) != 2 || l.Sections[0].Fold != lay.Along {
		t.Errorf("%v, %d placed, %d sections", found.Codes(), len(l.Placed), len(l.Sections))
	}
}

// Stopped before it begins, nothing is claimed that the referee would not find.
func TestStopped(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	cuts := trousers(rand.New(rand.NewPCG(3, 3)))
	l, found := lay.Make(ctx, drill(cloth.OneWay), cloth.Main, cuts, lay.Options{Rounds: 1000})
	if len(l.Unplaced) > 0 != found.Has("lay.stopped") {
		t.Errorf("unplaced %v, found %v", l.Unplaced, found.Codes())
	}
	pass(t, cuts, drill(cloth.OneWay), l)
}

// Stopped on the way, the best lay so far comes back whole.
func TestStoppedOnTheWay(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	cuts := trousers(rand.New(rand.NewPCG(4, 4)))
	told := math.Inf(1)
	o := lay.Options{Fold: "open", Rounds: 1_000_000, Report: func(p lay.Plan, length float64) {
		if length > told || p != lay.Open {
			t.Errorf("%s got longer: %v after %v", p, length, told)
		}
		told = length
		cancel()
	}}
	l, found := lay.Make(ctx, drill(cloth.OneWay), cloth.Main, cuts, o)
	pass(t, cuts, drill(cloth.OneWay), l)
	if len(found) > 0 || len(l.Unplaced) > 0 || l.Length > told+0.001 {
		t.Errorf("%v, unplaced %v, %v after %v", found.Codes(), l.Unplaced, l.Length, told)
	}
}

func TestKinds(t *testing.T) {
	for _, k := range lay.Kinds {
		if err := k.Validate(); err != nil {
			t.Error(err)
		}
	}
}

func BenchmarkFirstLay(b *testing.B) {
	rng := rand.New(rand.NewPCG(1, 1))
	cuts := append(trousers(rng), trousers(rng)...) // 32 pieces; a second garment's beside the first
	for i := range cuts {
		cuts[i].ID += string(rune('a' + i/16))
		if cuts[i].Pair != "" {
			cuts[i].Pair += string(rune('a' + i/16))
		}
	}
	for b.Loop() {
		lay.Make(context.Background(), drill(cloth.OneWay), cloth.Main, cuts, lay.Options{})
	}
}

package method

import (
	"slices"
	"testing"
)

func builtin(t *testing.T) Library {
	t.Helper()
	lib, found := Builtin()
	for _, f := range found {
		t.Errorf("%s: %s", f.Place, f.Text())
	}
	return lib
}

// Every method that comes with Gusset loads without a finding and is in the
// order of the alphabet; a finish that turns says how deep.
func TestBuiltin(t *testing.T) {
	lib := builtin(t)
	for name, folds := range map[string]int{"single-hem": 1, "double-hem": 2, "turn-up": 3, "elastic-casing": 2, "folded-band": 2} {
		if m, _ := lib.Find(name); len(m.Folds) != folds {
			t.Errorf("%s turns %d times, want %d", name, len(m.Folds), folds)
		}
	}
	if !slices.IsSorted(lib.Names()) {
		t.Error("names are not in order")
	}
}

// The families from which a maker chooses; the members of one may stand in for
// each other.
func TestFamilies(t *testing.T) {
	want := map[string][]string{
		"seam":         {"felled-seam", "french-seam", "lapped-topstitched", "overlocked-topstitched", "plain-open", "plain-overlocked"},
		"enclosed":     {"enclosed", "enclosed-understitched", "facing", "mouth-topstitched"},
		"pocket":       {"patch-pocket", "patch-pocket-overlocked"},
		"pocket-top":   {"double-fold-top", "self-facing"},
		"bag":          {"pocket-bag", "pocket-bag-french"},
		"slant-pocket": {"slant-pocket"},
		"hem":          {"double-hem", "hand-hem", "single-hem", "turn-up"},
		"edge":         {"overlocked-edge", "raw", "turned-edge"},
		"stay":         {"stay-stitching", "stay-tape"},
		"band":         {"waistband", "waistband-taped"},
		"band-inside":  {"band-inside", "band-inside-flat", "band-inside-hand"},
		"band-end":     {"band-end"},
		"elastic":      {"elastic-casing", "elastic-overlocked"},
		"fly":          {"fly-basted", "fly-buttons", "fly-zip"},
		"front":        {"button-front", "stud-front"},
		"front-edge":   {"folded-band", "grown-on-facing"},
		"loops":        {"belt-loops", "belt-loops-turned"},
		"tab":          {"tab-buttonhole", "tab-stud"},
		"tack":         {"bar-tack"},
		"caught":       {"caught"},
		"dart":         {"dart", "dart-topstitched"},
		"pleat":        {"pleat", "pleat-stitched"},
		"zip":          {"zip-centred", "zip-lapped"},
		"vent":         {"vent"},
		"opening":      {"opening-edge"},
		"sleeve":       {"sleeve-flat", "sleeve-set-in"},
		"interfacing":  {"fuse-interfacing", "sew-in-interfacing"},
		"fitting":      {"basted-fitting", "toile", "unfitted"},
		"neck":         {"neck-bias", "neck-bound"},
		"part-edge":    {"loop-edge", "tab-edge"},
	}
	got := map[string][]string{}
	lib := builtin(t)
	for _, name := range lib.Names() {
		m, _ := lib.Find(name)
		got[m.Family] = append(got[m.Family], name)
	}
	for family, names := range got {
		if !slices.Equal(names, want[family]) {
			t.Errorf("family %q has %v, want %v", family, names, want[family])
		}
	}
	for family := range want {
		if len(got[family]) == 0 {
			t.Errorf("no family %s", family)
		}
	}
}

// A family is of one use, so that a swap never changes what the item is.
func TestFamiliesAreOfOneUse(t *testing.T) {
	lib := builtin(t)
	use := map[string]Takes{}
	for _, name := range lib.Names() {
		m, _ := lib.Find(name)
		if m.Family == "" {
			t.Errorf("%s has no family", name)
		}
		if was, seen := use[m.Family]; seen && was != m.Takes {
			t.Errorf("%s takes a %s, others of its family a %s", name, m.Takes, was)
		}
		use[m.Family] = m.Takes
	}
}

package method

import (
	"slices"
	"testing"

	"gusset/internal/machine"
)

// Every method that comes with Gusset loads without a finding, its stitches
// are on the machine they name, and a finish that turns says how deep.
func TestBuiltin(t *testing.T) {
	lib, found := Builtin()
	for _, f := range found {
		t.Errorf("%s: %s", f.Place, f.Text())
	}
	for _, name := range []string{
		"plain-overlocked", "felled-seam", "waistband", "patch-pocket",
		"single-hem", "double-hem", "turn-up", "self-facing", "fly-zip", "belt-loops",
	} {
		m, ok := lib.Find(name)
		if !ok {
			t.Errorf("no method %s", name)
			continue
		}
		if len(m.Operations) == 0 {
			t.Errorf("%s has no operations", name)
		}
		for _, o := range m.Operations {
			if sews := o.Machine == machine.Lockstitch || o.Machine == machine.Overlocker; sews && o.Stitch == "" {
				t.Errorf("%s: %s is sewn without a stitch", name, o.ID)
			}
		}
	}
	for name, folds := range map[string]int{"single-hem": 1, "double-hem": 2, "turn-up": 3} {
		if m, _ := lib.Find(name); len(m.Folds) != folds {
			t.Errorf("%s turns %d times, want %d", name, len(m.Folds), folds)
		}
	}
	if !slices.IsSorted(lib.Names()) {
		t.Error("names are not in order")
	}
}

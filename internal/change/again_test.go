package change

import (
	"reflect"
	"testing"

	"gusset/internal/docket"
	"gusset/internal/unit"
)

// A recipe replayed on from an earlier one comes out as from nothing, whatever of
// it is new: the end, the middle, an amount, or the unit that is spoken.
func TestAgain(t *testing.T) {
	long := func(id string, by float64) docket.Change {
		return docket.Change{ID: id, Kind: docket.Lengthen, At: "leg", By: unit.MM(by)}
	}
	in := docket.Change{ID: "in", Kind: docket.TakeIn, Item: "outseam", At: "hip", By: unit.MM(6)}
	refused := docket.Change{ID: "no", Kind: docket.Lengthen, At: "thigh", By: unit.MM(6)}
	first := []docket.Change{long("a", 20), refused, in}
	g := leg(t)
	earlier, _ := Apply(g, first, unit.Millimetre)
	for name, steps := range map[string][]docket.Change{
		"the same": first, "one more": append(first[:3:3], long("b", 5)), "one less": first[:2],
		"another amount": {long("a", 20), refused, {ID: "in", Kind: docket.TakeIn, Item: "outseam", At: "hip", By: unit.MM(9)}},
		"another first":  {long("a", 10), refused, in}, "none": nil,
	} {
		for _, u := range []unit.Unit{unit.Millimetre, unit.Inch} {
			want, wantFound := Apply(g, steps, u)
			got, gotFound := earlier.Again(steps, u)
			if !reflect.DeepEqual(got.Garment(), want.Garment()) || !reflect.DeepEqual(got.Applied(), want.Applied()) || !reflect.DeepEqual(gotFound, wantFound) {
				t.Errorf("%s, in %s: %d applied and %v, from nothing %d and %v", name, u, len(got.Applied()), told(gotFound), len(want.Applied()), told(wantFound))
			}
		}
	}
	if again, _ := earlier.Again(first, unit.Millimetre); !reflect.DeepEqual(again.Garment(), earlier.Garment()) {
		t.Error("replaying has changed the earlier garment")
	}
}

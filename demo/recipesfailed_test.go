package demo

import (
	"testing"

	"gusset/internal/docket"
	"gusset/internal/pattern"
	"gusset/internal/unit"
)

// Recipes that once went wrong. An overshirt whose facing followed an armhole by a
// thousandth of a millimetre had a line that was no place, and the next lengthening
// took every piece there.
func TestRecipesThatFailed(t *testing.T) {
	deeper := func(id string, by float64) docket.Change {
		return docket.Change{ID: id, Kind: docket.ArmholeDepth, Item: "shoulder", Edge: "armhole", By: unit.MM(by)}
	}
	longer := func(id string, by float64) docket.Change {
		return docket.Change{ID: id, Kind: docket.Lengthen, At: "body", By: unit.MM(by)}
	}
	steps := []docket.Change{deeper("a", 3.7888258983037715), longer("b", -3.8119676098969064), deeper("c", -0.0012541644481984804), longer("d", 39.61689165094867)}
	inSizes(t, "dockets/mooring-plain.yaml", func(t *testing.T, g pattern.Garment) {
		for name, p := range changed(t, g, steps...).Pieces {
			for _, q := range p.Outline(0.05) {
				if !q.Finite() {
					t.Fatalf("%s has a corner that is no place", name)
				}
			}
		}
	})
}

package construct

import (
	"testing"

	"gusset/demo/printed"
	"gusset/internal/change"
	"gusset/internal/docket"
	"gusset/internal/unit"
)

// A pocket that is set across a dart waits for the dart to be sewn and pressed:
// the face has its shape only then (handbooks: darts first). The bust dart comes
// with a change; the pocket on the other front crosses none and waits for none.
func TestPocketWaitsForDart(t *testing.T) {
	p := printed.Pattern(t, "mooring")
	step := docket.Change{
		ID: "bust", Kind: docket.FullBust, At: "apex", Edge: "armhole", Item: "side",
		Where: unit.MM(60), Method: "dart", By: unit.MM(20),
	}
	for size := range p.Sizes {
		c, found := change.Apply(printed.Garment(p, p.Views[0], size), []docket.Change{step}, unit.Centimetre)
		if found.Stops() > 0 {
			t.Fatal(found.Codes())
		}
		plan, found := Construct(c.Garment(), library(t), allCloths(0.6), nil)
		if found.Stops() > 0 {
			t.Fatal(found.Codes())
		}
		wantOrder(t, plan, [][2]string{
			{"bust.press@left", "breast-pocket.place"},
			{"bust.press@left", "side.sew@left"},
			{"bust.press@right", "side.sew@right"},
		})
		if reaches(plan)["breast-pocket.place"]["bust.press@right"] {
			t.Error("the pocket of the left front waits for the dart of the right")
		}
	}
}

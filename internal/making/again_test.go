package making

import (
	"context"
	"reflect"
	"slices"
	"strconv"
	"testing"

	"gusset/internal/docket"
	"gusset/internal/unit"

	"pgregory.net/rapid"
)

// edits are what someone at work does to a docket: one of its recipe's lines goes,
// is given another amount, or a step of finishBenches is written at its end; or its
// unit is another.
var edits = []func(r *rapid.T, in *Inputs, step docket.Change){
	func(r *rapid.T, in *Inputs, _ docket.Change) {
		if n := len(in.Docket.Changes); n > 0 {
			i := rapid.IntRange(0, n-1).Draw(r, "goes")
			in.Docket.Changes = slices.Delete(slices.Clone(in.Docket.Changes), i, i+1)
		}
	},
	func(r *rapid.T, in *Inputs, _ docket.Change) {
		if n := len(in.Docket.Changes); n > 0 {
			i := rapid.IntRange(0, n-1).Draw(r, "other amount")
			in.Docket.Changes = slices.Clone(in.Docket.Changes)
			c := &in.Docket.Changes[i]
			c.By = unit.MM(c.By.MM() + rapid.Float64Range(-8, 8).Draw(r, "mm"))
		}
	},
	func(r *rapid.T, in *Inputs, step docket.Change) {
		step.ID = "more-" + strconv.Itoa(len(in.Docket.Changes))
		step.By = unit.MM(rapid.Float64Range(-8, 20).Draw(r, "mm"))
		in.Docket.Changes = append(slices.Clone(in.Docket.Changes), step)
	},
	func(r *rapid.T, in *Inputs, _ docket.Change) {
		in.Docket.Unit = rapid.SampledFrom([]unit.Unit{unit.Millimetre, unit.Centimetre, unit.Inch}).Draw(r, "unit")
	},
}

// Whatever is taken over from an earlier result, the pieces to be cut and all that
// leads to them are what they are from nothing, to the bit; and the earlier result
// stays as it was, as the next edit takes over from it.
func TestAgainFromNothing(t *testing.T) {
	type start struct {
		in   Inputs
		run  Result
		step docket.Change
	}
	var starts []start
	for _, x := range finishBenches {
		in := openDemo(t, x.docket)
		starts = append(starts, start{in, Run(context.Background(), in, Finish, Effort{}, nil), x.step})
	}
	rapid.Check(t, func(r *rapid.T) {
		s := starts[rapid.IntRange(0, len(starts)-1).Draw(r, "docket")]
		in, earlier := s.in, s.run
		for range rapid.IntRange(1, 2).Draw(r, "edits") {
			edits[rapid.IntRange(0, len(edits)-1).Draw(r, "edit")](r, &in, s.step)
			again := Run(context.Background(), in, Finish, Effort{}, &earlier)
			fresh := Run(context.Background(), in, Finish, Effort{}, nil)
			for what, same := range map[string]bool{
				"digest": again.Digest == fresh.Digest, "findings": reflect.DeepEqual(again.Findings, fresh.Findings),
				"pieces": reflect.DeepEqual(again.Outfit, fresh.Outfit), "seams": reflect.DeepEqual(again.Walked, fresh.Walked),
				"plan": reflect.DeepEqual(again.Plan, fresh.Plan), "cuts": reflect.DeepEqual(again.Cut.Pieces(), fresh.Cut.Pieces()),
			} {
				if !same {
					r.Errorf("the %s are others than from nothing", what)
				}
			}
			earlier = again
		}
	})
}

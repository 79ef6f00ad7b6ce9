package making

import (
	"context"
	"slices"
	"testing"
	"time"

	"gusset/internal/docket"
	"gusset/internal/unit"
)

// oneMore adds a step to a docket's recipe: the one that someone at work on it has
// just written.
func oneMore(in Inputs, step docket.Change) Inputs {
	step.ID = "one-more"
	in.Docket.Changes = append(slices.Clone(in.Docket.Changes), step)
	return in
}

// finishBenches are a docket of each pattern, and the step that is added.
var finishBenches = []struct {
	name, docket string
	step         docket.Change
}{
	{"trousers", "dockets/quay-long.yaml", docket.Change{Kind: docket.TakeIn, Item: "outseam", By: unit.MM(-5), At: "hip"}},
	{"trousers-elastic", "dockets/quay-quick-change.yaml", docket.Change{Kind: docket.Lengthen, At: "leg", By: unit.MM(20)}},
	{"skirt", "dockets/weir-flared.yaml", docket.Change{Kind: docket.Lengthen, At: "skirt", By: unit.MM(20)}},
	{"overshirt", "dockets/mooring-stripe.yaml", docket.Change{Kind: docket.UpperArm, At: "upper-arm", By: unit.MM(20)}},
}

// BenchmarkToFinish is the time from the docket to its cut pieces after one step
// has been added to the recipe: the mean, and the median, which the user feels.
func BenchmarkToFinish(b *testing.B) {
	for _, x := range finishBenches {
		b.Run(x.name, func(b *testing.B) {
			before := openDemo(b, x.docket)
			in := oneMore(before, x.step)
			first := Run(context.Background(), before, Finish, Effort{}, nil)
			var r Result
			var each []time.Duration
			last := time.Duration(0)
			for b.Loop() {
				r = Run(context.Background(), in, Finish, Effort{}, &first)
				each = append(each, b.Elapsed()-last)
				last = b.Elapsed()
			}
			if r.Findings.Stops() > 0 || len(r.Changed.Applied()) != len(in.Docket.Changes) {
				b.Fatal(r.Findings)
			}
			slices.Sort(each)
			b.ReportMetric(float64(each[len(each)/2].Microseconds())/1000, "median-ms")
			b.ReportMetric(float64(each[0].Microseconds())/1000, "least-ms")
			b.ReportMetric(float64(len(r.Cut.Pieces())), "cut-pieces")
		})
	}
}

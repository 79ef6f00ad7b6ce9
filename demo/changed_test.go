package demo

import (
	"context"
	"os"
	"testing"

	"gusset/internal/docket"
	"gusset/internal/finding"
	"gusset/internal/making"
	"gusset/internal/unit"
)

// Each of these changes goes through every stage down to the cut pieces in every
// size, without a stop.
func TestDartChangesAreMade(t *testing.T) {
	steps := []docket.Change{
		{Kind: docket.PivotDart, Item: "front-dart", Spot: spot("front:side", 80.0, "waist-side")},
		{Kind: docket.PivotDart, Item: "outer-dart", Spot: spot("back:side", 80.0, "waist-side")},
		{Kind: docket.MoveDart, Item: "front-dart", By: unit.MM(20), Edge: "waist-side"},
		{Kind: docket.DartLength, Item: "inner-dart", By: unit.MM(-20)},
		{Kind: docket.DivideDart, Item: "front-dart", Spot: spot("front:waist-side", 30.0, "dart-side"), Share: 0.5},
		{Kind: docket.MergeDarts, Item: "inner-dart", Other: "outer-dart"},
		{Kind: docket.GatherDart, Item: "front-dart", Method: "gathers"},
		{Kind: docket.Spread, Spot: spot("front:hem", "middle"), Hinge: spot("front:waist-side", "middle"), By: unit.MM(40)},
		{Kind: docket.Spread, Spot: spot("front:hem", "middle"), Hinge: spot("front:waist-side", "middle"), By: unit.MM(-20)},
		{Kind: docket.AddPleat, By: unit.MM(30), Where: unit.MM(120), Method: "pleat-stitched", Spot: spot("front:waist-centre", 50.0, "centre"), Hinge: spot("front:hem", 50.0)},
		{Kind: docket.SetAllowance, Edge: "front:side", To: unit.MM(25)},
		{Kind: docket.FoldToSeam, Piece: "front", To: unit.MM(15), Method: "plain-open"},
	}
	in := open(t, weir)
	for k, size := range in.Pattern.Sizes {
		if os.Getenv("GUSSET_QUICK") != "" && k != 3 {
			continue
		}
		for i, step := range steps {
			step.ID = "it"
			in.Docket.Size = docket.Size{All: size}
			in.Docket.Changes = []docket.Change{step}
			r := making.Run(context.Background(), in, making.Finish, making.Effort{}, nil)
			if r.Findings.Stops() > 0 || len(r.Changed.Applied()) != 1 || r.Walked.Widest() > 0.5 {
				t.Errorf("size %s, step %d %s: %d applied, widest %.2f mm", size, i, step.Kind, len(r.Changed.Applied()), r.Walked.Widest())
				for _, f := range r.Findings {
					if f.Severity() == finding.Stop {
						t.Logf("%s: %s", f.Code(), f.Text())
					}
				}
			}
		}
	}
}

// The flared skirt for Reed goes through every stage down to the cut pieces: six
// steps take effect and nothing stops.
func TestFlaredIsMade(t *testing.T) {
	r := making.Run(context.Background(), open(t, flared), making.Finish, making.Effort{}, nil)
	if r.Findings.Stops() > 0 || len(r.Changed.Applied()) != 6 || r.Walked.Widest() > 0.5 {
		t.Errorf("%d steps took effect, widest miss %.2f mm: %v", len(r.Changed.Applied()), r.Walked.Widest(), r.Findings.Codes())
	}
}

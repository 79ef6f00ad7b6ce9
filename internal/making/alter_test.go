package making

import (
	"context"
	"testing"

	"gusset/internal/docket"
	"gusset/internal/unit"
)

// alterations for the figure, as a docket would ask for them. Seams that only
// one of the views has are named for that view.
func alterations(view string) []docket.Change {
	outer := "outseam"
	if view == "cropped" {
		outer = "outseam-lower"
	}
	list := []docket.Change{
		{ID: "deeper", Kind: docket.CrotchDepth, At: "hip", By: unit.MM(12)},
		{ID: "shallower", Kind: docket.CrotchDepth, At: "hip", By: unit.MM(-10)},
		{ID: "fork-out", Kind: docket.CrotchLength, Item: "seat", By: unit.MM(12), From: "knee"},
		{ID: "fork-in", Kind: docket.CrotchLength, Item: "fork", By: unit.MM(-5), From: "knee"},
		{ID: "full-seat", Kind: docket.FullSeat, Item: "seat", By: unit.MM(20), At: "hip"},
		{ID: "flat-seat", Kind: docket.FullSeat, Item: "seat", By: unit.MM(-15), At: "hip"},
		{ID: "hollow", Kind: docket.HollowBack, Item: "seat", By: unit.MM(8), At: "hip"},
		{ID: "thigh-in", Kind: docket.TakeIn, Item: "inseam", By: unit.MM(6), At: "thigh", From: "knee", Upto: ""},
		{ID: "seam-out", Kind: docket.TakeIn, Item: outer, By: unit.MM(-5), At: "knee", From: "hem", Upto: "thigh"},
		{ID: "waist-up", Kind: docket.RaiseEdge, Edge: "waist", By: unit.MM(10)},
		{ID: "waist-down", Kind: docket.RaiseEdge, Edge: "waist", By: unit.MM(-8)},
		{ID: "straight", Kind: docket.Straighten, Edge: "hem", From: "knee"},
		{ID: "straight-to", Kind: docket.Straighten, Edge: "hem", From: "knee", To: unit.MM(480)},
	}
	if view == "long" {
		list = append(list,
			docket.Change{ID: "waist-in", Kind: docket.TakeIn, Item: "outseam", By: unit.MM(8), At: "hip", From: "thigh"},
			docket.Change{ID: "waist-out", Kind: docket.TakeIn, Item: "seat", By: unit.MM(-8), At: "hip"})
	}
	return list
}

// With each alteration, in every printed size and both views: it takes effect,
// every seam walks within half a millimetre, and the pieces are finished
// without a stop.
func TestAlterationsEverySize(t *testing.T) {
	inEverySize(t, func(in Inputs) []docket.Change { return alterations(in.Docket.View) })
}

// What an alteration does at the figure, by identities of geometry: a fork point
// goes out by the amount; a wedge makes the seat seam longer by about the amount
// and leaves the outseam as it was (the hinge lies on it).
func TestAlterationAmounts(t *testing.T) {
	in := openDemo(t, demoDockets[0])
	in.Docket.Size = docket.Size{All: "14"}
	lengths := func(changes ...docket.Change) map[string]float64 {
		in.Docket.Changes = changes
		r := Run(context.Background(), in, Walk, Effort{}, nil)
		out := map[string]float64{}
		for _, s := range r.Walked.Seams() {
			out[s.Seam.ID] = s.Lengths[0]
		}
		return out
	}
	plain := lengths()
	wedge := lengths(docket.Change{ID: "seat", Kind: docket.FullSeat, Item: "seat", By: unit.MM(20), At: "hip"})
	if d := wedge["seat"] - plain["seat"]; d < 17 || d > 22 {
		t.Errorf("a wedge of 20 mm makes the seat seam %.1f mm longer", d)
	}
	if d := wedge["outseam@left"] - plain["outseam@left"]; d < -1.5 || d > 1.5 {
		t.Errorf("a wedge hinged on the outseam changes it by %.1f mm", d)
	}
	fork := lengths(docket.Change{ID: "fork", Kind: docket.CrotchLength, Item: "fork", By: unit.MM(10), From: "knee"})
	if d := fork["fork"] - plain["fork"]; d < 6 || d > 11 { // the fork curve runs out nearly level
		t.Errorf("a fork point 10 mm further out makes the fork seam %.1f mm longer", d)
	}
	deep := lengths(docket.Change{ID: "deep", Kind: docket.CrotchDepth, At: "hip", By: unit.MM(12)})
	if d := deep["inseam@left"] - plain["inseam@left"]; d < -0.5 || d > 0.5 {
		t.Errorf("a deeper rise changes the inseam by %.2f mm", d)
	}
	if d := deep["outseam@left"] - plain["outseam@left"]; d < 11.5 || d > 12.5 {
		t.Errorf("a rise 12 mm deeper makes the outseam %.2f mm longer", d)
	}
}

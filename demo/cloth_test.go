package demo

import (
	"context"
	"testing"

	"gusset/internal/change"
	"gusset/internal/cloth"
	"gusset/internal/construct"
	"gusset/internal/finish"
	"gusset/internal/fit"
	"gusset/internal/lay"
)

// TestClothIsEnough lays the dockets on the cloths they name: every piece
// finds a place within the length on the shelf, even on the first lay found.
func TestClothIsEnough(t *testing.T) {
	for _, path := range dockets {
		in := open(t, path)
		sized, _ := fit.Fit(in.Pattern, in.Docket.View, in.Body, fit.Choice{Unit: in.Docket.Unit})
		changed, _ := change.Apply(sized.Garment(), in.Docket.Changes, in.Docket.Unit)
		plan, _ := construct.Construct(changed.Garment(), in.Methods, in.Cloths, in.Docket.Methods)
		set, found := finish.Finish(plan)
		calm(t, path, found)
		for role, c := range in.Cloths {
			l, found := lay.Make(context.Background(), c, role, set.Pieces(), lay.Options{Seed: 1, Table: in.Docket.Table.MM()})
			calm(t, path+" "+string(role), found)
			if role == cloth.Main && l.Length == 0 || len(l.Unplaced) > 0 || l.Left() < 0 {
				t.Errorf("%s: %s takes %.0f mm, leaves %.0f mm and has no place for %v", path, role, l.Length, l.Left(), l.Unplaced)
			}
		}
	}
}

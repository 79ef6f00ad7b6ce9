package referee

import (
	"fmt"
	"slices"

	"gusset/internal/finish"
)

// Strip judges outlines that were laid in a plain strip, as packing problems of
// the literature want it: each is a plain outline, lies within the width and
// length, and no two share any of it. All is in whole micrometres; outlines may
// run either way. The error says what is wrong first.
func Strip(outlines [][]finish.Micron, width, length int64) error {
	rings := make([]ring, len(outlines))
	for i, o := range outlines {
		r := ring(slices.Clone(o))
		if r.turns() < 0 {
			slices.Reverse(r)
		}
		if !r.plain() {
			return fmt.Errorf("outline %d crosses itself or encloses nothing", i+1)
		}
		if b := boxOf(r...); b.lo.X < 0 || b.lo.Y < 0 || b.hi.X > length || b.hi.Y > width {
			return fmt.Errorf("outline %d reaches out of the strip", i+1)
		}
		for k, other := range rings[:i] {
			if share(r, other) {
				return fmt.Errorf("outlines %d and %d share some of the strip", k+1, i+1)
			}
		}
		rings[i] = r
	}
	return nil
}

package lay

import (
	"slices"

	"gusset/internal/finish"
)

// OffGrain is the permission to lay small pieces that are not seen some degrees
// off the grain. A leg or a front never is: cloth cut off the grain hangs and
// twists by its own weight. A pocket bag does not (common practice).
type OffGrain struct {
	UpTo   float64  // degrees either way; 0 is no permission
	Pieces []string // pieces permitted by name, besides those hidden by the pattern
}

// LargestTilted is how long, in mm along its grain, a piece may be to lie off
// it (common practice: pocket bags, facings and the like).
const LargestTilted = 450

// permits tells whether a cut may lie off the grain.
func (g OffGrain) permits(k finish.Cut) bool {
	if g.UpTo <= 0 || k.OnFold || !k.Hidden && !slices.Contains(g.Pieces, k.Piece) {
		return false
	}
	return tall(k) <= LargestTilted*1000
}

// tall is how far a cut reaches along its grain, micrometres.
func tall(k finish.Cut) int64 {
	lo, hi := k.Outline[0].Y, k.Outline[0].Y
	for _, p := range k.Outline {
		lo, hi = min(lo, p.Y), max(hi, p.Y)
	}
	return hi - lo
}

func (g OffGrain) tilt(k finish.Cut) float64 {
	if g.permits(k) {
		return g.UpTo
	}
	return 0
}

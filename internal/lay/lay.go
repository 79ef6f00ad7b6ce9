package lay

import (
	"gusset/internal/cloth"
	"gusset/internal/finish"
)

// Plan is one way of folding the cloth.
type Plan string

// The plans of this version.
const (
	Open       Plan = "open"       // single layer, face up
	Lengthwise Plan = "lengthwise" // folded selvedge to selvedge, right sides together, then the rest open
)

// Lay is where every piece lies on one cloth. Coordinates are mm on the cloth:
// X along the length from the cut end, Y across from the selvedge (from the
// fold, where a section is folded).
type Lay struct {
	Cloth    cloth.Cloth
	Role     cloth.Role
	Plan     Plan
	Sections []Section
	Placed   []Placed
	Unplaced []string // IDs that found no place
	Length   float64  // used length in mm, all sections
	Density  float64  // cut area over cloth used, 0..1
}

// Section is a stretch of cloth laid one way.
type Section struct {
	Folded   bool
	From, To float64 // mm along the cloth
	Width    float64 // mm: the whole usable width, or half of it when folded
}

// Placed is one cut piece on the cloth. A pair on folded cloth is placed once
// (Layers 2) and stands for both hands.
type Placed struct {
	Cut     finish.Cut
	Section int
	Layers  int
	// The piece's point p lands at turn(flip(p)) + At, where flip mirrors x
	// (a right copy cut face down) and turn is counter-clockwise by Degrees.
	// A piece drawn grain up (+y) lies along the cloth (+x) at Degrees -90.
	Flip    bool
	Degrees float64
	AtX     int64 // micrometres
	AtY     int64
}

// Package lay plans the cutting out: where every piece lies on its cloth.
//
// Cloth has a warp, which runs along its length between the two selvedges, and
// every piece has a grain line that must run with the warp, or the garment
// twists. So a piece may lie in two ways only, top towards one end of the cloth
// or towards the other; on cloth with a nap or a one-way print all tops must
// point one way.
//
// Open, the cloth lies in a single layer, face up, and every piece is cut by
// itself. Folded lengthwise, right sides together, a pair of mirror images is cut
// at one go through both layers, the half of a symmetrical piece is pinned with
// its fold line on the fold, and what has to be cut singly follows where the rest
// of the cloth lies open again. The fold may also be narrower than half the
// width, run across the cloth, or be cut and the upper layer turned; each is a
// Plan. Pieces keep off flaws, and in step with a stripe or plaid.
//
// Make arranges the pieces so that little length is used; package nest does the
// searching, and package referee judges the result afresh.
package lay

import (
	"gusset/internal/cloth"
	"gusset/internal/finish"
)

// Plan is one way of laying the whole cloth: how its sections are folded.
// Whatever the plan, what cannot be cut folded lies on an open section behind.
type Plan string

// The plans.
const (
	Open       Plan = "open"       // single layer, face up
	Lengthwise Plan = "lengthwise" // folded selvedge to selvedge
	PartFold   Plan = "part-fold"  // one selvedge folded over less than half way, the rest of the width single
	Crosswise  Plan = "crosswise"  // folded across; never for one-way cloth
	Turned     Plan = "turned"     // folded across, cut there, the upper layer turned end for end
	TwoFolds   Plan = "two-folds"  // two sections, each with a fold of its own
)

// Plans lists every plan, the one a cutter would rather have first where they
// take the same cloth.
var Plans = []Plan{Lengthwise, Open, PartFold, Crosswise, TwoFolds, Turned}

// Words say how the cloth is laid.
func (p Plan) Words() string { return planWords[p] }

var planWords = map[Plan]string{
	Open: "laid open", Lengthwise: "folded lengthwise", PartFold: "one selvedge folded over part of the way",
	Crosswise: "folded crosswise", Turned: "cut across and the upper layer turned", TwoFolds: "folded in two ways",
}

// Squaring is the cloth lost at the cut end when it is squared, mm (common
// practice). The first section begins behind it.
const Squaring = 10

// Lay is where every piece lies on one cloth. Coordinates are mm on the cloth:
// X along the length from the cut end, Y across from the inner border of the
// selvedge (from the fold, where a section is folded lengthwise).
type Lay struct {
	Cloth    cloth.Cloth
	Role     cloth.Role
	Plan     Plan
	Sections []Section
	Placed   []Placed
	Unplaced []string // IDs that found no place
	// Unmatched are places of seams where the repeat of the cloth does not meet,
	// because it cannot beside the others; they were told.
	Unmatched []Unmatched
	Length    float64   // used length in mm, all sections and the squaring
	Density   float64   // cut area over cloth used, 0..1
	Tried     []Attempt // every plan tried, the one kept among them
	Source    Origin
	// OffGrain is the permission it was laid with.
	OffGrain OffGrain
	// Lost is the length in mm that sections no longer than the table cost
	// beside a table as long as the lay.
	Lost float64
}

// Origin says where a lay is from.
type Origin string

// The origins.
const (
	FromSearch Origin = ""
	FromHand   Origin = "hand" // a file that a person has written
	FromKept   Origin = "kept" // the file of an earlier lay
)

// Attempt is a plan that was tried and the length it would take, in mm.
type Attempt struct {
	Plan     Plan
	Length   float64
	Unplaced int // pieces it left without a place
	Rounds   int // passes of the search each section was given
}

// Kept is the attempt that the lay came of, empty when it came of none.
func (l Lay) Kept() Attempt {
	for _, t := range l.Tried {
		if t.Plan == l.Plan {
			return t
		}
	}
	return Attempt{}
}

// Behind tells whether a plan was given up early because it was too far behind:
// its length is that of a shorter search than the kept plan's.
func (l Lay) Behind(t Attempt) bool { return t.Unplaced == 0 && t.Rounds < l.Kept().Rounds }

// Placed is one cut piece on the cloth. A pair on folded cloth is placed once
// (Layers 2) and stands for both hands. A half piece on a single layer is
// placed opened out: its Cut is then the whole piece, no longer OnFold.
type Placed struct {
	Cut     finish.Cut
	Section int
	Layers  int
	// The piece's point p lands at turn(flip(p)) + At, where flip mirrors x
	// (a right copy cut face down) and turn is counter-clockwise by Degrees.
	// A piece drawn grain up (+y) lies along the cloth (+x) at Degrees -90.
	// Small hidden pieces may lie some degrees off that, with permission.
	Flip    bool
	Degrees float64
	AtX     int64 // micrometres
	AtY     int64
	Pinned  bool // where the user put it, to stay
}

// Left is the length of cloth left over in mm; below zero when the cloth is
// too short.
func (l Lay) Left() float64 { return l.Cloth.UsableLength() - l.Length }

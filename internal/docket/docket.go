// Package docket holds dockets: what one make should be. A docket names a
// body, a pattern and view, cloths for its roles, the size choice, and a recipe
// of changes.
package docket

import (
	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/pattern"
	"gusset/internal/unit"
)

// Docket is one make, as written.
type Docket struct {
	Name    string // file name without ending
	Title   string
	Body    string // bodies/NAME.yaml
	Pattern string // patterns/NAME/pattern.yaml
	View    string
	Cloths  map[cloth.Role]string // cloths/NAME.yaml for each role
	Methods map[string]string     // join, finish or closure id -> method used instead
	Size    Size
	Changes []Change
	// Fittings are made besides those of the pattern's view, or in place of one
	// of the same name.
	Fittings []pattern.Fitting
	// Matches replace those of the pattern's view when OwnMatches is set; none
	// then means that nothing is matched.
	Matches    []pattern.Match
	OwnMatches bool
	// Table is the length of the cutting table; zero when it does not matter.
	Table unit.Length
	// Fold asks for one way of folding, one of Folds.
	Fold string
	// OffGrain permits small pieces that are not seen to lie off the grain.
	OffGrain OffGrain
	Button   Button            // zero when it is not measured
	Threads  map[string]string // colour of each thread, by Spools
	// Pins hold steps of the order of work in their place.
	Pins []Pin
	// Roll is the width of paper for the large sheet.
	Roll   unit.Length
	Unit   unit.Unit // the unit reports are written in
	Place  finding.Place
	Places map[string]finding.Place // by key: "body", "view", "cloth.main", "size.waist"
}

// OffGrain is a permission to lay small pieces off the grain to save cloth:
// those that the pattern hides, and those named.
type OffGrain struct {
	UpTo   float64  // degrees either way; 0 is no permission
	Pieces []string // names of pieces
}

// Pin holds work in its place: as early as can be, as late as can be, or before
// other work. Exactly one of First, Last and Before is set.
type Pin struct {
	Step        pattern.Step
	First, Last bool
	Before      pattern.Step
	Place       finding.Place
}

// Size is the size choice: a size for each zone, or none to let the chart
// choose. A zone's text is a printed size ("14"), a value between ("14.6" is
// six tenths from 14 to 16 where those are neighbours: see Between), or "auto".
type Size struct {
	All   string            // one size for every zone; empty for none
	Zones map[string]string // zone name -> size text
}

// ChangeKind names a change.
type ChangeKind string

// The changes a recipe may hold.
const (
	Lengthen     ChangeKind = "lengthen"      // lengthen or shorten at a line
	HemGirth     ChangeKind = "hem-girth"     // hem to a girth, tapered from a level
	MoveHem      ChangeKind = "move-hem"      // move the hem up or down
	SetFinish    ChangeKind = "set-finish"    // another method for a finish, join or pocket
	CopyEdge     ChangeKind = "copy-edge"     // give an edge the shape of another
	CutFrom      ChangeKind = "cut-from"      // cut a piece from the cloth of another role
	Divide       ChangeKind = "divide"        // cut a piece in two parts, joined by a seam
	TakeIn       ChangeKind = "take-in"       // take in a seam, or let it out by less than nothing
	CrotchDepth  ChangeKind = "crotch-depth"  // a deeper or shallower rise
	CrotchLength ChangeKind = "crotch-length" // the fork point further out or in
	FullSeat     ChangeKind = "full-seat"     // a wedge let in across the seat; negative for a flat one
	HollowBack   ChangeKind = "hollow-back"   // a wedge taken out below the waist; negative for a round one
	RaiseEdge    ChangeKind = "raise-edge"    // a waist or neck higher or lower
	Straighten   ChangeKind = "straighten"    // a leg straight down from a level
)

// ChangeKinds lists every kind.
var ChangeKinds = []ChangeKind{
	Lengthen, HemGirth, MoveHem, SetFinish, CopyEdge, CutFrom, Divide,
	TakeIn, CrotchDepth, CrotchLength, FullSeat, HollowBack, RaiseEdge, Straighten,
}

// Change is one step of the recipe. Only the fields of its kind are set.
type Change struct {
	ID   string
	Kind ChangeKind
	At   string      // lengthen: the name of the lengthen line; take-in, crotch-depth, wedges: the level
	By   unit.Length // signed: longer, deeper, higher, tighter is positive
	To   unit.Length // hem-girth, straighten: the finished hem, measured round
	From string      // the level from which it tapers or runs straight, or down to which it dies out (take-in: empty for the seam's lower end); copy-edge: the edge copied, "front:hem"
	Upto string      // take-in: the level above at which it dies out; empty for the seam's end
	Edge string      // hem-girth, move-hem: the hem's edge name ("hem"); copy-edge: the edge replaced
	// SetFinish: the id of the finish or join, the method, and values that
	// replace the method's own. Take-in, crotch-length, wedges: the seam in Item.
	Item   string
	Method string
	Values map[string]unit.Length
	// CutFrom: the piece and the role of the cloth it is cut from instead.
	// Divide: the piece, where (mm from the foot of its grain, or from the left
	// where it is wider than long), and the method of the seam in Method.
	Piece string
	Cloth cloth.Role
	Where unit.Length
	Place finding.Place
}

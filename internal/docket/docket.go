// Package docket holds dockets: what one make should be. A docket names a
// body, a pattern and view, cloths for its roles, the size choice, and a recipe
// of changes.
package docket

import (
	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/pattern"
	"gusset/internal/piece"
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
	// After names the docket of the make that this one follows, and Notes are what
	// this make's fitting showed, for the next.
	After string
	Notes []Note
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
	PivotDart    ChangeKind = "pivot-dart"    // a dart opened at another edge, its angle kept
	MoveDart     ChangeKind = "move-dart"     // a dart along its edge, not turned
	DartLength   ChangeKind = "dart-length"   // a dart's point further in or out
	DivideDart   ChangeKind = "divide-dart"   // a share of a dart given to a second one
	MergeDarts   ChangeKind = "merge-darts"   // two darts of one edge made one
	GatherDart   ChangeKind = "gather-dart"   // gathers in place of a dart
	Spread       ChangeKind = "spread"        // slash and spread, or lap by less than nothing
	AddPleat     ChangeKind = "add-pleat"     // a pleat from one edge to another
	SetAllowance ChangeKind = "allowance"     // an edge's allowance other than printed
	FoldToSeam   ChangeKind = "fold-to-seam"  // a centre seam in place of the fold
	SeamToFold   ChangeKind = "seam-to-fold"  // a straight centre seam saved
	JoinPieces   ChangeKind = "join-pieces"   // two pieces cut as one along a seam
	RunOn        ChangeKind = "run-on"        // edges drawn on smoothly across a seam or fold
	SmoothEdge   ChangeKind = "smooth-edge"   // an edge in one sweep
	Settle       ChangeKind = "settle"        // a seam whose sides differ made to fit
	CutFrom      ChangeKind = "cut-from"      // cut a piece from the cloth of another role
	Divide       ChangeKind = "divide"        // cut a piece in two parts, joined by a seam
	SlantPocket  ChangeKind = "slant-pocket"  // a piece divided along a slant, with a pocket bag beneath
	TakeIn       ChangeKind = "take-in"       // take in a seam, or let it out by less than nothing
	CrotchDepth  ChangeKind = "crotch-depth"  // a deeper or shallower rise
	CrotchLength ChangeKind = "crotch-length" // the fork point further out or in
	FullSeat     ChangeKind = "full-seat"     // a wedge let in across the seat; negative for a flat one
	HollowBack   ChangeKind = "hollow-back"   // a wedge taken out below the waist; negative for a round one
	RaiseEdge    ChangeKind = "raise-edge"    // a waist or neck higher or lower
	Straighten   ChangeKind = "straighten"    // a leg straight down from a level
)

// ChangeKinds lists every kind.
var ChangeKinds = append([]ChangeKind{
	Lengthen, HemGirth, MoveHem, SetFinish, CopyEdge, CutFrom, Divide, SlantPocket,
	PivotDart, MoveDart, DartLength, DivideDart, MergeDarts, GatherDart, Spread, AddPleat,
	SetAllowance, FoldToSeam, SeamToFold, JoinPieces, RunOn, SmoothEdge, Settle,
	TakeIn, CrotchDepth, CrotchLength, FullSeat, HollowBack, RaiseEdge, Straighten,
}, topKinds...)

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
	// Darts: the dart's join in Item; the one that goes in Other; the share that
	// is given away in Share (0.5 is half). Spread and pleats: where the piece is
	// slashed from and to in Spot and Hinge.
	Other  string
	Share  float64
	Spot   Spot
	Hinge  Spot
	How    How  // settle: the way it is done
	Even   bool // spread by the same amount at both edges
	Gather bool // what an edge gains is gathered where it is sewn
	// Shoulder changes and round-back: the shoulder seam in Item, the armhole
	// seam in Edge. Full-bust: the side seam in Item, the armhole seam in Edge, the
	// mark of the bust point in At, the dart in Where, mm down from the armhole.
	// Shrinkage: shares of the length before washing; the role of
	// the cloth in Cloth.
	Warp, Weft float64
	// AddPocket: the new piece in Piece, its size, the hand that has it (empty
	// for both); how far inside Edge in Where, how far below level At in By.
	// SlantPocket: the side in Edge; where its mouth begins, mm from the corner along
	// the edge at the top, in Where, and how far down the side it ends in By; the
	// bag's reach along the top in Wide and down the side in Deep; its cloth in
	// Cloth; the pocket that gives way to it in Other.
	Wide, Deep unit.Length
	Hand       piece.Copy
	Place      finding.Place
}

// How says how a seam whose sides differ is settled.
type How string

// The ways.
const (
	Share   How = "share"   // every edge in it gives or takes its part
	Trim    How = "trim"    // the longer side gives all of it
	Ease    How = "ease"    // it is stated as ease and worked in
	Notches How = "notches" // the notches move to where they meet
)

// Hows lists them.
var Hows = []How{Share, Trim, Ease, Notches}

// Spot is a place on an edge: a notch, a corner (called by the neighbouring edge),
// a level or "middle" in At; or a distance Along from the corner with the edge
// From, from the edge's beginning where From is empty.
type Spot struct {
	Edge  string // "front:side"
	At    string
	Along unit.Length
	From  string
}

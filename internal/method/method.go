// Package method holds ways of making things: a felled seam, a double hem, a
// fly. A method is data. It says how much cloth an edge needs beyond its
// stitching line, which operations make it, on which machine, with which
// thread, and what must be bought. Swapping a method therefore moves
// allowances, operations and materials together.
//
// The methods that come with Gusset are the YAML files in data; a workroom's
// own folder adds to them or replaces them by name. data/README.md says how
// such a file is written.
package method

import (
	"gusset/internal/body"
	"gusset/internal/finding"
	"gusset/internal/machine"
	"gusset/internal/unit"
)

// Takes says what a method can be used for.
type Takes string

// The uses.
const (
	Join    Takes = "join"    // edges sewn together
	Finish  Takes = "finish"  // an edge that no join takes, or that is worked before the join
	Closure Takes = "closure" // a fly, a placket: adds operations and notions to joins
	Part    Takes = "part"    // a small part made by itself: belt loops
	Piece   Takes = "piece"   // what is done to a piece before it is sewn: interfacing
	Fitting Takes = "fitting" // a toile, a basted fitting: what must wait for it waits
)

// AllTakes lists every use.
var AllTakes = []Takes{Join, Finish, Closure, Part, Piece, Fitting}

// Corner says how a cut corner is shaped where this allowance ends, so that
// the cloth meets its neighbour when pressed.
type Corner string

// The corner rules.
const (
	Natural Corner = "natural" // both cut lines run on until they meet
	Square  Corner = "square"  // stepped: the allowance ends square to its stitching line
	Mirror  Corner = "mirror"  // the end is the neighbour's line reflected in the fold
	Mitre   Corner = "mitre"   // both folded allowances meet on the bisector, for turned corners
)

// Corners lists every rule.
var Corners = []Corner{Natural, Square, Mirror, Mitre}

// Intake says what a join of two lines of one piece does with the cloth
// between them: nothing is cut away, it is folded and pressed towards the
// cloth beside the join's first side.
type Intake string

// The intakes.
const (
	None  Intake = ""
	Dart  Intake = "dart"  // two edges that meet in a point
	Pleat Intake = "pleat" // two lines side by side
)

// Intakes lists every kind a method may name.
var Intakes = []Intake{Dart, Pleat}

// Operation is one step of a method, to be anchored to the garment by package
// construct.
type Operation struct {
	ID string
	// Actions are what to do, one action each, in trade words; {a} {b} {edge}
	// {item} stand for the names of the things concerned, {depth} and the like
	// for the method's own values, {count} and {gap} for what is repeated.
	Actions []string
	Machine machine.Kind
	Stitch  string      // ISO 4915 number, empty for the iron or the table
	Length  unit.Length // stitch length
	Thread  string      // "main" or "topstitch", empty without a stitch
	Foot    string      // "standard", "zip", "buttonhole", empty without a stitch
	Needle  string      // needle size, NM
	Rows    int
	On      string // what the stitch line runs along: "seam", "a", "b", "edge", "none"
	// At says at which end of a line that is not run along the work is done: top,
	// foot, or empty for both.
	At string
	// Run lists the values that add up to the length of stitching that has a
	// length of its own: a bar tack, a buttonhole.
	Run []string
	// Times is how often Run is sewn for each item; Each multiplies it by the
	// count of what is repeated (the buttons of a front, the loops of a part).
	Times    int
	Each     bool
	After    []string
	Why      string   // why it waits for these, in trade words; may be empty
	Needs    []string // states that must be made before, on the pieces it touches
	Makes    []string // states that it makes on the pieces it touches
	First    bool     // everything else of the garment waits for it
	Together bool     // one operation over all copies or the whole ring; otherwise once a copy
	Closes   bool     // from here on the seam is closed (other work must reach past it)
	Caution  string
}

// Notion is something to buy or to have ready.
type Notion struct {
	Kind  string // "zip", "button", "interfacing", "tape", "elastic"
	Title string
	Count int
	Each  bool // Count is for each of what is repeated
	// LengthOf names a reference whose length the notion takes, Share the part
	// of it (1 for all); Extra is added to it.
	LengthOf string
	Share    float64
	Extra    unit.Length
}

// Repeat says how often something is set along a closure: the first and last
// at a distance from its ends, the others between, as near to the spacing as
// equal gaps allow.
type Repeat struct {
	First, Last, Spacing string // names of values; Spacing "" for no repetition
}

// Method is one way of making something.
type Method struct {
	Name  string
	Title string
	Takes Takes
	// Family groups the methods that may stand in for each other: seam, hem.
	Family string
	// InsteadOf names other families for which it may stand in. It then brings
	// the pieces it needs, and those it has no use for fall away.
	InsteadOf []string
	// Pieces are cut besides those of the pattern.
	Pieces []Added
	// Shut says of a closure that there is none: the seam that the opening is in
	// runs on to its end.
	Shut bool
	// Over is the measure of the body that a garment with this closure shut must
	// pass, unstretched, to be put on: the hip for a waist.
	Over body.Measure
	Seam string // ISO 4916 number, e.g. "1.01.01"
	// Values are the method's own lengths by name; a pattern or docket may
	// replace them. "turn-of-cloth" is added by package construct from the
	// cloth's thickness.
	Values map[string]unit.Length
	// Allowance lists, for each side ("a", "b", "more" for joins, "edge" for
	// finishes), the names of the values that add up to its width.
	Allowance map[string][]string
	// Folds lists the names of the values that are the depths of successive
	// folds, from the finished line outwards: depth, turn-under.
	Folds []string
	// Outside says that the first fold goes to the right side (a turn-up, a
	// self-facing sewn down its sides).
	Outside bool
	Corner  Corner
	Intake  Intake
	// Flat says that a join which closes to a ring is sewn before the seams
	// that close it: a sleeve set in flat.
	Flat       bool
	Repeat     Repeat
	Operations []Operation
	Notions    []Notion
	Place      finding.Place
}

// Package method holds ways of making things: a felled seam, a double hem, a
// fly. A method is data. It says how much cloth an edge needs beyond its
// stitching line, which operations make it, on which machine, with which
// thread, and what must be bought for it. Swapping a method therefore moves
// allowances, operations and materials together.
//
// The methods that come with Gusset are the YAML files in data; a workroom's
// own folder adds to them or replaces them by name.
package method

import (
	"gusset/internal/finding"
	"gusset/internal/machine"
	"gusset/internal/unit"
)

// Takes says what a method can be used for.
type Takes string

// The uses.
const (
	Join    Takes = "join"    // edges sewn together
	Finish  Takes = "finish"  // an edge that no join takes
	Closure Takes = "closure" // a fly, a placket: adds operations and notions to joins
	Part    Takes = "part"    // a small part made by itself: belt loops
)

// AllTakes lists every use.
var AllTakes = []Takes{Join, Finish, Closure, Part}

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

// Operation is one step of a method, to be anchored to the garment by package
// construct.
type Operation struct {
	ID string
	// Do is what to do, in trade words; {a} {b} {edge} {item} stand for the
	// names of the things concerned.
	Do       string
	Machine  machine.Kind
	Stitch   string      // ISO 4915 number, empty for the iron or the table
	Length   unit.Length // stitch length
	Thread   string      // "main" or "topstitch", empty without a stitch
	Foot     string      // "standard", "zip", "buttonhole", empty without a stitch
	Needle   string      // needle size, NM
	Rows     int
	On       string // what the stitch line runs along: "seam", "a", "b", "edge", "none"
	After    []string
	Why      string // why it waits for these, in trade words; may be empty
	Together bool   // one operation over all copies or the whole ring; otherwise once a copy
	Closes   bool   // from here on the seam is closed (other work must reach past it)
	Caution  string
}

// Notion is something to buy or to have ready.
type Notion struct {
	Kind  string // "zip", "button", "interfacing", "tape", "bar tack"
	Title string
	Count int
	// LengthOf names a reference whose length the notion takes; Extra is
	// added to it.
	LengthOf string
	Extra    unit.Length
}

// Method is one way of making something.
type Method struct {
	Name  string
	Title string
	Takes Takes
	Seam  string // ISO 4916 number, e.g. "1.01.01"
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
	Outside    bool
	Corner     Corner
	Operations []Operation
	Notions    []Notion
	Place      finding.Place
}

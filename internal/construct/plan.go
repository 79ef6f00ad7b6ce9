package construct

import (
	"slices"
	"strings"

	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/machine"
	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/seam"
	"gusset/internal/unit"
)

// Plan says once for all stages how the garment is made: its seams on actual
// copies, what every edge needs beyond its stitching line, the operations and
// the notions. Only Construct makes one.
type Plan struct {
	garment    pattern.Garment
	seams      []Seam
	demands    []Demand
	operations []Operation
	notions    []Notion
	openings   []Opening
}

// Garment returns the pieces and view the plan is for.
func (p Plan) Garment() pattern.Garment { return p.garment }

// Seams returns every seam, one per hand where a join is sewn for each.
func (p Plan) Seams() []Seam { return p.seams }

// Demands returns what each stretch of each copy's outline needs.
func (p Plan) Demands() []Demand { return p.demands }

// Operations returns every operation, in no particular order.
func (p Plan) Operations() []Operation { return p.operations }

// Said is the plan with what is to be done written for a tape in unit u: the
// lengths in the texts of methods are metric.
func (p Plan) Said(u unit.Unit) Plan {
	p.operations = slices.Clone(p.operations)
	for i := range p.operations {
		o := &p.operations[i]
		o.Actions = slices.Clone(o.Actions)
		for k, a := range o.Actions {
			o.Actions[k] = unit.Sentence(a, u)
		}
		o.Do = strings.Join(o.Actions, "; ")
	}
	return p
}

// Notions returns what must be bought or made ready.
func (p Plan) Notions() []Notion { return p.notions }

// Openings returns the edges that must pass over a part of the body.
func (p Plan) Openings() []Opening { return p.openings }

// Stretch is part of an edge or inside line of one copy; see package seam.
type Stretch = seam.Stretch

// Seam is one seam as sewn, with the method it is made by.
type Seam struct {
	seam.Seam
	Method method.Method
}

// DemandKind says what an edge is made into.
type DemandKind string

// The kinds.
const (
	ForSeam DemandKind = "seam"
	ForHem  DemandKind = "hem"  // turned once or more: Folds
	ForFold DemandKind = "fold" // lies on the fold of the cloth, never offset
	ForRaw  DemandKind = "raw"  // left or overlocked on the line
	// ForIntake is a dart's leg or the edge across a pleat: folded in as
	// pressed, nothing is cut away.
	ForIntake DemandKind = "intake"
)

// Demand is what a stretch of one copy's outline needs.
type Demand struct {
	Piece    string
	Copy     piece.Copy
	Edge     string
	From, To float64 // mm along the copy's edge
	Kind     DemandKind
	Width    float64   // total allowance in mm beyond the line
	Folds    []float64 // ForHem: depth of each turn from the finished line outwards; they and the turns of cloth add up to Width
	TurnOf   float64   // turn of cloth at each fold, mm, counted in Width
	Outside  bool      // the first fold goes to the right side
	Corner   method.Corner
	Intake   Intake // ForIntake
	Source   string // the join's or finish's id
	Method   string
	Place    finding.Place
}

// Intake is how a dart or pleat is folded at the edge it opens to.
type Intake struct {
	// Legs are the directions, in the copy's coordinates, from the edge into the
	// piece along the two lines that are sewn together, in outline order.
	Legs [2]geom.Pt
	// Back says that the intake is pressed over what comes before it in the
	// outline, else over what follows it.
	Back bool
}

// Operation is one thing to do, anchored to the garment.
type Operation struct {
	ID           string // unique, "outseam.sew@left"
	Item         string // join, finish, closure or part id
	Copy         piece.Copy
	Do           string   // the actions in one sentence
	Actions      []string // in trade words, one action each
	Told         []Told   // the same, as they are put together, in metric measures
	Machine      machine.Kind
	Stitch       string
	StitchLength float64 // mm
	Thread       string  // "main" or "topstitch"
	Foot         string
	Needle       string
	Rows         int
	Length       float64 // mm of one row
	Plies        int     // plies under the needle
	Thickness    float64 // mm, all plies
	After        []string
	// Why gives, for operations in After, the reason in trade words.
	Why     map[string]string
	Closes  bool
	Caution string
	Pieces  []string // "front@left": the copies it touches
	// On says what the work runs along: "seam", "a", "b", "edge", "none". Sides
	// are the stretches of the item it belongs to: a, b and more plies of a join,
	// one side for everything else.
	On    string
	Sides [][]Stretch `json:"-"`
	// At is the end at which work that does not run along the line is done: top,
	// foot, or empty for both.
	At string
	// Seam is the seam it is made in, empty for what is no join.
	Seam string
	// Spread says that the iron came before it, so that the plies lie open on
	// both sides of the line; else they lie on each other, edges together.
	Spread bool
	Place  finding.Place
}

// Spool is the thread that the operation sews with, as it is bought: the
// overlocker has spools of its own. Empty when nothing is sewn.
func (o Operation) Spool() string {
	if o.Machine == machine.Overlocker && o.Thread == method.Threads[0] {
		return "overlock"
	}
	return o.Thread
}

// Notion is something to buy or have ready.
type Notion struct {
	Kind   string
	Title  string
	Count  int
	Length float64 // mm; 0 when counted
	Gap    float64 // mm from one to the next along a closure; 0 where nothing is spaced
	Item   string
}

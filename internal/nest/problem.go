package nest

// Pt is a point in millimetres. X runs along the open length of a container,
// Y across its fixed width.
type Pt struct{ X, Y float64 }

// Axis names a coordinate.
type Axis int

const (
	X Axis = iota // along the open length
	Y             // across the fixed width
)

// Ref says which feature of a turned part a pin holds.
type Ref int

const (
	Low    Ref = iota // the lowest coordinate the turned part reaches on the axis
	High              // the highest coordinate the turned part reaches on the axis
	Origin            // the origin of the part's own coordinates
)

// Pin fixes one coordinate of a part: the feature Of on Axis lies at Value
// millimetres in the container's coordinates, to rounding.
type Pin struct {
	Axis  Axis
	Of    Ref
	Value float64
}

// Orientation is one way a part may lie. A point p of the shape is first
// flipped (x, y) -> (x, -y) when Flip is set, then turned counter-clockwise
// by Degrees about the origin of the part's own coordinates.
type Orientation struct {
	Degrees float64
	Flip    bool
}

// Tie holds one coordinate of a part to a lattice: the part's point At, after
// turning and placing, lies on a place of the lattice. A part has at most one
// tie on an axis.
//
// A repeat that is its own mirror image may be met backwards: for a pose k with
// Back[k] set the coordinate is a whole number of periods from minus the
// lattice's phase instead of from the phase. An empty Back has none.
type Tie struct {
	Lattice int // index in Problem.Lattices
	At      Pt  // in the part's own coordinates
	Back    []bool
}

// Part is one thing to place, exactly once.
type Part struct {
	Shape      []Pt          // simple polygon, counter-clockwise, own coordinates, mm
	Poses      []Orientation // the orientations allowed, at least one
	Tilt       float64       // largest free turn either side of a pose, degrees in [0, 45]; any angle within it, to a tenth of a degree
	Pins       []Pin         // coordinates that are fixed, at most one for each axis
	Across     [2]float64    // the part keeps between these Y; both zero means the whole width
	Containers []int         // containers it may lie in; empty means any
	Ties       []Tie         // coordinates held to a repeat
}

// Container is a strip of fixed width or a polygon.
//
// A strip covers 0 <= X <= MaxLength, 0 <= Y <= Width. A MaxLength of 0 or
// +Inf means as long as needed. When Outline (simple, counter-clockwise, in
// the container's coordinates) is given, parts must lie inside it, and Width
// and MaxLength are not read.
type Container struct {
	Width     float64
	MaxLength float64
	Outline   []Pt
	Origin    Pt // where the container's own origin lies on the lattices, mm
}

// Hazard is a fixed simple polygon, counter-clockwise, that no part may come
// near.
type Hazard struct {
	Container int
	Shape     []Pt
}

// Lattice is a repeat on one axis: places every Period mm, shifted by a phase
// that all parts tied to it share. Containers count from their Origin, so that
// one lattice may run on through several of them.
type Lattice struct {
	Axis   Axis
	Period float64   // mm, above 0
	Phases []float64 // the phases allowed, mm; none leaves the choice to the search
}

// MinClearance is the smallest distance kept between parts, mm. It leaves
// room to round every coordinate to a whole micrometre.
const MinClearance = 0.005

// Problem is what is to be placed and where.
type Problem struct {
	Containers []Container
	Parts      []Part
	Hazards    []Hazard
	Lattices   []Lattice
	Clearance  float64 // least distance between parts, and from parts to hazards and slanting outline edges; raised to MinClearance
}

// Budget bounds the work. The time a round takes depends on the machine; the
// result of a number of rounds does not.
type Budget struct {
	Rounds int    // move passes of each lane after the first layout; 0 asks for the first layout only
	Lanes  int    // searches that run side by side and share what they find, at least 1; also the goroutines used
	Seed   uint64 // any value; the same seed, lanes and rounds give the same layout

	// Used, when not nil, tells what share of the budget is used, from 0 to 1, as
	// the caller reckons it: by a clock, for instance. The search ends when it
	// reaches 1, or when all Rounds are used, and divides its work accordingly.
	// Results then depend on what Used tells. It is called from several goroutines.
	Used func() float64

	// Told, when not nil, is told after each pass of the first lane how many it has
	// done. What it does has no bearing on the result. It is called from one
	// goroutine at a time, not always the same.
	Told func(rounds int)

	// Within, when not nil, runs what a lane has to do for a while, at once or when
	// there is room for it, on the goroutine that it is called on, which does nothing
	// else afterwards. It has no bearing on the result.
	Within func(work func())
}

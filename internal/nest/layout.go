package nest

// Placement puts one part down: a point p of its shape lands at
// turn(flip(p)) + At, with flip (x, y) -> (x, -y) when Flip is set, then a
// counter-clockwise turn by Degrees. Apply computes it.
type Placement struct {
	Part, Container int
	Degrees         float64
	Flip            bool
	At              Pt
}

// Layout is a set of placements that keep every rule of the problem.
type Layout struct {
	Placements []Placement // in order of Part, one for each placed part
	Lengths    []float64   // per container: the highest X any of its parts reaches, 0 when it is empty
	Length     float64     // sum of Lengths
	Unplaced   []int       // parts that found no place, ascending
	Phases     []float64   // per lattice, in [0, Period); 0 when nothing is tied to it
}

// Why a search stopped.
const (
	StoppedBudget  = "budget"  // all rounds are used
	StoppedContext = "context" // the context ended
	StoppedProved  = "proved"  // no shorter layout exists
)

// Stats tells how a layout was found.
type Stats struct {
	Rounds  int     // move passes done
	Passes  int     // move passes done over all lanes
	Tried   int     // positions weighed over all lanes
	Stopped string  // StoppedBudget, StoppedContext, StoppedProved; empty in a report on the way
	Density float64 // area of the placed parts over the area of the strips up to the length used, in [0, 1]
	Bound   float64 // no layout of all parts has a smaller Length, mm
}

// Apply returns the outline of a shape put down by pl, in the container's
// coordinates. A flipped outline runs clockwise.
func (pl Placement) Apply(shape []Pt) []Pt {
	t := turnOf(Orientation{Degrees: pl.Degrees, Flip: pl.Flip})
	out := make([]Pt, len(shape))
	for i, p := range shape {
		q := t.apply(p)
		out[i] = Pt{q.X + pl.At.X, q.Y + pl.At.Y}
	}
	return out
}

package lay

// Fold is how one section of the cloth lies. Folded cloth lies right sides
// together, its wrong side up.
type Fold string

// The folds.
const (
	Flat   Fold = "open"       // a single layer, face up
	Along  Fold = "lengthwise" // a fold along the cloth, at Y = 0
	Across Fold = "crosswise"  // a fold across the cloth, at the section's To
	// Swung is Across, then cut along the fold and the upper layer swung round
	// end for end, so that the tops point one way in both layers. No fold is
	// left, and the two layers are two lengths of cloth.
	Swung Fold = "turned"
)

// Folds lists every fold.
var Folds = []Fold{Flat, Along, Across, Swung}

// Section is a stretch of cloth laid one way. Pieces lie between From and To;
// no piece reaches out of its section.
type Section struct {
	Fold     Fold
	From, To float64 // mm along the cloth, in the layer that lies below
	// Width is what lies before the cutter, mm: the usable width, less Depth
	// where the cloth is folded lengthwise.
	Width float64
	// Depth is how far the layer above reaches from a lengthwise fold, mm; half
	// the width when it is folded selvedge to selvedge, else less. From there
	// to Width the cloth is single.
	Depth float64
}

// Layers are the layers of cloth where it lies double.
func (s Section) Layers() int {
	if s.Fold == Flat {
		return 1
	}
	return 2
}

// FromFold tells that distances across are measured from a fold, not from a
// selvedge.
func (s Section) FromFold() bool { return s.Fold == Along }

// Takes is the length of cloth the section takes, mm. Folded crosswise it is
// twice what lies on the table.
func (s Section) Takes() float64 {
	if s.Fold == Across || s.Fold == Swung {
		return 2 * (s.To - s.From)
	}
	return s.To - s.From
}

// End is where the cloth of the section ends and the next may begin, mm.
func (s Section) End() float64 { return s.From + s.Takes() }

// Single tells that the cloth is single beside a lengthwise fold, from Depth to
// Width.
func (s Section) Single() bool { return s.Fold == Along && s.Width-s.Depth > 0.01 }

package fit

import (
	"slices"

	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// Sized is a view's pieces in the size this body needs. Only Fit makes one.
type Sized struct {
	garment pattern.Garment
	zones   []ZoneSize
	ease    []Ease
	printed []piece.Piece
	nearest string
}

// Garment returns the sized pieces with their view.
func (s Sized) Garment() pattern.Garment { return s.garment }

// Zones returns the size taken at each zone, from the top down.
func (s Sized) Zones() []ZoneSize { return s.zones }

// Ease returns the ease table, from the top down.
func (s Sized) Ease() []Ease { return s.ease }

// Nearest returns the printed size nearest to the body as a whole: by the
// measure the pattern is chosen by.
func (s Sized) Nearest() string { return s.nearest }

// Printed returns the pieces of the nearest printed size as they are printed,
// in the view's order, to be laid under the sized ones.
func (s Sized) Printed() []piece.Piece { return slices.Clone(s.printed) }

// ZoneSize is the size at one zone. At is the position in the pattern's size
// list (1.3 is three tenths from the second size to the third).
type ZoneSize struct {
	Zone    string
	At      float64
	Label   string // "14", or "14.6" where labels are numbers, "S+0.3" otherwise
	Nearest string // the nearest printed size
	From    string // "chart", "docket" or "hip" (taken over from another zone)
}

// Ease is garment less body at a zone, all in mm.
type Ease struct {
	Zone                string
	Body, Garment, Ease float64
	Minimum             float64
	HasBody, HasMinimum bool
	Source              string // where the minimum comes from
}

// TooLittle reports whether the ease is less than a body needs to move.
func (e Ease) TooLittle() bool { return e.HasBody && e.HasMinimum && e.Ease < e.Minimum-0.05 }

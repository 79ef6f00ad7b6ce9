package finish

import (
	"strings"

	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/piece"
)

// CutSet is every piece to be cut, with allowances. Only Finish makes one.
type CutSet struct {
	pieces []Cut
	uses   []cutUse // the same by the pieces of the view, with what they were cut from
}

// Pieces returns the cut pieces in the view's order.
func (c CutSet) Pieces() []Cut { return c.pieces }

// Micron is a point in whole micrometres.
type Micron struct{ X, Y int64 }

// Cut is one piece to be cut from one cloth, face up, grain along +y of its
// own coordinates (the top of the piece at larger y).
type Cut struct {
	ID     string // "front@left", "waistband", "loops#2"; unique for its cloth
	Piece  string
	Title  string
	Copy   piece.Copy
	Number int
	Cloth  cloth.Role
	// Outline is the cut line as a polygon in micrometres, counter-clockwise,
	// flattened outward by at most 0.1 mm. For a piece on the fold it is the
	// half, and Fold the part of it that lies on the fold.
	Outline []Micron
	OnFold  bool
	Fold    [2]Micron
	// Exact is the cut line for printing, within 0.01 mm, in mm.
	Exact []geom.Pt
	// Sewn is the piece on the stitching line, with lines and marks.
	Sewn piece.Piece
	// Notches are short strokes from the cut line inwards.
	Notches [][2]geom.Pt
	// Turns are the fold lines of hems and facings.
	Turns []geom.Curve
	// Matched are the places on the stitching line where the cloth's repeat meets
	// that of other pieces; of a half piece those of its other half too.
	Matched []Matched
	// Pair is the ID of the mirror image cut with it, empty for none.
	Pair   string
	Hidden bool
	// Allowances in outline order, for labels: edge name, width.
	Allowances []Allowance
}

// Name is the piece's title with its hand, where the hands are cut apart: a
// piece that is cut on the fold, or once, has none.
func (c Cut) Name() string {
	if strings.Contains(c.ID, "@") {
		return c.Title + ", " + string(c.Copy)
	}
	return c.Title
}

// Matched is a place of a piece that must show the same point of the cloth's
// repeat as the places of all other pieces with the same Match.
type Matched struct {
	Match         string // "outseam@left at knee"
	At            Micron
	Along, Across bool // which of the cloth's repeats meet there
	Place         finding.Place
}

// Allowance is the width cut beyond an edge, for labels on the sheets.
type Allowance struct {
	Edge  string
	Width float64
	At    geom.Pt // middle of the stretch, on the stitching line
	Note  string  // "double hem 2 × 20 mm"
}

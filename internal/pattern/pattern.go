// Package pattern holds multi-size patterns as printed: sizes, body chart,
// pieces in all sizes, and for each view the pieces it uses and how they are
// joined, finished and closed.
package pattern

import (
	"gusset/internal/body"
	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// Pattern is one printed pattern.
type Pattern struct {
	Name   string // folder name
	Title  string
	Sizes  []string // labels in order, as printed
	Chart  Chart
	Choose body.Measure // the measure the size is chosen by first
	Zones  []Zone       // from the top down
	Pieces map[string]piece.Graded
	Order  []string // piece names in file order
	Views  []View
	Place  finding.Place
}

// Chart is the body chart: one row per measure, one value per size. A value that
// the paper lacks between two others is filled in from them; at the ends of a
// row it is zero.
type Chart struct {
	Unit unit.Unit // of the chart, or of the finished measures where there is none
	Rows map[body.Measure][]unit.Length
	// Finished holds the finished garment measures if the pattern prints them.
	Finished map[body.Measure][]unit.Length
	Places   map[body.Measure]finding.Place
}

// Zone is a height of the garment at which the size may differ: the field of
// sizes is set there and runs smoothly between.
type Zone struct {
	Name    string       // also the name of the level lines on the pieces
	Measure body.Measure // what the body is measured by there; empty for none
	Place   finding.Place
}

// View is one garment of the pattern.
type View struct {
	Name     string
	Title    string
	Uses     []Use
	Joins    []Join
	Finishes []Finish
	Closures []Closure
	Parts    []Part
	Fittings []Fitting
	Girths   []Girth
	Matches  []Match // where stripes and bars meet; a docket may list its own
	Printed  []Step  // the printed order of work, for comparison
	// Shut are openings that are sewn up for good.
	Shut []Shut
	// Interfacing is the method by which pieces are interfaced; empty for the
	// usual one.
	Interfacing string
	Place       finding.Place
}

// Items lists the ids of all that a view makes: its joins, finishes, closures,
// parts and fittings.
func (v View) Items() []string {
	var out []string
	for _, j := range v.Joins {
		out = append(out, j.ID)
	}
	for _, f := range v.Finishes {
		out = append(out, f.ID)
	}
	for _, c := range v.Closures {
		out = append(out, c.ID)
	}
	for _, p := range v.Parts {
		out = append(out, p.ID)
	}
	for _, f := range v.Fittings {
		out = append(out, f.ID)
	}
	return out
}

// Copies says how a piece is cut.
type Copies string

// The ways.
const (
	Pair   Copies = "pair"   // left as drawn and right mirrored
	Single Copies = "single" // once, as drawn, face up
	OnFold Copies = "fold"   // half drawn, once, on the fold of the cloth
)

// AllCopies lists every way.
var AllCopies = []Copies{Pair, Single, OnFold}

// Use is a piece in a view.
type Use struct {
	Piece  string
	Copies Copies
	// Number is how many times over (a pair twice is four pieces); 1 as a rule.
	Number int
	// FoldEdge is the edge that lies on the fold, for OnFold.
	FoldEdge string
	// Folded says that the piece stays folded on that edge when made up (a
	// shield); otherwise it opens flat and its halves are left and right.
	Folded bool
	// Cloths are the roles it is cut from: main, and interfacing besides.
	Cloths []cloth.Role
	// Hidden pieces do not show; they may tilt off grain with permission.
	Hidden bool
	// For names the item whose method has the piece cut; empty for a piece of
	// the pattern's own.
	For   string
	Place finding.Place
}

// Join is edges sewn together: two or more plies in one seam. Each side is a
// chain of edges or stretches in order.
type Join struct {
	ID    string
	Title string
	// Sides: the first runs along the outlines as drawn (counter-clockwise on
	// each copy), the others against theirs, as sewn edges do; a reference
	// marked reversed runs the other way.
	Sides [][]piece.Ref
	// Each says that the join is sewn once for each hand, left to left and
	// right to right; set when no reference names a copy.
	Each bool
	// Ease is how much longer each side is than the first, in mm, stated by
	// the pattern and worked in (positive) or stretched (negative).
	Ease []unit.Length
	// EaseBetween names the two notches between which the ease is worked in, as
	// over the head of a sleeve: before the one and after the other the sides
	// are sewn flat. Empty, it is shared all along.
	EaseBetween []string
	Method      string
	Values      map[string]unit.Length
	Notches     []string
	// Intake names the edges across a pleat: the cloth between the two lines
	// that are sewn together, which is folded in and joined to nothing.
	Intake []piece.Ref
	Place  finding.Place
}

// Finish is what happens to edges that no join takes.
type Finish struct {
	ID     string
	Title  string
	Edges  []piece.Ref
	Method string
	Values map[string]unit.Length
	Place  finding.Place
}

// Closure is a fly or another opening: a method over joins.
type Closure struct {
	ID     string
	Title  string
	Method string
	Joins  []string    // the joins and finishes it is worked on
	Along  []piece.Ref // where the fastening lies; its length decides the zip
	Values map[string]unit.Length
	Place  finding.Place
}

// Shut is an opening that a method has sewn up.
type Shut struct {
	Edge   piece.Ref // the edge beside its upper end: the waist
	Method string
	Place  finding.Place
}

// Part is a small part made by itself: belt loops.
type Part struct {
	ID     string
	Title  string
	Method string
	Piece  string
	Count  int
	// Along is what its stitching runs along; the piece's longest edge when
	// nothing is named.
	Along  []piece.Ref
	Joins  []string // joins that catch it
	Values map[string]unit.Length
	Place  finding.Place
}

// Fitting is a trying-on before seams are sewn for good: a basted fitting of
// some joins, or a toile.
type Fitting struct {
	ID     string
	Title  string
	Method string
	Joins  []string // the joins that may be altered at it
	Place  finding.Place
}

// Girth says how a garment's girth is measured at a zone: the pieces whose
// width at the level adds up to it, or the edges whose lengths do.
type Girth struct {
	Zone   string
	Pieces []piece.Ref // "front@left:/hip": width at the level line
	Edges  []piece.Ref // "front@left:waist": length of the edge
	Less   unit.Length // overlap to be taken off
	Place  finding.Place
}

// SizeIndex returns the position of a size label in the list, or -1.
func (p Pattern) SizeIndex(label string) int {
	for i, s := range p.Sizes {
		if s == label {
			return i
		}
	}
	return -1
}

// View returns the named view.
func (p Pattern) View(name string) (View, bool) {
	for _, v := range p.Views {
		if v.Name == name {
			return v, true
		}
	}
	return View{}, false
}

// ViewNames lists the views in file order.
func (p Pattern) ViewNames() []string {
	names := make([]string, len(p.Views))
	for i, v := range p.Views {
		names[i] = v.Name
	}
	return names
}

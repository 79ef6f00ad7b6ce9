// Package cloth holds lengths of cloth: what is there, which way it runs, and
// how it behaves.
package cloth

import (
	"gusset/internal/finding"
	"gusset/internal/unit"
)

// Role says what a cloth is for; pieces ask for cloth by role.
type Role string

// The roles.
const (
	Main        Role = "main"
	Pocketing   Role = "pocketing"
	Lining      Role = "lining"
	Interfacing Role = "interfacing"
	Contrast    Role = "contrast"
)

// Roles lists every role.
var Roles = []Role{Main, Pocketing, Lining, Interfacing, Contrast}

// Direction says how pieces may be turned on the cloth.
type Direction string

// The directions. One way: all tops the same way (nap, pile, a one-way
// print). Two way: end for end. None: either, and also across.
const (
	OneWay Direction = "one-way"
	TwoWay Direction = "two-way"
	NoWay  Direction = "none"
)

// Directions lists every direction.
var Directions = []Direction{OneWay, TwoWay, NoWay}

// Cloth is one length of cloth.
type Cloth struct {
	Name      string // file name without ending
	Title     string
	Width     unit.Length // edge to edge
	Selvedge  unit.Length // not used, at each edge
	Length    unit.Length // as it lies now
	Direction Direction
	Thickness unit.Length // one ply, lightly pressed
	Weight    float64     // g/m²; 0 when unknown
	Washed    bool
	// ShrinkWarp and ShrinkWeft are what washing still takes, as fractions
	// (0.03 for 3 %); zero for washed cloth.
	ShrinkWarp, ShrinkWeft float64
	Frays                  bool
	Flaws                  []Flaw
	// Outline is the shape of an odd remnant, measured round; empty for a plain
	// length. Width and Length are then its greatest measures.
	Outline     []Spot
	Place       finding.Place
	LengthPlace finding.Place
}

// UsableWidth is the width between the selvedges in mm, after washing.
func (c Cloth) UsableWidth() float64 {
	return (c.Width.MM() - 2*c.Selvedge.MM()) * (1 - c.ShrinkWeft)
}

// UsableLength is the length in mm, after washing.
func (c Cloth) UsableLength() float64 { return c.Length.MM() * (1 - c.ShrinkWarp) }

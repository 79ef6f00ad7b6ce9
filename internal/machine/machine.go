// Package machine holds what the user sews on: which stitches each machine
// makes and the sizes that decide what it can reach.
package machine

import (
	"gusset/internal/finding"
	"gusset/internal/unit"
)

// Kind says what a place of work is.
type Kind string

// The kinds of work places.
const (
	Lockstitch Kind = "lockstitch"
	Overlocker Kind = "overlocker"
	Iron       Kind = "iron"
	Hand       Kind = "hand"
	Table      Kind = "table"
)

// Kinds lists every kind.
var Kinds = []Kind{Lockstitch, Overlocker, Iron, Hand, Table}

// Machine is one place of work.
type Machine struct {
	Name      string
	Title     string
	Kind      Kind
	Stitches  []string    // ISO 4915 numbers it makes
	ArmGirth  unit.Length // round the free arm
	ArmLength unit.Length // free length of the arm
	Throat    unit.Length // needle to pillar
	// ThroatHeight is the room between the bed and the arm above it, FootLift
	// the thickest stack that passes under the raised foot.
	ThroatHeight unit.Length
	FootLift     unit.Length
	// Minutes holds what the user has timed here; what is not in it is guessed.
	Minutes map[Minute]float64
	Place   finding.Place
}

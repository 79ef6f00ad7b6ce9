package reach

import "gusset/internal/machine"

// Machine holds the sizes of one machine in millimetres. How to measure them:
//
//   - ArmGirth: a tape round the free arm where it is thickest, the flat bed
//     taken off.
//   - ArmLength: from the end of the free arm to where it gets thicker or the
//     machine begins.
//   - Throat: from the needle to the pillar.
//   - Height: from the bed to the arm above, halfway between needle and pillar.
//   - Lift: the thickest stack that still passes under the raised foot.
type Machine struct {
	ArmGirth, ArmLength, Throat, Height float64
	Lift                                float64 // 0: not stated, nothing is too thick
	Guessed                             bool    // a size was not stated and is a guess
}

// guesses are the sizes of machines that were not measured: a domestic
// lockstitch and a domestic overlocker, from memory.
var guesses = map[machine.Kind]Machine{
	machine.Lockstitch: {ArmGirth: 280, ArmLength: 170, Throat: 170, Height: 110},
	machine.Overlocker: {ArmGirth: 240, ArmLength: 90, Throat: 90, Height: 60},
}

// Limits of reaching, all guesses to be set by trial.
const (
	ease      = 20  // mm that a tube must be wider than the arm
	foot      = 30  // mm to either side of the needle, for the foot and a finger
	ring      = 60  // mm more than two of these between the walls of a ring on the flat bed
	hand      = 200 // mm round an opening or a tube that a hand passes through
	fingers   = 80  // mm that fingers reach into what a hand does not enter
	loft      = 3   // bunched cloth is this much thicker than pressed
	alongFrom = 30  // degrees between line and loop from which on the line runs along the tube
	clear     = 10  // mm that a ply must be held away from a line for the line to catch it
	someCloth = 0.5 // mm thick, where nothing is known of the cloth
)

// measured gives a machine's sizes, with guesses for those not stated.
func measured(m machine.Machine) Machine {
	s := Machine{
		ArmGirth: m.ArmGirth.MM(), ArmLength: m.ArmLength.MM(), Throat: m.Throat.MM(), Height: m.ThroatHeight.MM(), Lift: m.FootLift.MM(),
	}
	g := guesses[m.Kind]
	for _, f := range []struct {
		size  *float64
		guess float64
	}{{&s.ArmGirth, g.ArmGirth}, {&s.ArmLength, g.ArmLength}, {&s.Throat, g.Throat}, {&s.Height, g.Height}} {
		if *f.size == 0 {
			*f.size, s.Guessed = f.guess, true
		}
	}
	return s
}

// machines gives the sizes of the machines of each kind, a guessed one for a
// kind that is not there.
func machines(list []machine.Machine) map[machine.Kind][]Machine {
	all := map[machine.Kind][]Machine{}
	for _, m := range list {
		if _, sews := guesses[m.Kind]; sews {
			all[m.Kind] = append(all[m.Kind], measured(m))
		}
	}
	for kind := range guesses {
		if len(all[kind]) == 0 {
			all[kind] = []Machine{measured(machine.Machine{Kind: kind})}
		}
	}
	return all
}

package reach

import (
	"math"
	"strings"

	"gusset/internal/unit"
)

// Words says what hinders, with lengths in unit u; empty for what is easy.
func (a Access) Words(u unit.Unit) string {
	switch {
	case a.Level == Easy:
		return ""
	case len(a.Caught) > 0:
		return a.Catches()
	case a.Thickness > 0:
		return unit.Format(a.Thickness, unit.Millimetre) + " of cloth lie under a foot that lifts " + unit.Format(a.Machine.Lift, unit.Millimetre)
	case math.IsInf(a.Girth, 1) && math.IsInf(a.Depth, 1):
		return a.pieces("a bag with no opening that the machine's arm goes into")
	case math.IsInf(a.Girth, 1):
		return a.pieces("too much cloth to roll up in the throat")
	case math.IsInf(a.Depth, 1):
		return a.pieces("a tube of " + unit.Format(a.Girth, u) + " that no opening leads into wide enough for the machine's arm")
	}
	return a.pieces("a tube of "+unit.Format(a.Girth, u)+a.deep(u)) + ", your machine's arm is " + unit.Format(a.Machine.ArmGirth, u) + " round and " +
		unit.Format(a.Machine.ArmLength, u) + " long" + a.guessed()
}

// Catches says which pieces would be caught: "pocket bag lies beneath and would
// be caught".
func (a Access) Catches() string {
	if len(a.Caught) == 1 {
		return "the " + strings.ToLower(a.Caught[0]) + " lies beneath, held at its edges, and would be caught"
	}
	return "the " + strings.ToLower(and(a.Caught)) + " lie beneath, held at their edges, and would be caught"
}

func and(words []string) string {
	n := len(words)
	if n < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
}

// deep is the depth, left out for a line at the very edge.
func (a Access) deep(u unit.Unit) string {
	if a.Depth < 1 {
		return ""
	}
	return ", " + unit.Format(a.Deep, u) + " deep"
}

func (a Access) guessed() string {
	if a.Machine.Guessed {
		return " (a guess: measure it)"
	}
	return ""
}

func (a Access) pieces(what string) string {
	switch n := len(a.Around); n {
	case 0:
		return "the work is " + what
	case 1:
		return strings.ToLower(a.Around[0]) + " is " + what
	default:
		return strings.ToLower(and(a.Around)) + " are " + what
	}
}

package order

import (
	"fmt"
	"math"
	"math/bits"
	"slices"

	"gusset/internal/construct"
	"gusset/internal/reach"
	"gusset/internal/unit"
)

// Hard is work that comes when seams sewn before it make it awkward to reach, or
// worse, though it need not be.
type Hard struct {
	Line     int // of the written order, from 1; 0 for what it does not name
	Op       construct.Operation
	Blockers []string // operations: it is easier before the last of these
	Access   reach.Access
}

// HardOf finds the steps of an order that are awkward or worse where they stand
// and would be less so elsewhere.
func HardOf(list []Step, conditions []reach.Condition) []Hard {
	at := map[string]int{}
	for i, s := range list {
		at[s.Op.ID] = i
	}
	var out []Hard
	for _, c := range conditions {
		i, here := at[c.Op]
		if !here {
			continue
		}
		sewn := 0
		for k, id := range c.Closers {
			if j, listed := at[id]; listed && j < i {
				sewn |= 1 << k
			}
		}
		if a := c.When[sewn]; a.Level >= reach.Awkward && a.Level > c.When[0].Level {
			out = append(out, Hard{Op: list[i].Op, Blockers: smallest(c, sewn), Access: a})
		}
	}
	slices.SortStableFunc(out, func(a, b Hard) int { return at[a.Op.ID] - at[b.Op.ID] })
	return out
}

// smallest names the fewest of the seams sewn that make it as hard as it is.
func smallest(c reach.Condition, sewn int) []string {
	best := sewn
	for set := range c.When {
		if set&^sewn == 0 && c.When[set].Level >= c.When[sewn].Level && bits.OnesCount(uint(set)) < bits.OnesCount(uint(best)) {
			best = set
		}
	}
	var out []string
	for k, id := range c.Closers {
		if best>>k&1 == 1 {
			out = append(out, stem(id))
		}
	}
	return out
}

// Why says what hinders, with its numbers.
func (h Hard) Why() string {
	a := h.Access
	cm := func(mm float64) string { return unit.Format(mm, unit.Centimetre) }
	switch {
	case len(a.Caught) > 0:
		return fmt.Sprintf("%s, since %s", a.Level, a.Catches())
	case a.Thickness > 0:
		return fmt.Sprintf("%s, since %.1f mm lie under the foot", a.Level, a.Thickness)
	case math.IsInf(a.Depth, 1):
		return fmt.Sprintf("%s, since no opening is left that a hand or the machine's arm goes through", a.Level)
	case math.IsInf(a.Girth, 1):
		return fmt.Sprintf("%s, %s from the nearest opening", a.Level, cm(a.Depth))
	}
	return fmt.Sprintf("%s, since it then lies in a tube of %s, %s deep, and the machine's arm is %s round and %s long",
		a.Level, cm(a.Girth), cm(a.Depth), cm(a.Machine.ArmGirth), cm(a.Machine.ArmLength))
}

// Mend says the move that mends it.
func (h Hard) Mend() string {
	if len(h.Blockers) == 1 {
		return fmt.Sprintf("move %s to before %s", stem(h.Op.ID), h.Blockers[0])
	}
	return fmt.Sprintf("move %s to before the last of %s", stem(h.Op.ID), joined(h.Blockers))
}

func joined(words []string) string {
	text := ""
	for i, w := range words {
		switch {
		case i == 0:
		case i == len(words)-1:
			text += " and "
		default:
			text += ", "
		}
		text += w
	}
	return text
}

package change

import (
	"gusset/internal/docket"
	"gusset/internal/finding"
	"gusset/internal/pattern"
	"gusset/internal/unit"
)

// Changed is a sized garment after the docket's recipe. Only Apply makes one.
type Changed struct {
	start looked // the sized garment
	done  []done // what each step of the recipe did
}

// done is one step of a recipe, done or refused.
type done struct {
	step    docket.Change
	unit    unit.Unit
	after   looked // the garment after it
	applied bool
	text    string
	found   finding.List
}

// Garment returns the changed pieces with their view.
func (c Changed) Garment() pattern.Garment {
	if n := len(c.done); n > 0 {
		return c.done[n-1].after.Garment
	}
	return c.start.Garment
}

// Applied lists the steps that took effect, in order.
func (c Changed) Applied() []Applied {
	var out []Applied
	for _, d := range c.done {
		if d.applied {
			out = append(out, Applied{ID: d.step.ID, Text: d.text})
		}
	}
	return out
}

// Applied is one step with what it did, in trade words: "hem 58 to 44 cm from
// the knee".
type Applied struct {
	ID   string
	Text string
}

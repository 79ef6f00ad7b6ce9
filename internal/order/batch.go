package order

import (
	"fmt"

	"gusset/internal/machine"
)

// Batch is a stretch of steps at one place of work.
type Batch struct {
	Place machine.Kind
	Steps []Step
}

// Batches cuts the steps where the place of work changes.
func Batches(list []Step) []Batch {
	var out []Batch
	for _, s := range list {
		if n := len(out); n == 0 || out[n-1].Place != s.Op.Machine {
			out = append(out, Batch{Place: s.Op.Machine})
		}
		last := &out[len(out)-1]
		last.Steps = append(last.Steps, s)
	}
	return out
}

// Heading says what the batch is: "now everything for the overlocker, steps 1
// to 5".
func (b Batch) Heading() string {
	where := "for the " + string(b.Place)
	if b.Place == machine.Hand {
		where = "to be done by hand"
	}
	first, last := b.Steps[0].Number, b.Steps[len(b.Steps)-1].Number
	if first == last {
		return fmt.Sprintf("now one step %s, step %d", where, first)
	}
	return fmt.Sprintf("now everything %s, steps %d to %d", where, first, last)
}

package order

import "gusset/internal/construct"

// Steps is the order of work. Only Plan makes one.
type Steps struct {
	steps   []Step
	changes int
	printed int
}

// Steps returns the steps in order.
func (s Steps) Steps() []Step { return s.steps }

// Changes counts changes of set-up: machine, thread, foot.
func (s Steps) Changes() int { return s.changes }

// Printed counts the changes of set-up in the pattern's printed order, 0 when
// it has none.
func (s Steps) Printed() int { return s.printed }

// Step is one operation in its place. Setup says what must be changed before
// it, empty for nothing.
type Step struct {
	Number int
	Op     construct.Operation
	Setup  string
}

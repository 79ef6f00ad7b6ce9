package order

import "gusset/internal/construct"

// Steps is the order of work. Only Plan makes one.
type Steps struct {
	steps   []Step
	changes int
	cost    int
	least   int
}

// Steps returns the steps in order.
func (s Steps) Steps() []Step { return s.steps }

// Changes counts changes of set-up: machine, thread, foot.
func (s Steps) Changes() int { return s.changes }

// Cost is the changes weighed by their costs; with costs of one, as in the
// zero Costs, it is their number.
func (s Steps) Cost() int { return s.cost }

// Least is the lowest cost that any order can have, as far as the search has
// proved it: an order whose Cost equals it cannot be bettered.
func (s Steps) Least() int { return s.least }

// Step is one operation in its place. Setup says what must be changed before
// it, empty for nothing; Set is the same as it is put together.
type Step struct {
	Number int
	Op     construct.Operation
	Setup  string
	Set    []construct.Told `json:"-"`
}

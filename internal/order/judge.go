package order

import (
	"fmt"

	"gusset/internal/construct"
	"gusset/internal/finding"
	"gusset/internal/pattern"
	"gusset/internal/reach"
)

// Judged is a written order, the printed one or the user's own, as it is
// written and as it can be done. Only Judge makes one.
type Judged struct {
	name    string
	written []Step
	mended  []Step
	tally   Tally
	after   Tally
	late    []Late
	hard    []Hard
}

// Name is what the order is called: "printed".
func (j Judged) Name() string { return j.name }

// Written returns the steps as the order has them.
func (j Judged) Written() []Step { return j.written }

// Mended returns the steps after the moves that make the order possible.
func (j Judged) Mended() []Step { return j.mended }

// Tally counts the order as it is written.
func (j Judged) Tally() Tally { return j.tally }

// After counts the order after the moves that make it possible.
func (j Judged) After() Tally { return j.after }

// Late returns the steps that come before something they need.
func (j Judged) Late() []Late { return j.late }

// Hard returns the steps that seams sewn before them make awkward to reach, or
// worse.
func (j Judged) Hard() []Hard { return j.hard }

// Judge writes an order out over the operations, counts its changes of set-up,
// presses and minutes, and finds the steps that could not be done where they
// stand, or not well: reach tells which seams hinder which.
// Without operations or lines there is nothing to judge.
func Judge(name string, list []pattern.Step, ops []construct.Operation, c []reach.Condition, t Times) (Judged, finding.List) {
	g, broken := newGraph(ops)
	if broken.Stops() > 0 || len(ops) == 0 || len(list) == 0 { // told by Plan
		return Judged{}, nil
	}
	var out finding.List
	need, _ := needs(ops)
	order, line, unknown := write(list, ops, g)
	for _, s := range unknown {
		out = append(out, stepUnknown.At(s.Place, name, s.String()))
	}
	mended, late := mend(order, ops, need, g)
	j := Judged{name: name, written: steps(order, ops, need), mended: steps(mended, ops, need), late: late}
	j.tally, j.after = TallyOf(j.written, t), TallyOf(j.mended, t)
	for i := range late {
		l := &late[i]
		l.Line, l.NeedLine = lineOf(l.Op.ID, ops, line), lineOf(l.Need.ID, ops, line)
		out = append(out, outOfTurn.At(l.place(list).Place, l.Number(name), stem(l.Op.ID), stem(l.Need.ID), l.Why, l.Mend()))
	}
	j.hard = HardOf(j.written, c)
	for i := range j.hard {
		h := &j.hard[i]
		h.Line = lineOf(h.Op.ID, ops, line)
		l := Late{Line: h.Line, Op: h.Op}
		out = append(out, hardToReach.At(l.place(list).Place, l.Number(name), stem(h.Op.ID), joined(h.Blockers), h.Why(), h.Mend()))
	}
	return j, out
}

// lineOf is the line of an operation as a reader counts, 0 for none.
func lineOf(id string, ops []construct.Operation, line []int) int {
	for i, o := range ops {
		if o.ID == id {
			return line[i] + 1
		}
	}
	return 0
}

// Number says which step of the named order it is.
func (l Late) Number(name string) string {
	if l.Line == 0 {
		return "the " + name + " order"
	}
	return fmt.Sprintf("step %d of the %s order", l.Line, name)
}

// Mend says the least move that mends it and what it costs.
func (l Late) Mend() string {
	switch {
	case l.More == 1:
		return l.Move + ", which is 1 change of set-up more"
	case l.More > 1:
		return fmt.Sprintf("%s, which is %d changes of set-up more", l.Move, l.More)
	case l.More == -1:
		return l.Move + ", which saves 1 change of set-up"
	case l.More < 0:
		return fmt.Sprintf("%s, which saves %d changes of set-up", l.Move, -l.More)
	}
	return l.Move + ", which costs no change of set-up"
}

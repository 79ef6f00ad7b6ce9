package main

import (
	"fmt"
	"os"
	"path/filepath"

	"gusset/internal/finding"
	"gusset/internal/making"
	"gusset/internal/order"
	"gusset/internal/source"
)

// orderCmd prints the order of work, alone or beside another.
type orderCmd struct {
	docketArg
	Printed bool   `help:"Set the pattern's printed order beside it." xor:"beside"`
	Mine    string `help:"Set an order of your own beside it: a file that begins gusset: order/1." type:"path" xor:"beside"`
}

func (c *orderCmd) Run(s *session) error {
	in, r, err := c.run(s, making.Order, making.Effort{})
	if err != nil {
		return err
	}
	other := r.Printed
	if c.Mine != "" {
		f, found, err := readOrder(c.Mine)
		if err != nil {
			return err
		}
		if found.Stops() == 0 {
			j, judged := r.Judge(in, f)
			other, found = j, append(found, judged...)
		}
		r.Findings = append(r.Findings, found...)
	}
	t := order.TimesOf(in.Machines)
	if c.JSON {
		out := map[string]any{"steps": r.Steps.Steps(), "changes": r.Steps.Changes(), "tally": order.TallyOf(r.Steps.Steps(), t), "findings": r.Findings}
		if c.Printed || c.Mine != "" {
			out["beside"] = map[string]any{"name": other.Name(), "steps": other.Written(), "tally": other.Tally(), "mended": other.After(), "late": other.Late(), "hard": hardWords(other.Hard())}
		}
		if err := printJSON(s, out); err != nil {
			return err
		}
		return ended(r.Findings)
	}
	switch {
	case !c.Printed && c.Mine == "":
		fmt.Fprintln(s.out, orderLine(r))
		printSteps(s, r.Steps.Steps())
	case len(other.Written()) > 0:
		beside(s, r, other, t)
	case c.Printed && r.Reached == making.Order:
		fmt.Fprintln(s.out, "the pattern prints no order of work for this view")
	}
	return findings(s, false, r.Findings)
}

// hardWords are the steps that are hard to reach, as JSON has them: lengths may
// be infinite, which JSON cannot say.
func hardWords(list []order.Hard) []map[string]any {
	out := []map[string]any{}
	for _, h := range list {
		out = append(out, map[string]any{"line": h.Line, "op": h.Op.ID, "after": h.Blockers, "level": h.Access.Level.String(), "why": h.Why(), "mend": h.Mend()})
	}
	return out
}

// readOrder reads an order that the user has written down.
func readOrder(path string) (order.File, finding.List, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return order.File{}, nil, err
	}
	f, found := order.Load(source.File{Path: filepath.ToSlash(path), Data: data})
	return f, found, nil
}

// printSteps prints an order of work, batch by batch.
func printSteps(s *session, steps []order.Step) {
	for _, b := range order.Batches(steps) {
		fmt.Fprintf(s.out, "\n-- %s\n", b.Heading())
		for _, st := range b.Steps {
			if st.Setup != "" {
				fmt.Fprintf(s.out, "   [%s]\n", st.Setup)
			}
			fmt.Fprintf(s.out, "%3d. %s\n", st.Number, st.Op.Do)
		}
	}
}

// beside prints another order of work next to the planned one: what each
// takes, what stands out of turn in the other, and its steps with their numbers
// in both.
func beside(s *session, r making.Result, other order.Judged, t order.Times) {
	planned := r.Steps.Steps()
	tallies(s, order.TallyOf(planned, t), other)
	fmt.Fprintf(s.out, "%-24s %10d %10d\n", "steps hard to reach", len(r.Hard), len(other.Hard()))
	guessed(s, t)
	for _, l := range other.Late() {
		fmt.Fprintf(s.out, "\n%s comes too early: %s\n", l.Number(other.Name()), l.Op.Do)
		fmt.Fprintf(s.out, "  needs  %s\n  why    %s\n  mend   %s\n", l.Need.Do, l.Why, l.Mend())
	}
	for _, h := range other.Hard() {
		l := order.Late{Line: h.Line, Op: h.Op}
		fmt.Fprintf(s.out, "\n%s comes too late to be reached well: %s\n", l.Number(other.Name()), h.Op.Do)
		fmt.Fprintf(s.out, "  why    %s\n  mend   %s\n", h.Why(), h.Mend())
	}
	number := map[string]int{}
	for _, st := range planned {
		number[st.Op.ID] = st.Number
	}
	late := map[string]bool{}
	for _, h := range other.Hard() {
		late[h.Op.ID] = true
	}
	for _, l := range other.Late() {
		late[l.Op.ID] = true
	}
	fmt.Fprintf(s.out, "\n%8s %8s\n", other.Name(), "planned")
	for _, st := range other.Written() {
		if st.Setup != "" {
			fmt.Fprintf(s.out, "%17s -- %s\n", "", st.Setup)
		}
		mark := " "
		if late[st.Op.ID] {
			mark = "!"
		}
		fmt.Fprintf(s.out, "%8d %8d %s %s\n", st.Number, number[st.Op.ID], mark, st.Op.Do)
	}
}

// tallies prints what the planned order takes, and the other as it is written
// and mended.
func tallies(s *session, planned order.Tally, other order.Judged) {
	row := func(what, format string, of func(order.Tally) any) {
		cells := []string{fmt.Sprintf(format, of(planned)), fmt.Sprintf(format, of(other.Tally())), fmt.Sprintf(format, of(other.After()))}
		fmt.Fprintf(s.out, "%-24s %10s %10s %10s\n", what, cells[0], cells[1], cells[2])
	}
	fmt.Fprintf(s.out, "%-24s %10s %10s %10s\n", "", "planned", other.Name(), "mended")
	row("steps", "%d", func(t order.Tally) any { return t.Steps })
	row("changes of set-up", "%d", func(t order.Tally) any { return t.Changes })
	row("moves to another place", "%d", func(t order.Tally) any { return t.Moves })
	row("trips to the iron", "%d", func(t order.Tally) any { return t.Trips })
	row("presses", "%d", func(t order.Tally) any { return t.Presses })
	row("fittings", "%d", func(t order.Tally) any { return t.Fittings })
	row("minutes changing", "%.0f", func(t order.Tally) any { return t.Changing })
	row("minutes in all", "%.0f", func(t order.Tally) any { return t.Minutes })
	fmt.Fprintf(s.out, "%-24s %10d %10d %10d\n", "steps too early", 0, len(other.Late()), 0)
}

// guessed says where the minutes are from.
func guessed(s *session, t order.Times) {
	words := "minutes are guesses; time your own and write them into the machine files"
	if t.Timed() {
		words = "minutes that no machine file gives are guesses"
	}
	fmt.Fprintf(s.out, "(%s)\n", words)
}

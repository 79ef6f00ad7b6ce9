package main

import (
	"fmt"
	"io"
	"strings"

	"gusset/internal/fit"
	"gusset/internal/making"
	"gusset/internal/unit"
)

// fitCmd prints sizes and ease, and what other sizes would give.
type fitCmd struct{ docketArg }

func (c *fitCmd) Run(s *session) error {
	in, r, err := c.run(s, making.Fit, making.Effort{})
	if err != nil {
		return err
	}
	others := making.Alternatives(in)
	if c.JSON {
		if err := printJSON(s, map[string]any{
			"zones": r.Sized.Zones(), "ease": r.Sized.Ease(), "alternatives": others, "findings": r.Findings}); err != nil {
			return err
		}
		return ended(r.Findings)
	}
	u := in.Docket.Unit
	printZones(s.out, r.Sized.Zones())
	printEase(s.out, r.Sized.Ease(), u)
	printAlternatives(s.out, others, u)
	return findings(s, false, r.Findings)
}

func printZones(w io.Writer, zones []fit.ZoneSize) {
	if len(zones) == 0 {
		return
	}
	fmt.Fprintf(w, "%-8s %-8s %-10s %s\n", "zone", "size", "printed", "chosen by")
	for _, z := range zones {
		fmt.Fprintf(w, "%-8s %-8s %-10s %s\n", z.Zone, z.Label, z.Nearest, z.From)
	}
}

func printEase(w io.Writer, ease []fit.Ease, u unit.Unit) {
	if len(ease) == 0 {
		return
	}
	fmt.Fprintf(w, "\n%-8s %12s %12s %12s %12s  %s\n", "zone", "body", "garment", "ease", "at least", "source")
	for _, e := range ease {
		body, left, least := "-", "-", "-"
		if e.HasBody {
			body, left = unit.Format(e.Body, u), unit.Format(e.Ease, u)
		}
		if e.HasMinimum {
			least = unit.Format(e.Minimum, u)
		}
		fmt.Fprintf(w, "%-8s %12s %12s %12s %12s  %s\n", e.Zone, body, unit.Format(e.Garment, u), left, least, e.Source)
	}
}

// printAlternatives prints the ease at every level, one column for each way of
// taking the sizes. Where the body was not measured, the garment's own girth
// stands in brackets; an ease that is too little is marked.
func printAlternatives(w io.Writer, all []fit.Alternative, u unit.Unit) {
	if len(all) == 0 {
		return
	}
	var zones []string
	cells := map[string][]string{}
	short, round := false, false
	line := fmt.Sprintf("\n%-8s", "ease at")
	for i, a := range all {
		line += fmt.Sprintf(" %14s", a.Name)
		for _, e := range a.Ease {
			if cells[e.Zone] == nil {
				zones = append(zones, e.Zone)
				cells[e.Zone] = make([]string, len(all))
			}
			text := "(" + unit.Format(e.Garment, u) + ")"
			if e.HasBody {
				text = unit.Format(e.Ease, u)
			}
			if e.TooLittle() {
				text, short = text+" *", true
			}
			cells[e.Zone][i], round = text, round || !e.HasBody
		}
	}
	fmt.Fprintln(w, line)
	for _, z := range zones {
		line := fmt.Sprintf("%-8s", z)
		for _, c := range cells[z] {
			line += fmt.Sprintf(" %14s", c)
		}
		fmt.Fprintln(w, line)
	}
	var notes []string
	if short {
		notes = append(notes, "* too little to move in")
	}
	if round {
		notes = append(notes, "(in brackets: the garment's girth where the body has none)")
	}
	if len(notes) > 0 {
		fmt.Fprintln(w, strings.Join(notes, "  "))
	}
}

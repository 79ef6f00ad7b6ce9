package main

import (
	"fmt"
	"io"
	"strings"

	"gusset/internal/cloth"
	"gusset/internal/lay"
	"gusset/internal/making"
	"gusset/internal/unit"
)

// report prints the whole make in a few lines.
func report(w io.Writer, in making.Inputs, r making.Result) {
	fmt.Fprintf(w, "%-60s docket %s\n", in.Docket.Title, in.Docket.Name)
	row := func(name, format string, args ...any) { fmt.Fprintf(w, "%-9s%s\n", name, fmt.Sprintf(format, args...)) }
	if r.Reached >= making.Fit && len(r.Sized.Zones()) > 0 {
		row("size", "%s", sizeLine(r))
		row("ease", "%s", easeLine(in, r))
	}
	if r.Reached >= making.Change {
		row("changes", "%s", changeLine(r))
	}
	if r.Reached >= making.Walk {
		row("seams", "%d walked, widest gap %.2f mm", len(r.Walked.Seams()), r.Walked.Widest())
	}
	for _, l := range r.Lays {
		row("cloth", "%s", clothLine(l))
	}
	if r.Reached >= making.Order && len(r.Steps.Steps()) > 0 {
		row("order", "%s", orderLine(r))
	}
	if r.Reached >= making.Needs {
		for i, line := range needLines(r, in.Docket.Unit) {
			row([]string{"needs", ""}[min(i, 1)], "%s", line)
		}
	}
}

func sizeLine(r making.Result) string {
	var parts []string
	for _, z := range r.Sized.Zones() {
		parts = append(parts, z.Zone+" "+z.Label)
	}
	return strings.Join(parts, "  ") + "   (nearest printed size " + r.Sized.Nearest() + ")"
}

func easeLine(in making.Inputs, r making.Result) string {
	var parts []string
	for _, e := range r.Sized.Ease() {
		if e.HasBody {
			parts = append(parts, e.Zone+" "+unit.Format(e.Ease, in.Docket.Unit))
		}
	}
	return strings.Join(parts, "  ")
}

func changeLine(r making.Result) string {
	a := r.Changed.Applied()
	if len(a) == 0 {
		return "none"
	}
	var texts []string
	for _, s := range a {
		texts = append(texts, s.Text)
	}
	return fmt.Sprintf("%d applied: %s", len(a), strings.Join(texts, "; "))
}

func clothLine(l lay.Lay) string {
	c := l.Cloth
	if len(l.Unplaced) > 0 {
		return fmt.Sprintf("%s %s: no place for %s", c.Title, c.Width, strings.Join(l.Unplaced, ", "))
	}
	word := "fits in"
	if l.Length > c.UsableLength() {
		word = "takes"
	}
	text := fmt.Sprintf("%s %s %s: %s %s of %s, %.0f %%, %s", c.Title, c.Width, direction(c), word,
		unit.Format(l.Length, c.Length.Unit()), c.Length, 100*l.Density, l.Plan.Words())
	for _, t := range l.Tried {
		if t.Plan != l.Plan && t.Unplaced == 0 {
			text += fmt.Sprintf(" (%s: %s%s)", t.Plan, unit.Format(t.Length, c.Length.Unit()), givenUp(l, t))
		}
	}
	return text
}

// givenUp marks the length of a plan that was not searched to the end.
func givenUp(l lay.Lay, t lay.Attempt) string {
	if l.Behind(t) {
		return ", given up"
	}
	return ""
}

func direction(c cloth.Cloth) string {
	if c.Direction == cloth.NoWay {
		return "any way"
	}
	return string(c.Direction)
}

func orderLine(r making.Result) string {
	s := r.Steps
	text := fmt.Sprintf("%d steps, %d changes of set-up", len(s.Steps()), s.Changes())
	switch {
	case s.Cost() == s.Least() && r.Times.Timed():
		text += ", as few minutes of them as there can be"
	case s.Cost() == s.Least():
		text += ", the fewest there can be"
	case r.Times.Timed():
		text += fmt.Sprintf(", %.1f minutes of them and at least %.1f in any order", float64(s.Cost())/10, float64(s.Least())/10)
	default:
		text += fmt.Sprintf(", at least %d in any order", s.Least())
	}
	if p := r.Printed; len(p.Written()) > 0 {
		text += fmt.Sprintf(" (printed order: %d", p.Tally().Changes)
		if n := len(p.Late()); n > 0 {
			text += fmt.Sprintf(", and %d out of turn", n)
		}
		text += ")"
	}
	return text
}

func needLines(r making.Result, u unit.Unit) []string {
	var threads, rest []string
	for _, t := range r.Needs.Threads() {
		threads = append(threads, fmt.Sprintf("%s %s", t.Name, unit.Format(t.Length, unit.Metre)))
	}
	for _, i := range r.Needs.Items() {
		text := i.Title
		if i.Count > 1 {
			text = fmt.Sprintf("%d × %s", i.Count, text)
		}
		if i.Length > 0 {
			text += " " + unit.Format(i.Length, u)
		}
		rest = append(rest, text)
	}
	return []string{strings.Join(threads, ", "), strings.Join(rest, ", ")}
}

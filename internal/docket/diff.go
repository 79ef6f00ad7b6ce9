package docket

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"gusset/internal/pattern"
)

// Diff says in words what another docket asks for that this one does not: the
// lines of the difference. How sheets and reports are written is no part of it.
func Diff(a, b Docket) []string {
	var out []string
	for _, f := range []struct{ what, a, b string }{
		{"body", a.Body, b.Body},
		{"pattern", a.Pattern, b.Pattern},
		{"view", a.View, b.View},
		{"size", a.Size.words(), b.Size.words()},
		{"fold", a.Fold, b.Fold},
		{"table", length(a.Table), length(b.Table)},
		{"off the grain", a.OffGrain.words(), b.OffGrain.words()},
		{"button", a.Button.words(), b.Button.words()},
		{"matched", matched(a), matched(b)},
		{"held in the order", pinned(a.Pins), pinned(b.Pins)},
	} {
		out = append(out, differ(f.what, f.a, f.b)...)
	}
	out = append(out, differing("cloth for ", stringed(a.Cloths), stringed(b.Cloths))...)
	out = append(out, differing("method of ", a.Methods, b.Methods)...)
	out = append(out, differing("fitting ", fitted(a.Fittings), fitted(b.Fittings))...)
	out = append(out, differing("thread for ", a.Threads, b.Threads)...)
	return append(out, diffChanges(a.Changes, b.Changes)...)
}

// differ says how one thing differs; nothing where it does not.
func differ(what, was, is string) []string {
	switch {
	case was == is:
		return nil
	case was == "":
		return []string{fmt.Sprintf("%s: %s, new", what, is)}
	case is == "":
		return []string{fmt.Sprintf("%s: none, was %s", what, was)}
	}
	return []string{fmt.Sprintf("%s: %s, was %s", what, is, was)}
}

// fitted says each fitting by its name: how it is made and what may be altered at
// it.
func fitted(list []pattern.Fitting) map[string]string {
	out := map[string]string{}
	for _, f := range list {
		text := f.Method
		if len(f.Joins) > 0 {
			text += " of " + strings.Join(f.Joins, ", ")
		}
		out[f.ID] = text
	}
	return out
}

func (g OffGrain) words() string {
	if g.UpTo == 0 {
		return ""
	}
	text := fmt.Sprintf("up to %g°", g.UpTo)
	if len(g.Pieces) > 0 {
		text += ", besides hidden pieces " + strings.Join(g.Pieces, ", ")
	}
	return text
}

func (b Button) words() string {
	if b.Diameter.IsZero() && b.Thickness.IsZero() {
		return ""
	}
	return fmt.Sprintf("%s across, %s thick", b.Diameter, b.Thickness)
}

// matched says what stripes are matched at, empty where the pattern's view
// does.
func matched(d Docket) string {
	if !d.OwnMatches {
		return ""
	}
	var list []string
	for _, m := range d.Matches {
		at := m.Point
		if at == "" {
			at = m.At.String()
		}
		text := m.Join + " at " + at
		switch {
		case !m.Across:
			text += " along the cloth"
		case !m.Along:
			text += " across the cloth"
		}
		list = append(list, text)
	}
	if len(list) == 0 {
		return "nothing"
	}
	return strings.Join(list, ", ")
}

func pinned(list []Pin) string {
	var out []string
	for _, p := range list {
		switch {
		case p.First:
			out = append(out, p.Step.String()+" first")
		case p.Last:
			out = append(out, p.Step.String()+" last")
		default:
			out = append(out, p.Step.String()+" before "+p.Before.String())
		}
	}
	return strings.Join(out, ", ")
}

func (s Size) words() string {
	if len(s.Zones) == 0 {
		if s.All == "" {
			return Auto
		}
		return s.All
	}
	var words []string
	if s.All != "" {
		words = append(words, s.All)
	}
	for _, z := range slices.Sorted(maps.Keys(s.Zones)) {
		words = append(words, z+" "+s.Zones[z])
	}
	return strings.Join(words, ", ")
}

func stringed[K ~string](m map[K]string) map[string]string {
	out := map[string]string{}
	for k, v := range m {
		out[string(k)] = v
	}
	return out
}

func differing(head string, a, b map[string]string) []string {
	keys := map[string]bool{}
	for k := range a {
		keys[k] = true
	}
	for k := range b {
		keys[k] = true
	}
	var out []string
	for _, k := range slices.Sorted(maps.Keys(keys)) {
		out = append(out, differ(head+k, a[k], b[k])...)
	}
	return out
}

// diffChanges compares recipes by the steps' names: what is new, gone, said
// otherwise, or done in another order.
func diffChanges(a, b []Change) []string {
	was := map[string]Change{}
	for _, c := range a {
		was[c.ID] = c
	}
	var out, kept []string
	is := map[string]bool{}
	for _, c := range b {
		is[c.ID] = true
		old, known := was[c.ID]
		switch {
		case !known:
			out = append(out, "step "+c.ID+" is new: "+Written(c))
		case Written(old) != Written(c):
			out = append(out, "step "+c.ID+" is "+Written(c)+", was "+Written(old))
		}
		if known {
			kept = append(kept, c.ID)
		}
	}
	var before []string
	for _, c := range a {
		if !is[c.ID] {
			out = append(out, "step "+c.ID+" is gone: "+Written(c))
		} else {
			before = append(before, c.ID)
		}
	}
	if !slices.Equal(kept, before) {
		out = append(out, "the steps are done in another order: "+strings.Join(kept, ", "))
	}
	return out
}

package docket

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// Diff says in words what another docket asks for that this one does not: the
// lines of the difference, in the order of a docket's keys.
func Diff(a, b Docket) []string {
	var out []string
	for _, f := range []struct{ what, a, b string }{
		{"body", a.Body, b.Body},
		{"pattern", a.Pattern, b.Pattern},
		{"view", a.View, b.View},
		{"size", a.Size.words(), b.Size.words()},
		{"fold", a.Fold, b.Fold},
		{"table", a.Table.String(), b.Table.String()},
	} {
		if f.a != f.b {
			out = append(out, fmt.Sprintf("%s: %s, was %s", f.what, f.b, f.a))
		}
	}
	out = append(out, differing("cloth for ", stringed(a.Cloths), stringed(b.Cloths))...)
	out = append(out, differing("method of ", a.Methods, b.Methods)...)
	return append(out, diffChanges(a.Changes, b.Changes)...)
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
		switch x, y := a[k], b[k]; {
		case x == y:
		case x == "":
			out = append(out, fmt.Sprintf("%s%s: %s, new", head, k, y))
		case y == "":
			out = append(out, fmt.Sprintf("%s%s: none, was %s", head, k, x))
		default:
			out = append(out, fmt.Sprintf("%s%s: %s, was %s", head, k, y, x))
		}
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

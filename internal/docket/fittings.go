package docket

import (
	"strings"

	"gusset/internal/pattern"
)

// fittings reads the fittings that this make has besides those of the pattern.
// Whether the joins and the method are there is for package making to say.
func (r reader) fittings() []pattern.Fitting {
	if !r.m.Has("fittings") {
		return nil
	}
	var list []pattern.Fitting
	for _, e := range r.m.Entries("fittings") {
		m := e.Value.Reader(r.out)
		f := pattern.Fitting{ID: nameOf(e.Name, r.out), Place: e.Value.Place()}
		f.Title = m.StringOr("title", strings.ReplaceAll(e.Key, "-", " "))
		f.Method = nameOf(m.Required().Key("method"), r.out)
		f.Joins = m.Strings("joins")
		m.Done()
		if f.ID != "" {
			list = append(list, f)
		}
	}
	return list
}

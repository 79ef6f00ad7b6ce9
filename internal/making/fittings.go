package making

import (
	"slices"

	"gusset/internal/pattern"
)

// fittings puts the docket's own fittings beside those of its view, or in place
// of one that has the same name. What they name must be there.
func (r *room) fittings(in *Inputs) {
	i := slices.IndexFunc(in.Pattern.Views, func(v pattern.View) bool { return v.Name == in.Docket.View })
	if i < 0 || len(in.Docket.Fittings) == 0 {
		return
	}
	in.Pattern.Views = slices.Clone(in.Pattern.Views)
	v := &in.Pattern.Views[i]
	v.Fittings = slices.Clone(v.Fittings)
	for _, f := range in.Docket.Fittings {
		if _, ok := in.Methods.Find(f.Method); !ok && f.Method != "" {
			r.found = append(r.found, noMethod.At(f.Place, f.Method, meant(f.Method, in.Methods.Names())))
			continue
		}
		joins := make([]string, len(v.Joins))
		for k, j := range v.Joins {
			joins[k] = j.ID
		}
		for _, id := range f.Joins {
			if !slices.Contains(joins, id) {
				r.found = append(r.found, noJoin.At(f.Place, v.Name, id, meant(id, joins)))
			}
		}
		same := slices.IndexFunc(v.Fittings, func(old pattern.Fitting) bool { return old.ID == f.ID })
		switch {
		case same >= 0:
			v.Fittings[same] = f
		case slices.Contains(items(*v), f.ID):
			r.found = append(r.found, itemTaken.At(f.Place, v.Name, f.ID))
		default:
			v.Fittings = append(v.Fittings, f)
		}
	}
}

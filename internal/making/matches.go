package making

import (
	"slices"

	"gusset/internal/pattern"
)

// matches puts the docket's own matches in the place of the view's, those that
// the view can have.
func (r *room) matches(in *Inputs) {
	if !in.Docket.OwnMatches {
		return
	}
	i := slices.IndexFunc(in.Pattern.Views, func(v pattern.View) bool { return v.Name == in.Docket.View })
	if i < 0 {
		return
	}
	var own []pattern.Match
	for _, m := range in.Docket.Matches {
		if found := in.Pattern.CheckMatch(in.Pattern.Views[i], m); len(found) > 0 {
			r.found = append(r.found, found...)
			continue
		}
		own = append(own, m)
	}
	in.Pattern.Views = slices.Clone(in.Pattern.Views)
	in.Pattern.Views[i].Matches = own
}

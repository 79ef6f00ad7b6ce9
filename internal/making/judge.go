package making

import (
	"slices"

	"gusset/internal/finding"
	"gusset/internal/order"
	"gusset/internal/reach"
)

// Judge sets an order of work that the user has written down beside the
// garment of a result that went as far as the order.
func (r Result) Judge(in Inputs, f order.File) (order.Judged, finding.List) {
	v := r.Plan.Garment().View
	known := items(v)
	var out finding.List
	for _, s := range f.Steps {
		if !slices.Contains(known, s.Item) {
			out = append(out, noItem.At(s.Place, v.Name, s.Item, meant(s.Item, known)))
		}
	}
	if out.Stops() > 0 {
		return order.Judged{}, out
	}
	j, found := order.Judge("written", f.Steps, r.Plan.Operations(), reach.Look(r.Plan, in.Machines).Conditions(), order.TimesOf(in.Machines))
	return j, append(out, found...)
}

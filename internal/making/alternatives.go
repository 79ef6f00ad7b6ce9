package making

import "gusset/internal/fit"

// Alternatives returns what other ways of taking the pattern's sizes would give
// the docket's body, side by side; none where the docket, body or pattern could
// not be read.
func Alternatives(in Inputs) []fit.Alternative {
	return fit.Alternatives(in.Pattern, in.Docket.View, in.Body, sizeChoice(in))
}

// sizeChoice is the docket's choice of sizes with its places.
func sizeChoice(in Inputs) fit.Choice {
	d := in.Docket
	return fit.Choice{All: d.Size.All, Zones: d.Size.Zones, Unit: d.Unit, Places: sizePlaces(in)}
}

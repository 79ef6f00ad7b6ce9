package making

import (
	"maps"
	"slices"

	"gusset/internal/docket"
	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/unit"
)

// The values by which methods know a button.
const (
	buttonValue    = "button"
	thicknessValue = "button-thickness"
)

// withButton gives the closures and parts that have buttonholes the button as
// the docket has measured it: what is worked must be what is bought.
func withButton(g pattern.Garment, methods method.Library, b docket.Button) pattern.Garment {
	if b.Diameter.IsZero() {
		return g
	}
	v := &g.View
	v.Closures, v.Parts = slices.Clone(v.Closures), slices.Clone(v.Parts)
	for i, c := range v.Closures {
		v.Closures[i].Values = measured(c.Values, c.Method, methods, b)
	}
	for i, p := range v.Parts {
		v.Parts[i].Values = measured(p.Values, p.Method, methods, b)
	}
	return g
}

func measured(values map[string]unit.Length, name string, methods method.Library, b docket.Button) map[string]unit.Length {
	m, _ := methods.Find(name)
	_, wide := m.Values[buttonValue]
	_, thick := m.Values[thicknessValue]
	if !wide || !thick {
		return values
	}
	out := maps.Clone(values)
	if out == nil {
		out = map[string]unit.Length{}
	}
	out[buttonValue], out[thicknessValue] = b.Diameter, b.Thickness
	return out
}

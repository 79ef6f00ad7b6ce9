package docket

import "gusset/internal/unit"

// Spools are the threads whose colour a docket may name.
var Spools = []string{"main", "topstitch", "overlock", "hand"}

// Button is a button as measured.
type Button struct{ Diameter, Thickness unit.Length }

// Bounds of buttons, in mm.
const (
	leastButton = 4
	mostButton  = 80
)

// button reads the size of the buttons.
func (r reader) button() Button {
	if !r.m.Has("button") {
		return Button{}
	}
	m := r.m.Map("button")
	b := Button{Diameter: m.Required().Length("diameter", "", leastButton, mostButton), Thickness: m.Required().Length("thickness", "", 0.5, mostButton)}
	m.Done()
	return b
}

// colours reads what colour each thread has.
func (r reader) colours() map[string]string {
	out := map[string]string{}
	if !r.m.Has("threads") {
		return out
	}
	m := r.m.Map("threads")
	for _, name := range Spools {
		if m.Has(name) {
			out[name] = m.String(name)
		}
	}
	m.Done()
	return out
}

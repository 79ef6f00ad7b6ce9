package docket

import (
	"gusset/internal/finding"
	"gusset/internal/pattern"
	"gusset/internal/source"
)

var (
	badStep = finding.Kind{
		Code: "docket.bad-step", Severity: finding.Stop,
		Text: "%[1]s",
		Mend: "write outseam, fly.outside or outseam.sew@left",
	}
	badPin = finding.Kind{
		Code: "docket.bad-pin", Severity: finding.Stop,
		Text: "the pin of %[1]s says %[2]d of first, last and before",
		Mend: "say one of them: first: yes, last: yes, or before: and a step",
	}
)

// pins reads the steps that are held in their place.
func (r reader) pins() []Pin {
	if !r.m.Has("order") {
		return nil
	}
	m := r.m.Map("order")
	var list []Pin
	m.Each("pins", func(_ int, n source.Node) {
		before := len(*r.out)
		if p := r.pin(n.Reader(r.out)); len(*r.out) == before {
			list = append(list, p)
		}
	})
	m.Done()
	return list
}

func (r reader) pin(m *source.Map) Pin {
	p := Pin{Place: m.Place(), Step: r.step(m.Required().Key("step")), First: m.Yes("first"), Last: m.Yes("last")}
	said := 0
	for _, where := range []bool{p.First, p.Last, m.Has("before")} {
		if where {
			said++
		}
	}
	if m.Has("before") {
		p.Before = r.step(m.Key("before"))
	}
	m.Done()
	if said != 1 {
		*r.out = append(*r.out, badPin.At(p.Place, p.Step.String(), said))
	}
	return p
}

func (r reader) step(n source.Node) pattern.Step {
	text, ok := n.Text(r.out)
	if !ok {
		return pattern.Step{}
	}
	s, err := pattern.ParseStep(text)
	if err != nil {
		*r.out = append(*r.out, badStep.At(n.Place(), err.Error()))
	}
	s.Place = n.Place()
	return s
}

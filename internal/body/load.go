package body

import (
	"maps"
	"slices"

	"gusset/internal/finding"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// Version is the newest version of body files that is read.
const Version = 1

// WaistKinds lists the waists a body may state.
var WaistKinds = []string{"natural", "midway"}

// Load reads a body file. What is unsound is left out of the body and told in
// the findings; a body without a Stop finding has at least one measure, all of
// them within their Ranges.
func Load(f source.File) (Body, finding.List) {
	root, out := source.ParseYAML(f, "body", Version)
	b := Body{Name: f.Name(), Against: Both, Measures: map[Measure]unit.Length{}, Readings: map[Measure][]unit.Length{},
		Places: map[Measure]finding.Place{}}
	if !root.Exists() {
		return b, out
	}
	m := root.Reader(&out)
	b.Place = m.Place()
	b.Title = m.StringOr("title", b.Name)
	b.WaistAt = m.Word("waist-at", WaistKinds...)
	b.Child = m.Yes("child")
	b.Against = m.WordOr("against", Both, AgainstWords...)
	before := len(out)
	measures(m.Required().Map("measures"), &out, &b)
	for _, w := range m.Words("checked", names()...) {
		b.Checked = append(b.Checked, Measure(w))
	}
	m.Done()
	if len(b.Measures) == 0 && len(out) == before {
		out = append(out, noMeasures.At(m.Key("measures").Place()))
	}
	if _, ok := b.Measures[Waist]; ok && !m.Has("waist-at") {
		out = append(out, noWaistAt.At(b.Places[Waist]))
	}
	return b, append(out, b.doubts()...)
}

// measures reads every known measure within its range: one reading, or a list
// of them.
func measures(m *source.Map, out *finding.List, b *Body) {
	for _, name := range Measures() {
		n := m.Key(string(name))
		if !n.Exists() {
			continue
		}
		each := []source.Node{n}
		if n.IsList() {
			each = n.Items(out)
		}
		var read []unit.Length
		for _, n := range each {
			if l, ok := n.Length(out, "", Ranges[name].Low, Ranges[name].High); ok {
				read = append(read, l)
			}
		}
		if len(read) == len(each) && len(read) > 0 {
			b.Readings[name], b.Measures[name], b.Places[name] = read, counted(read), n.Place()
		}
	}
	m.Done()
}

// Measures lists every measurement in the order of the alphabet.
func Measures() []Measure { return slices.Sorted(maps.Keys(Ranges)) }

// names lists the names of the measurements.
func names() []string {
	var all []string
	for _, m := range Measures() {
		all = append(all, string(m))
	}
	return all
}

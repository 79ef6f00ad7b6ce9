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

var (
	noMeasures = finding.Kind{
		Code: "body.no-measures", Severity: finding.Stop,
		Text: "no measure of this body can be read",
		Mend: "write the measures with their units, such as hip: 98.5 cm",
	}
	noWaistAt = finding.Kind{
		Code: "body.no-waist-at", Severity: finding.Stop,
		Text: "a waist is given, but not where it was measured",
		Mend: "write waist-at: natural (where a belt settles) or waist-at: midway (between lowest rib and hip bone)",
	}
	unlikely = finding.Kind{
		Code: "body.unlikely", Severity: finding.Warn,
		Text: "%[1]s (%[2]s) is larger than %[3]s (%[4]s)",
		Mend: "measure both again, and check their units",
	}
)

// smaller lists pairs of measures of which the first is the smaller on nearly
// every body (common practice); the other way round the two were swapped or a
// unit is wrong.
var smaller = [][2]Measure{
	{Knee, Thigh}, {Ankle, Calf}, {Ankle, Knee}, {Thigh, Hip}, {Neck, HighBust},
	{InsideLeg, OutsideLeg}, {OutsideLeg, Height}, {InsideLeg, Height}, {UpperArm, Bust},
	{Shoulder, BackWidth}, {BodyRise, InsideLeg},
}

// Load reads a body file. What is unsound is left out of the body and told in
// the findings; a body without a Stop finding has at least one measure, all of
// them within their Ranges.
func Load(f source.File) (Body, finding.List) {
	root, out := source.ParseYAML(f, "body", Version)
	b := Body{Name: f.Name(), Measures: map[Measure]unit.Length{}, Places: map[Measure]finding.Place{}}
	if !root.Exists() {
		return b, out
	}
	m := root.Reader(&out)
	b.Place = m.Place()
	b.Title = m.StringOr("title", b.Name)
	b.WaistAt = m.Word("waist-at", WaistKinds...)
	b.Child = m.Yes("child")
	before := len(out)
	measures(m.Required().Map("measures"), &b)
	m.Done()
	if len(b.Measures) == 0 && len(out) == before {
		out = append(out, noMeasures.At(m.Key("measures").Place()))
	}
	if _, ok := b.Measures[Waist]; ok && !m.Has("waist-at") {
		out = append(out, noWaistAt.At(b.Places[Waist]))
	}
	return b, append(out, proportions(b)...)
}

// measures reads every known measure within its range.
func measures(m *source.Map, b *Body) {
	for _, name := range Measures() {
		n := m.Key(string(name))
		r := Ranges[name]
		if !n.Exists() {
			continue
		}
		if l := m.Length(string(name), "", r.Low, r.High); !l.IsZero() {
			b.Measures[name], b.Places[name] = l, n.Place()
		}
	}
	m.Done()
}

func proportions(b Body) finding.List {
	var out finding.List
	for _, p := range smaller {
		s, okS := b.Measures[p[0]]
		l, okL := b.Measures[p[1]]
		if okS && okL && s.MM() > l.MM() {
			f := unlikely.At(b.Places[p[0]], p[0], s, p[1], l)
			out = append(out, f.Note(b.Places[p[1]], "%s is here", p[1]))
		}
	}
	return out
}

// Measures lists every measurement in the order of the alphabet.
func Measures() []Measure { return slices.Sorted(maps.Keys(Ranges)) }

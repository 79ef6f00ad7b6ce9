package docket

import (
	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/pattern"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// Version is the newest version of docket files that is read.
const Version = 1

// Auto leaves a choice to the program.
const Auto = "auto"

// Folds lists the ways of folding that may be asked for.
var Folds = []string{Auto, "open", "lengthwise", "part-fold", "crosswise", "turned", "two-folds"}

// Units lists the units in which reports may be written.
var Units = []unit.Unit{unit.Centimetre, unit.Millimetre, unit.Inch}

// The paper for the large sheet when the docket does not say: a common width
// of plotter and wrapping paper (common practice).
var usualRoll = unit.Of(90, unit.Centimetre)

// Load reads a docket file. It looks at the docket alone: whether the body, the
// pattern, the view and the items it names exist is for those who have them.
// What is unsound is left out and told in the findings.
func Load(f source.File) (Docket, finding.List) {
	root, out := source.ParseYAML(f, "docket", Version)
	d := Docket{
		Name: f.Name(), Places: map[string]finding.Place{},
		Cloths: map[cloth.Role]string{}, Methods: map[string]string{},
	}
	if !root.Exists() {
		return d, out
	}
	m := root.Reader(&out)
	d.Place = m.Place()
	d.Title = m.StringOr("title", d.Name)
	r := reader{m: m, out: &out, places: d.Places}
	d.Body = r.name("body")
	d.Pattern = r.name("pattern")
	d.View = r.name("view")
	r.cloths(d.Cloths)
	r.methods(d.Methods)
	d.Size = r.size()
	d.Changes = r.changes()
	d.Notes = r.notes()
	if m.Has("after") {
		d.After = r.name("after")
	}
	d.Fittings = r.fittings()
	if d.OwnMatches = m.Has("match"); d.OwnMatches {
		d.Matches = pattern.ReadMatches(m, &out)
	}
	d.Pins = r.pins()
	d.Button = r.button()
	d.Threads = r.colours()
	d.Table = m.Length("table", "", 200, 100_000)
	d.Fold = m.WordOr("fold", Auto, Folds...)
	d.OffGrain = r.offGrain()
	d.Roll = m.LengthOr("roll", "", 200, 5000, usualRoll)
	d.Unit = unit.Unit(m.WordOr("unit", string(unit.Centimetre), unitWords()...))
	for _, key := range []string{"table", "fold", "off-grain", "roll", "unit"} {
		if m.Has(key) {
			d.Places[key] = m.Key(key).Place()
		}
	}
	m.Done()
	return d, out
}

// reader reads the parts of one docket and keeps their places.
type reader struct {
	m      *source.Map
	out    *finding.List
	places map[string]finding.Place
}

// name reads a required key whose value is the name of something.
func (r reader) name(key string) string {
	n := r.m.Required().Key(key)
	r.places[key] = n.Place()
	return nameOf(n, r.out)
}

func (r reader) cloths(into map[cloth.Role]string) {
	m := r.m.Required().Map("cloths")
	for _, role := range cloth.Roles {
		n := m.Key(string(role))
		if !n.Exists() {
			continue
		}
		r.places["cloth."+string(role)] = n.Place()
		if name := nameOf(n, r.out); name != "" {
			into[role] = name
		}
	}
	m.Done()
}

// methods reads which method is used instead, by item id.
func (r reader) methods(into map[string]string) {
	if !r.m.Has("methods") {
		return
	}
	for _, e := range r.m.Entries("methods") {
		r.places["method."+e.Key] = e.Value.Place()
		if name := nameOf(e.Value, r.out); name != "" {
			into[e.Key] = name
		}
	}
}

// mostOffGrain is the most a piece may lie off the grain, in degrees: on the
// bias it lies at 45.
const mostOffGrain = 45

func (r reader) offGrain() OffGrain {
	if !r.m.Has("off-grain") {
		return OffGrain{}
	}
	m := r.m.Map("off-grain")
	g := OffGrain{UpTo: m.Required().Float("up-to", 0, mostOffGrain), Pieces: m.Strings("pieces")}
	m.Done()
	return g
}

// size reads the size choice: auto, one label for all, or one for each zone.
func (r reader) size() Size {
	n := r.m.Key("size")
	r.places["size"] = n.Place()
	if !n.IsMapping() {
		text := sizeText(n, r.out)
		if text == Auto {
			text = ""
		}
		return Size{All: text}
	}
	s := Size{Zones: map[string]string{}}
	for _, e := range n.Entries(r.out) {
		r.places["size."+e.Key] = e.Value.Place()
		if text := sizeText(e.Value, r.out); text != "" {
			s.Zones[e.Key] = text
		}
	}
	return s
}

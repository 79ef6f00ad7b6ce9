package method

import (
	"regexp"

	"gusset/internal/body"
	"gusset/internal/finding"
	"gusset/internal/machine"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// Version is the newest version of method files that is read.
const Version = 1

// TurnOfCloth is the value that is always there: what the cloth's thickness
// takes at each fold.
const TurnOfCloth = "turn-of-cloth"

// What a method's sides may be called: those of a join in order ("more" for
// the third and later plies), and the one of a finish.
var (
	JoinSides   = []string{"a", "b", "more"}
	FinishSides = []string{"edge"}
)

// Threads and places of stitch lines that operations may name.
var (
	Threads = []string{"main", "topstitch"}
	OnWords = []string{"seam", "a", "b", "more", "edge", "none"}
	AtWords = []string{"top", "foot"}
)

// mostValue bounds a method's own lengths, in mm.
const mostValue = 500

// seamForm is the form of a seam designation: class, material configuration,
// needle penetrations, as in 2.04.06. Source: ISO 4916:1991, Textiles, seam
// types, classification and terminology.
var seamForm = regexp.MustCompile(`^[1-8]\.[0-9]{2}\.[0-9]{2}$`)

// ValidSeam reports whether the text has the form of an ISO 4916 number.
func ValidSeam(number string) bool { return seamForm.MatchString(number) }

// Load reads a method file. What is unsound is left out and told in the
// findings.
func Load(f source.File) (Method, finding.List) {
	root, out := source.ParseYAML(f, "method", Version)
	v := Method{Name: f.Name(), Values: map[string]unit.Length{}, Allowance: map[string][]string{}}
	if !root.Exists() {
		return v, out
	}
	m := root.Reader(&out)
	r := reader{m: m, out: &out}
	v.Place = m.Place()
	v.Title = m.StringOr("title", v.Name)
	v.Takes = Takes(m.Required().Word("takes", words(AllTakes)...))
	v.Family = r.word("family")
	v.Seam = r.seam()
	r.values(v.Values)
	r.allowance(&v)
	v.Folds = r.folds(v)
	v.Outside = m.Yes("outside")
	v.Corner = Corner(m.WordOr("corner", string(Natural), words(Corners)...))
	r.joining(&v)
	v.Repeat = r.repeat(v)
	v.InsteadOf = r.instead()
	v.Pieces = r.pieces(v)
	v.Shut = r.shut(v)
	v.Over = r.over(v)
	v.Operations = r.operations(v)
	v.Notions = r.notions(v)
	m.Done()
	return v, out
}

// shut reads whether a closure closes its opening for good.
func (r reader) shut(v Method) bool {
	if r.m.Has("shut") && v.Takes != Closure {
		r.add(shutElsewhere.At(r.m.Key("shut").Place(), v.Takes))
	}
	return r.m.Yes("shut")
}

// over reads what a garment without its opening must pass.
func (r reader) over(v Method) body.Measure {
	if r.m.Has("over") && !v.Shut {
		r.add(overElsewhere.At(r.m.Key("over").Place()))
	}
	return body.Measure(r.m.Word("over", words(body.Measures())...))
}

// reader reads the parts of one method.
type reader struct {
	m   *source.Map
	out *finding.List
}

func (r reader) add(f finding.Finding) { *r.out = append(*r.out, f) }

func (r reader) seam() string {
	n := r.m.Key("seam")
	s, ok := n.Text(r.out)
	if ok && s != "" && !ValidSeam(s) {
		r.add(badSeam.At(n.Place(), s))
		return ""
	}
	return s
}

func (r reader) values(into map[string]unit.Length) {
	if !r.m.Has("values") {
		return
	}
	for _, e := range r.m.Entries("values") {
		if e.Key == TurnOfCloth {
			r.add(ownTurn.At(e.Name.Place()))
			continue
		}
		if l, ok := e.Value.Length(r.out, "", -mostValue, mostValue); ok {
			into[e.Key] = l
		}
	}
}

// allowance reads, for each side, the names of values that add up to it.
func (r reader) allowance(v *Method) {
	if !r.m.Has("allowance") {
		return
	}
	m := r.m.Map("allowance")
	sides := JoinSides
	if v.Takes == Finish {
		sides = FinishSides
	}
	for _, side := range sides {
		if m.Has(side) {
			v.Allowance[side] = r.names(m.Key(side), *v)
		}
	}
	m.Done()
}

// folds reads the depths of the turns; each must be a value by itself.
func (r reader) folds(v Method) []string {
	if !r.m.Has("folds") {
		return nil
	}
	n := r.m.Key("folds")
	if v.Takes != Finish {
		r.add(foldsElsewhere.At(n.Place(), v.Takes))
	}
	list := r.names(n, v)
	for i, item := range n.Items(&finding.List{}) {
		if s, _ := item.Text(&finding.List{}); s == TurnOfCloth || v.Values[s].MM() < 0 {
			r.add(badFold.At(item.Place(), i+1, s))
		}
	}
	return list
}

// names reads a list of value names that must exist.
func (r reader) names(list source.Node, v Method) []string {
	known := append(sortedKeys(v.Values), TurnOfCloth)
	var out []string
	for _, n := range list.Items(r.out) {
		s, ok := n.Text(r.out)
		if !ok {
			continue
		}
		if _, have := v.Values[s]; !have && s != TurnOfCloth {
			r.add(unknownValue.At(n.Place(), s, meant(s, known)))
			continue
		}
		out = append(out, s)
	}
	return out
}

// machineWords are the kinds of places an operation may be done at.
var machineWords = machine.KindWords()

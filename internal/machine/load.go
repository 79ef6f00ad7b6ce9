package machine

import (
	"regexp"

	"gusset/internal/finding"
	"gusset/internal/source"
)

// Version is the newest version of machine files that is read.
const Version = 1

var (
	badStitch = finding.Kind{
		Code: "machine.stitch-number", Severity: finding.Stop,
		Text: "%[1]q is not a stitch number of ISO 4915",
		Mend: "write three digits in quotes, the first from 1 to 6, such as \"301\"",
	}
	noStitches = finding.Kind{
		Code: "machine.no-stitches", Severity: finding.Stop,
		Text: "a %[1]s sews, but no stitch of it is listed",
		Mend: "list its stitches by their numbers, such as stitches: [\"301\"]",
	}
	idleStitches = finding.Kind{
		Code: "machine.idle-stitches", Severity: finding.Stop,
		Text: "stitches are listed, but a place of the kind %[1]s makes none",
		Mend: "take the stitches out, or correct the kind",
	}
)

// stitchForm is the form of a stitch designation: the class (100 chainstitch,
// 200 hand, 300 lockstitch, 400 multi-thread chainstitch, 500 overedge, 600
// covering) and two digits for the type. Source: ISO 4915:1991, Textiles,
// stitch types, classification and terminology.
var stitchForm = regexp.MustCompile(`^[1-6][0-9]{2}$`)

// ValidStitch reports whether the text has the form of an ISO 4915 stitch
// number.
func ValidStitch(number string) bool { return stitchForm.MatchString(number) }

// Sews reports whether the kind of place makes stitches.
func (k Kind) Sews() bool { return k == Lockstitch || k == Overlocker || k == Hand }

// KindWords lists the kinds as words of a file.
func KindWords() []string {
	words := make([]string, len(Kinds))
	for i, k := range Kinds {
		words[i] = string(k)
	}
	return words
}

// Load reads a machine file. What is unsound is left out and told in the
// findings.
func Load(f source.File) (Machine, finding.List) {
	root, out := source.ParseYAML(f, "machine", Version)
	k := Machine{Name: f.Name()}
	if !root.Exists() {
		return k, out
	}
	m := root.Reader(&out)
	k.Place = m.Place()
	k.Title = m.StringOr("title", k.Name)
	k.Kind = Kind(m.Required().Word("kind", KindWords()...))
	before := len(out)
	if m.Has("stitches") {
		k.Stitches = stitches(m.Items("stitches"), &out)
	}
	k.ArmGirth = m.Length("arm-girth", "", 50, 2000)
	k.ArmLength = m.Length("arm-length", "", 10, 1000)
	k.Throat = m.Length("throat", "", 10, 2000)
	k.ThroatHeight = m.Length("throat-height", "", 10, 1000)
	k.FootLift = m.Length("foot-lift", "", 1, 50)
	if m.Has("minutes") {
		k.Minutes = minutes(m.Map("minutes"))
	}
	m.Done()
	switch {
	case len(out) > before:
	case (k.Kind == Lockstitch || k.Kind == Overlocker) && len(k.Stitches) == 0:
		out = append(out, noStitches.At(m.Key("kind").Place(), k.Kind))
	case k.Kind != "" && !k.Kind.Sews() && len(k.Stitches) > 0:
		out = append(out, idleStitches.At(m.Key("stitches").Place(), k.Kind))
	}
	return k, out
}

func stitches(items []source.Node, out *finding.List) []string {
	var list []string
	for _, n := range items {
		switch s, ok := n.Text(out); {
		case !ok:
		case !ValidStitch(s):
			*out = append(*out, badStitch.At(n.Place(), s))
		default:
			list = append(list, s)
		}
	}
	return list
}

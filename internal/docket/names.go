package docket

import (
	"regexp"

	"gusset/internal/finding"
	"gusset/internal/source"
)

var (
	badName = finding.Kind{
		Code: "docket.bad-name", Severity: finding.Stop,
		Text: "%[1]q is not a name: names are small letters, digits and hyphens, without folders or endings",
		Mend: "write the name of the file or item alone, such as quay",
	}
	badSize = finding.Kind{
		Code: "docket.bad-size", Severity: finding.Stop,
		Text: "%[1]q is not a size",
		Mend: "write auto, a printed size such as \"14\", or a number between two such as \"14.6\"",
	}
)

// nameForm is the form of the names of files and items. It has no dots and no
// slashes, so a name never leads out of the workroom.
var nameForm = regexp.MustCompile(`^[a-z0-9][a-z0-9-]{0,63}$`)

// sizeForm is the form of a size: a printed label or a number between.
var sizeForm = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9./-]{0,15}$`)

func nameOf(n source.Node, out *finding.List) string {
	s, ok := n.Text(out)
	if ok && !nameForm.MatchString(s) {
		*out = append(*out, badName.At(n.Place(), s))
		return ""
	}
	return s
}

// sizeText reads a size; "" when there is none or it is unsound.
func sizeText(n source.Node, out *finding.List) string {
	s, ok := n.Label(out)
	if ok && !sizeForm.MatchString(s) {
		*out = append(*out, badSize.At(n.Place(), s))
		return ""
	}
	return s
}

func unitWords() []string {
	words := make([]string, len(Units))
	for i, u := range Units {
		words[i] = string(u)
	}
	return words
}

package making

import (
	"gusset/internal/body"
	"gusset/internal/construct"
	"gusset/internal/finding"
	"gusset/internal/unit"
)

var (
	cannotPutOn = finding.Kind{
		Code: "making.cannot-put-on", Severity: finding.Stop,
		Text: "%[1]s is %[2]s round and has no opening, but must pass the %[3]s, which is %[4]s",
		Mend: "let out the seams that run into it, from the %[3]s up, by %[5]s altogether, or keep an opening",
	}
	passUnknown = finding.Kind{
		Code: "making.put-on-unknown", Severity: finding.Warn,
		Text: "%[1]s is %[2]s round and has no opening, but must pass the %[3]s, which is not measured",
		Mend: "measure the %[3]s before cutting",
	}
)

// putOn compares the edges that have no opening with what they must pass. A
// woven cloth is taken not to stretch.
func putOn(openings []construct.Opening, b body.Body, u unit.Unit) finding.List {
	var out finding.List
	for _, o := range openings {
		mm, known := b.MM(o.Over)
		switch {
		case !known:
			out = append(out, passUnknown.At(o.Place, o.Title, unit.Format(o.Round, u), o.Over))
		case o.Round < mm:
			out = append(out, cannotPutOn.At(o.Place, o.Title, unit.Format(o.Round, u), o.Over, unit.Format(mm, u), unit.Format(mm-o.Round, u)))
		}
	}
	return out
}

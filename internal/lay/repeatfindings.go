package lay

import "gusset/internal/finding"

// What there is to say of cloth that repeats.
var (
	unmatched = finding.Kind{
		Code: "lay.unmatched", Severity: finding.Warn,
		Text: "%[1]s cannot be matched %[2]s beside the other matches: the two places miss each other by %[3]s in the repeat",
		Mend: "leave it out or match it for the other repeat only; of matches that contradict each other the one listed first is kept",
	}
	uneven = finding.Kind{
		Code: "lay.uneven", Severity: finding.Advice,
		Text: "the repeat of %[1]s is uneven, so the tops of all pieces point one way",
	}
	barUnknown = finding.Kind{
		Code: "lay.bar-unknown", Severity: finding.Advice,
		Text: "where bars lie that run along %[1]s is not told: the hands are matched at their seams but do not mirror each other, and the tops of all pieces point one way",
		Mend: "measure from the edge of the near selvedge to the middle of a main bar: bar: 3 cm",
	}
	unfolded = finding.Kind{
		Code: "lay.repeat-fold", Severity: finding.Advice,
		Text: "%[1]s is not folded %[2]s: %[3]s",
		Mend: "%[4]s",
	}
)

// repeatKinds lists them.
var repeatKinds = []finding.Kind{unmatched, uneven, barUnknown, unfolded}

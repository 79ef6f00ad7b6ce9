package lay

import "gusset/internal/finding"

// The findings of this package.
var (
	short = finding.Kind{
		Code: "lay.short", Severity: finding.Stop,
		Text: "the pieces need %.1[1]f cm of %[2]s and there are %.1[3]f cm: %.1[4]f cm too short",
		Mend: "take longer or wider cloth, or change what is made: shorter legs, fewer pockets, a facing from other cloth",
	}
	tooWide = finding.Kind{
		Code: "lay.too-wide", Severity: finding.Stop,
		Text: "%[1]s is %.1[2]f cm wide across the grain and %[3]s only %.1[4]f cm between its selvedges",
		Mend: "take wider cloth, or divide the piece by a seam",
	}
	badFold = finding.Kind{
		Code: "lay.fold", Severity: finding.Stop,
		Text: "the fold line of %[1]s does not run with its grain along one side of it, so the piece cannot be laid on a fold nor opened out",
		Mend: "draw the half to one side of an upright fold line",
	}
	badOutline = finding.Kind{
		Code: "lay.outline", Severity: finding.Stop,
		Text: "the cut line of %[1]s crosses itself or encloses nothing",
		Mend: "look at its allowances and corners",
	}
	stopped = finding.Kind{
		Code: "lay.stopped", Severity: finding.Stop,
		Text: "the laying was stopped before %[1]d of the pieces had found a place",
		Mend: "let it run longer",
	}
	refused = finding.Kind{
		Code: "lay.refused", Severity: finding.Stop,
		Text: "the pieces cannot be laid: %[1]s",
	}
	unwashed = finding.Kind{
		Code: "lay.unwashed", Severity: finding.Advice,
		Text: "%[1]s is not washed yet; the lay reckons with the %.1[2]f cm by %.1[3]f cm between the selvedges that washing leaves of it",
		Mend: "wash, dry and press it before cutting, then measure it again",
	}
	table = finding.Kind{
		Code: "lay.table", Severity: finding.Advice,
		Text: "the lay is %.1[1]f cm long and the table %.1[2]f cm",
		Mend: "roll up the far end and cut from the squared end on",
	}
)

// kinds lists all of them.
var kinds = []finding.Kind{short, tooWide, badFold, badOutline, stopped, refused, unwashed, table}

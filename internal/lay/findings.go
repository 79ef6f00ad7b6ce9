package lay

import "gusset/internal/finding"

// The findings of this package.
var (
	short = finding.Kind{
		Code: "lay.short", Severity: finding.Stop,
		Text: "the pieces need %[1]s of %[2]s and there are %[3]s: %[4]s too short",
		Mend: "take longer or wider cloth, or change what is made: shorter legs, fewer pockets, a facing from other cloth",
	}
	tooWide = finding.Kind{
		Code: "lay.too-wide", Severity: finding.Stop,
		Text: "%[1]s is %[2]s wide across the grain and %[3]s only %[4]s between its selvedges",
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
		Text: "%[1]s is not washed yet; the lay reckons with the %[2]s by %[3]s between the selvedges that washing leaves of it",
		Mend: "wash, dry and press it before cutting, then measure it again",
	}
	noRoom = finding.Kind{
		Code: "lay.no-room", Severity: finding.Stop,
		Text: "%[1]d of the pieces find no place on the remnant",
		Mend: "take a larger piece of cloth for them, or change what is made: shorter legs, fewer pockets, a facing from other cloth",
	}
	oneWay = finding.Kind{
		Code: "lay.one-way", Severity: finding.Warn,
		Text: "%[1]s is one-way cloth, and a crosswise fold turns the tops of the upper layer the other way",
		Mend: "it is laid cut and turned instead: cut along the fold and turn the upper layer end for end",
	}
	swung = finding.Kind{
		Code: "lay.turned", Severity: finding.Advice,
		Text: "cut the cloth across at %[1]s from the squared line and turn the upper layer end for end, right sides together; no fold is left, so half pieces are opened out and cut singly",
		Mend: "lay a thread or chalk arrow on both layers that points the way of the print or pile before cutting",
	}
	sectioned = finding.Kind{
		Code: "lay.sections", Severity: finding.Advice,
		Text: "the lay is cut in %[1]d sections, none longer than the table of %[2]s; that takes %[3]s more cloth than on a table as long as the lay",
		Mend: "lay, cut and take off one section before drawing up the cloth for the next",
	}
	table = finding.Kind{
		Code: "lay.table", Severity: finding.Advice,
		Text: "the lay is %[1]s long and the table %[2]s",
		Mend: "roll up the far end and cut from the squared end on",
	}
)

// kinds lists all of them.
var kinds = []finding.Kind{short, tooWide, badFold, badOutline, stopped, refused, unwashed, noRoom, oneWay, swung, sectioned, table}

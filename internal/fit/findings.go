package fit

import "gusset/internal/finding"

// The findings of fitting. Arguments are in the user's words.
var (
	viewUnknown = finding.Kind{
		Code: "fit.view-unknown", Severity: finding.Stop,
		Text: "the pattern has no view %[1]s",
		Mend: "take one of %[2]s",
	}
	structureDiffers = finding.Kind{
		Code: "fit.structure", Severity: finding.Stop,
		Text: "%[1]s is not drawn alike in every size: %[2]s",
		Mend: "draw the same edges, segments, lines and marks in every size",
	}
	outsideRange = finding.Kind{
		Code: "fit.outside-range", Severity: finding.Stop,
		Text: "%[1]s %[2]s is %[3]s %[4]s than the chart's %[5]s; the nearest size is %[6]s",
		Mend: "set %[7]s to %[6]s in the docket and alter the rest by changes, or take another pattern",
	}
	sizeOutside = finding.Kind{
		Code: "fit.outside-range", Severity: finding.Stop,
		Text: "size %[1]s for %[2]s lies %[3]s the printed sizes; the nearest is %[4]s",
		Mend: "take a size from %[5]s to %[6]s",
	}
	sizeUnknown = finding.Kind{
		Code: "fit.size-unknown", Severity: finding.Stop,
		Text: "%[1]q is no size of this pattern, for %[2]s",
		Mend: "write auto, one of %[3]s, or a number between two of them",
	}
	zoneUnknown = finding.Kind{
		Code: "fit.zone-unknown", Severity: finding.Stop,
		Text: "the pattern has no zone %[1]s to take a size at",
		Mend: "take one of %[2]s",
	}
	chooseMissing = finding.Kind{
		Code: "fit.measure-missing", Severity: finding.Stop,
		Text: "the size is chosen by the %[1]s, but the %[2]s",
		Mend: "measure the %[1]s, or write a size in the docket",
	}
	measureMissing = finding.Kind{
		Code: "fit.measure-missing", Severity: finding.Advice,
		Text: "the body has no %[1]s measured, so %[2]s takes size %[3]s from the %[4]s",
		Mend: "measure the %[1]s",
	}
	lengthOutside = finding.Kind{
		Code: "fit.length-outside", Severity: finding.Warn,
		Text: "%[1]s %[2]s is %[3]s %[4]s than the chart's %[5]s, so lengths are those of size %[6]s",
		Mend: "lengthen or shorten by a change in the docket",
	}
	byFinished = finding.Kind{
		Code: "fit.by-finished", Severity: finding.Advice,
		Text: "the pattern prints no body %[1]s, so a size is read from its finished %[1]s less %[2]s, the least ease (%[3]s)",
		Mend: "where the design wants more room, set the size in the docket",
	}
	byHighBust = finding.Kind{
		Code: "fit.high-bust", Severity: finding.Advice,
		Text: "bust %[1]s is %[2]s over the high bust, so the size is chosen by the high bust, %[3]s: neck, shoulders and armholes fit",
		Mend: "enlarge the bust by a change: it is %[4]s more than this size is drawn for",
	}
	noHighBust = finding.Kind{
		Code: "fit.no-high-bust", Severity: finding.Advice,
		Text: "the size is chosen by the bust, and the high bust was not measured",
		Mend: "measure it: where the bust is %[1]s or more over it, the size is chosen by the high bust",
	}
	finishedDiffers = finding.Kind{
		Code: "fit.finished-differs", Severity: finding.Warn,
		Text: "the paper says the finished %[1]s of size %[2]s is %[3]s, but its pieces measure %[4]s, %[5]s %[6]s",
		Mend: "check the girth's pieces and the allowances that pattern.yaml states",
	}
	waistMidway = finding.Kind{
		Code: "fit.waist-midway", Severity: finding.Advice,
		Text: "the waist was measured midway between rib and hip bone, while a printed chart means the natural waist",
		Mend: "measure again where a belt settles, and say waist-at: natural",
	}
	sizeJump = finding.Kind{
		Code: "fit.size-jump", Severity: finding.Advice,
		Text: "%[1]s is size %[2]s and %[3]s next to it is size %[4]s, %.1[5]f sizes apart",
		Mend: "check both measures, and make a toile",
	}
	trued = finding.Kind{
		Code: "fit.trued", Severity: finding.Advice,
		Text: "after blending, the sides of %[1]s differed by %[2]s more than in print; corners were moved by at most %[3]s to make them fit",
	}
	easeShort = finding.Kind{
		Code: "fit.ease-short", Severity: finding.Warn,
		Text: "%[1]s ease is %[2]s (garment %[3]s, body %[4]s), %[5]s less than the %[6]s usually needed to move",
		Mend: "take a larger size at the %[1]s",
	}
	girthUnknown = finding.Kind{
		Code: "fit.girth", Severity: finding.Warn,
		Text: "the girth at %[1]s cannot be measured: %[2]s",
		Mend: "name level lines and edges as the pieces have them",
	}
)

// kinds lists every finding of the package, for the test of their wording.
var kinds = []finding.Kind{
	viewUnknown, structureDiffers, outsideRange, sizeOutside, sizeUnknown, zoneUnknown, chooseMissing,
	measureMissing, byFinished, byHighBust, noHighBust, finishedDiffers, lengthOutside, waistMidway, sizeJump, trued, easeShort, girthUnknown,
}

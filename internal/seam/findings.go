package seam

import "gusset/internal/finding"

// The findings of walking. Arguments are given in the user's words.
var (
	cannotResolve = finding.Kind{
		Code: "seam.unresolved", Severity: finding.Stop,
		Text: "join %[1]s cannot be walked: %[2]s",
		Mend: "name the pieces, edges and points as the pattern has them",
	}
	gap = finding.Kind{
		Code: "seam.gap", Severity: finding.Stop,
		Text: "%[1]s does not fit: side %[2]d is %[3]s %[4]s than the first, beyond the stated ease of %[5]s",
		Mend: "add a step: settle: {seam: %[6]s, how: share} moves it %[7]s on each side, trim takes %[9]s off the longer one, ease works %[8]s",
	}
	notchGap = finding.Kind{
		Code: "seam.notch", Severity: finding.Warn,
		Text: "notch %[1]s of %[2]s lies %[3]s apart on the two sides",
		Mend: "add a step: settle: {seam: %[4]s, how: notches} moves them by %[3]s; or work the difference in between them",
	}
	breaks = finding.Kind{
		Code: "seam.break", Severity: finding.Advice,
		Text: "%[1]s and %[2]s meet in %[5]s of %.1[4]f° across %[3]s, as they are drawn",
		Mend: "leave it if it is meant; else draw them on smoothly: run-on: {across: %[6]s}",
	}
	broken = finding.Kind{
		Code: "seam.broken", Severity: finding.Warn,
		Text: "%[1]s and %[2]s meet in %[5]s of %.1[4]f° across %[3]s, after %[7]s",
		Mend: "draw them on smoothly with another step: run-on: {across: %[6]s}",
	}
	hemPoint = finding.Kind{
		Code: "seam.hem-point", Severity: finding.Advice,
		Text: "the straight hems %[1]s and %[2]s meet in %[5]s of %.1[4]f° across %[3]s, after %[7]s",
		Mend: "leave it, and fold each straight: a straight hem turns up flat; or draw them on with run-on: {across: %[6]s}, and face the curved hem",
	}
	notchMissing = finding.Kind{
		Code: "seam.notch-missing", Severity: finding.Warn,
		Text: "%[1]s should meet at notch %[2]s, but side %[3]d has none",
		Mend: "mark the notch on both edges, or take it off the join's list",
	}
	matchMissing = finding.Kind{
		Code: "seam.match-missing", Severity: finding.Stop,
		Text: "%[1]s cannot be matched at %[2]s: side %[3]d has no notch of that name",
		Mend: "match it at start, middle or end, or say how far along the join: at: 12 cm",
	}
	matchBeyond = finding.Kind{
		Code: "seam.match-beyond", Severity: finding.Stop,
		Text: "%[1]s is to be matched %[2]s from its start and is only %[3]s long",
		Mend: "name a place on the join",
	}
)

package construct

import "gusset/internal/finding"

var (
	unknownMethod = finding.Kind{
		Code: "construct.method-unknown", Severity: finding.Stop,
		Text: "%[1]s is to be made by %[2]q, which is not a method",
		Mend: "%[3]s",
	}
	wrongMethod = finding.Kind{
		Code: "construct.method-use", Severity: finding.Stop,
		Text: "%[1]s is a %[2]s, but the method %[3]s is for a %[4]s",
		Mend: "choose a method for a %[2]s",
	}
	unknownItem = finding.Kind{
		Code: "construct.item-unknown", Severity: finding.Stop,
		Text: "a method is chosen for %[1]q, which this view does not have",
		Mend: "%[2]s",
	}
	notInstead = finding.Kind{
		Code: "construct.method-instead", Severity: finding.Stop,
		Text: "%[1]s is made by %[2]s, and %[3]s cannot stand in for that: it brings pieces of its own",
		Mend: "choose a method of the same family, or one that says it stands in for it",
	}
	notShut = finding.Kind{
		Code: "construct.not-shut", Severity: finding.Stop,
		Text: "the opening of %[1]s cannot be sewn shut: no seam of two edges ends where it begins",
		Mend: "choose another method, or give the closure one edge, of one hand, that follows the seam below it",
	}
	notDrawn = finding.Kind{
		Code: "construct.not-drawn", Severity: finding.Stop,
		Text: "the %[1]s of %[2]s cannot be drawn: %[3]s",
		Mend: "choose another method or other values, or draw the piece as one of the pattern's own",
	}
	leftOut = finding.Kind{
		Code: "construct.left-out", Severity: finding.Advice,
		Text: "%[1]s: not made: %[2]s",
	}
	cutBesides = finding.Kind{
		Code: "construct.cut-besides", Severity: finding.Advice,
		Text: "%[1]s: cut besides the paper's pieces: %[2]s",
	}
	unknownValue = finding.Kind{
		Code: "construct.value-unknown", Severity: finding.Warn,
		Text: "%[1]s sets %[2]q, which its method %[3]s does not use",
		Mend: "%[4]s",
	}
	unresolved = finding.Kind{
		Code: "construct.unresolved", Severity: finding.Stop,
		Text: "%[1]s cannot be placed: %[2]s",
		Mend: "name the pieces, edges, joins and points as the pattern has them",
	}
	noCloth = finding.Kind{
		Code: "construct.no-cloth", Severity: finding.Stop,
		Text: "%[1]s is cut from %[2]s, for which there is no cloth",
		Mend: "give the docket a cloth for %[2]s",
	}
	edgeOpen = finding.Kind{
		Code: "construct.edge-open", Severity: finding.Stop,
		Text: "nothing is made of %[1]s from %.1[2]f to %.1[3]f mm: no join, finish or fold takes it",
		Mend: "add a join or a finish for it, if only one that leaves it raw",
	}
	twoWidths = finding.Kind{
		Code: "construct.two-widths", Severity: finding.Warn,
		Text: "%[1]s is given %.1[2]f mm by %[3]s and %.1[4]f mm by %[5]s; the larger is cut",
		Mend: "give both the same allowance, or trim between the two",
	}
	intakeShape = finding.Kind{
		Code: "construct.intake", Severity: finding.Stop,
		Text: "%[1]s is made as a %[2]s, but its two lines do not fold one on the other",
		Mend: "give a dart two edges of one piece that meet in its point, a pleat two lines inside and the edge across them: intake: [piece:edge]",
	}
	cyclic = finding.Kind{
		Code: "construct.cycle", Severity: finding.Stop,
		Text: "no order of work is possible: %[1]s",
		Mend: "let one of these end before the other crosses it, or sew it in two parts",
	}
)

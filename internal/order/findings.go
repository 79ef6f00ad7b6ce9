package order

import "gusset/internal/finding"

// The findings of ordering.
var (
	cyclic = finding.Kind{
		Code: "order.cycle", Severity: finding.Stop,
		Text: "no order of work exists, since these wait for each other: %[1]s (%[2]s)",
		Mend: "choose another method for one of them, or join them in another way",
	}
	unknownAfter = finding.Kind{
		Code: "order.unknown-after", Severity: finding.Stop,
		Text: "%[1]s comes after %[2]s, which nobody does",
		Mend: "correct the name in the method's after",
	}
	operationTwice = finding.Kind{
		Code: "order.operation-twice", Severity: finding.Stop,
		Text: "two operations are called %[1]s",
		Mend: "give each a name of its own",
	}
	outOfTurn = finding.Kind{
		Code: "order.out-of-turn", Severity: finding.Warn,
		Text: "%[1]s does %[2]s before %[3]s: %[4]s",
		Mend: "%[5]s; or follow the order given here",
	}
	pinUnknown = finding.Kind{
		Code: "order.pin-unknown", Severity: finding.Warn,
		Text: "a pin names %[1]s, which this making has not",
		Mend: "name an item of the view, or an operation of its method",
	}
	pinImpossible = finding.Kind{
		Code: "order.pin-impossible", Severity: finding.Warn,
		Text: "the pin of %[1]s before %[2]s cannot be kept: %[3]s",
		Mend: "take the pin out, or pin another step",
	}
	badStep = finding.Kind{
		Code: "order.bad-step", Severity: finding.Stop,
		Text: "%[1]s",
		Mend: "write outseam, fly.outside or outseam.sew@left",
	}
	hardToReach = finding.Kind{
		Code: "order.reach", Severity: finding.Warn,
		Text: "%[1]s does %[2]s after %[3]s: %[4]s",
		Mend: "%[5]s; or follow the order given here",
	}
	stepUnknown = finding.Kind{
		Code: "order.step-unknown", Severity: finding.Advice,
		Text: "the %[1]s order names %[2]s, which this making has not; it is left out",
		Mend: "name an operation of the item's method",
	}
	machineMissing = finding.Kind{
		Code: "order.machine-missing", Severity: finding.Warn,
		Text: "no %[1]s is among the machines, though %[3]s needs one (operations affected: %[2]d)",
		Mend: "%[4]s",
	}
	stitchMissing = finding.Kind{
		Code: "order.stitch-missing", Severity: finding.Warn,
		Text: "no %[1]s among the machines makes stitch %[2]s, which %[4]s needs (operations affected: %[3]d)",
		Mend: "%[5]s",
	}
	awkwardAnyway = finding.Kind{
		Code: "order.awkward", Severity: finding.Advice,
		Text: "%[1]s is awkward in every order: %[2]s",
		Mend: "take it slowly, or choose a method that needs no line there",
	}
	byHandAnyway = finding.Kind{
		Code: "order.by-hand", Severity: finding.Warn,
		Text: "%[1]s can only be sewn by hand, in every order: %[2]s",
		Mend: "sew it by hand, or choose a method that finishes this edge while the work lies flat",
	}
	tooThick = finding.Kind{
		Code: "order.bulk", Severity: finding.Advice,
		Text: "%[1]s runs over %[2]s: %[3]d plies, %.1[4]f mm of cloth there, under a foot that lifts %.1[5]f mm%[6]s",
		Mend: "grade the allowances there, flatten the place with a mallet and turn the wheel by hand over it; or sew it by hand",
	}
	neverReached = finding.Kind{
		Code: "order.out-of-reach", Severity: finding.Warn,
		Text: "%[1]s cannot be reached in any order: %[2]s",
		Mend: "leave a gap to turn through, or choose another method",
	}
)

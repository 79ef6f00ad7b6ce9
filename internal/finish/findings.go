package finish

import "gusset/internal/finding"

var (
	foldsOver = finding.Kind{
		Code: "finish.folds-over", Severity: finding.Stop,
		Text: "an allowance of %.1[2]f mm on %[1]s folds over itself: the line bends more tightly",
		Mend: "give this edge a narrower allowance",
	}
	swallowed = finding.Kind{
		Code: "finish.swallowed", Severity: finding.Stop,
		Text: "the allowances beside %[1]s meet across it: it is too short for its own of %.1[2]f mm",
		Mend: "give the edges beside it narrower allowances",
	}
	crossing = finding.Kind{
		Code: "finish.crossing", Severity: finding.Stop,
		Text: "the cut line of %[1]s crosses itself near %.0[2]f, %.0[3]f mm",
		Mend: "give the edges near there narrower allowances",
	}
	hemWider = finding.Kind{
		Code: "finish.hem-wider", Severity: finding.Stop,
		Text: "the hem on %[1]s turns up %.1[2]f mm, but %[3]s does not reach so high",
		Mend: "make a narrower hem",
	}
	turnUnder = finding.Kind{
		Code: "finish.turn-under", Severity: finding.Stop,
		Text: "a turn of the hem on %[1]s is %.1[2]f mm deep and reaches beyond the fold before it",
		Mend: "turn under no more than the depth of the hem",
	}
	hemCurved = finding.Kind{
		Code: "finish.hem-curved", Severity: finding.Warn,
		Text: "the hem line of %[1]s is curved: turned up %.1[2]f mm, its edge is %.1[3]f mm too %[4]s",
		Mend: "make the hem narrower, ease or clip it in, or use a facing cut to shape",
	}
	intakesMeet = finding.Kind{
		Code: "finish.intakes-meet", Severity: finding.Stop,
		Text: "%[1]s and %[2]s fold in the cloth side by side, with no edge between them",
		Mend: "leave some edge between two darts or pleats, or make them one",
	}
	foldBent = finding.Kind{
		Code: "finish.fold-bent", Severity: finding.Stop,
		Text: "the cut piece of %[1]s leaves its fold line by %.1[2]f mm",
		Mend: "cut it as a single piece, or make its fold straight and square to its hem",
	}
	foldUneven = finding.Kind{
		Code: "finish.fold-uneven", Severity: finding.Stop,
		Text: "%[1]s is cut on the fold, but its halves need different allowances on %[2]s",
		Mend: "cut it as a single piece, or make both halves alike",
	}
)

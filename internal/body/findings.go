package body

import "gusset/internal/finding"

var (
	noMeasures = finding.Kind{
		Code: "body.no-measures", Severity: finding.Stop,
		Text: "no measure of this body can be read",
		Mend: "write the measures with their units, such as hip: 98.5 cm",
	}
	noWaistAt = finding.Kind{
		Code: "body.no-waist-at", Severity: finding.Stop,
		Text: "a waist is given, but not where it was measured",
		Mend: "write waist-at: natural (where a belt settles) or waist-at: midway (between lowest rib and hip bone)",
	}
	readOnce = finding.Kind{
		Code: "body.read-once", Severity: finding.Advice,
		Text: "%[1]s read once; a slip of the tape would not be seen",
		Mend: "take the tape off, measure again and write both readings, such as %[2]s",
	}
	readingsDiffer = finding.Kind{
		Code: "body.readings-differ", Severity: finding.Warn,
		Text: "the readings of %[1]s lie %[2]s apart (%[3]s); %[4]s is as much as a careful tape strays",
		Mend: "measure once more and add the reading: with three, the middle one counts",
	}
	unlikely = finding.Kind{
		Code: "body.unlikely", Severity: finding.Warn,
		Text: "%[1]s (%[2]s) is larger than %[3]s (%[4]s)",
		Mend: "measure both again, and check their units",
	}
	unusual = finding.Kind{
		Code: "body.unusual", Severity: finding.Advice,
		Text: "%[1]s (%[2]s) is larger than %[3]s (%[4]s), which few bodies have",
		Mend: "check that the two were not exchanged; if they are right, write checked: [%[1]s, %[3]s]",
	}
	sumOff = finding.Kind{
		Code: "body.sum", Severity: finding.Warn,
		Text: "outside leg less inside leg is %[1]s, but the body rise was measured as %[2]s",
		Mend: "measure the three again from the same waist, down to the floor",
	}
	implausible = finding.Kind{
		Code: "body.implausible", Severity: finding.Warn,
		Text: "%[1]s %[2]s does not go with %[3]s: of 100 adults with those, 99 have at %[4]s %[5]s",
		Mend: "measure it again, tape level; if it is right, write checked: [%[1]s]",
	}
	rare = finding.Kind{
		Code: "body.rare", Severity: finding.Advice,
		Text: "%[1]s %[2]s is %[3]s than that of 99 in 100 adults measured, so the figures help little here",
		Mend: "measure everything that the pattern asks for, twice",
	}
	notCompared = finding.Kind{
		Code: "body.not-compared", Severity: finding.Advice,
		Text: "a child's measures are not held against figures, which are of adults only",
		Mend: "read every measure twice",
	}
)

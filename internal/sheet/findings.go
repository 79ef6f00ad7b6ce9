package sheet

import "gusset/internal/finding"

// What may be said about sheets.
var (
	rollNarrow = finding.Kind{
		Code: "sheet.roll-narrow", Severity: finding.Warn,
		Text: "%[1]s takes %[2]s of paper across, the roll has %[3]s: no roll sheet is made",
		Mend: "use a wider roll, or the tiled sheets",
	}
	rollLong = finding.Kind{
		Code: "sheet.roll-long", Severity: finding.Warn,
		Text: "%[1]s is %[2]s long, a page takes %[3]s: no roll sheet is made",
		Mend: "use the tiled sheets",
	}
)

package lay

import "gusset/internal/finding"

// What may be wrong with a lay file, and with it beside the pieces and cloth.
var (
	badName = finding.Kind{
		Code: "lay.bad-name", Severity: finding.Stop,
		Text: "%[1]q is not a name",
		Mend: "write it as the program prints it, such as quay-long, front@left or loops#2",
	}
	noDepth = finding.Kind{
		Code: "lay.no-depth", Severity: finding.Stop,
		Text: "a section that lies %[1]s has no lengthwise fold to be so deep",
		Mend: "leave depth out, or write fold: lengthwise",
	}
	badSections = finding.Kind{
		Code: "lay.bad-sections", Severity: finding.Stop,
		Text: "there are %[1]d sections; a lay has 1 to %[2]d",
		Mend: "write one for each way that the cloth is folded, such as - {fold: open}",
	}
	noSection = finding.Kind{
		Code: "lay.no-section", Severity: finding.Stop,
		Text: "there is no section %[1]d: the file has %[2]d",
		Mend: "count the sections from 1, or add one",
	}
	writtenTwice = finding.Kind{
		Code: "lay.written-twice", Severity: finding.Stop,
		Text: "%[1]s is written twice",
		Mend: "keep one of the two",
	}
	halfPlace = finding.Kind{
		Code: "lay.half-place", Severity: finding.Stop,
		Text: "%[1]s has only one of along and across",
		Mend: "write both, or neither where a place is to be found",
	}
	pinnedNowhere = finding.Kind{
		Code: "lay.pinned-nowhere", Severity: finding.Stop,
		Text: "%[1]s is pinned and has no place",
		Mend: "write along and across, or leave pinned out",
	}
	crowded = finding.Kind{
		Code: "lay.crowded", Severity: finding.Stop,
		Text: "%[1]d of the pieces find no place beside those that are pinned",
		Mend: "leave more room between them, unpin some, or let it look longer",
	}
	strange = finding.Kind{
		Code: "lay.unknown-piece", Severity: finding.Stop,
		Text: "%[1]s is not cut from this cloth",
		Mend: "%[2]s",
	}
	withTwin = finding.Kind{
		Code: "lay.with-twin", Severity: finding.Stop,
		Text: "%[1]s is cut with %[2]s through both layers, and is written by itself as well",
		Mend: "take one of the two out, or lay both on single cloth",
	}
)

// handKinds lists all of them.
var handKinds = []finding.Kind{badName, noDepth, badSections, noSection, writtenTwice, halfPlace, pinnedNowhere, crowded, strange, withTwin}

package making

import "strings"

const (
	aBody    = "bodies/wren.yaml"
	aCloth   = "cloths/rust-drill.yaml"
	aMachine = "machines/window.yaml"
	aMethod  = "methods/tape-hem.yaml"
	aPattern = "patterns/tabard/pattern.yaml"
	aFront   = "patterns/tabard/front.svg"
	aPocket  = "patterns/tabard/pocket.svg"
	sewSide  = "sew: [front:side, back:side]"
)

// slips is the table of slips, by kind of file.
func slips() []broken {
	var all []broken
	for _, rows := range [][]broken{anyFile(), bodySlips, clothSlips, machineSlips, methodSlips, patternSlips, viewSlips, svgSlips, docketSlips} {
		all = append(all, rows...)
	}
	return all
}

// anyFile makes the slips that any YAML file may have in each kind.
func anyFile() []broken {
	var rows []broken
	for _, file := range []string{aBody, aCloth, aMachine, aMethod, aPattern, tabard} {
		kind, _, _ := strings.Cut(file, "/")
		rows = append(rows,
			broken{name: kind + ": empty", file: file, new: "", code: "source.empty"},
			broken{name: kind + ": binary", file: file, new: "\x89PNG\r\n\x1a\n\x00\x00\xff", code: "source.not-text"},
			broken{name: kind + ": another kind", file: file, old: "gusset: ", new: "gusset: x", code: "source.other-kind"},
			broken{name: kind + ": newer", file: file, old: "/1\n", new: "/7\n", code: "source.newer", at: "/7"},
			broken{name: kind + ": no header", file: file, old: "gusset: ", new: "gusste: ", code: "source.missing-header"},
			broken{name: kind + ": unknown key", file: file, old: "title: ", new: "titel: ", code: "source.unknown-key"},
			broken{name: kind + ": a key twice", file: file, old: "title: ", new: "title: x\ntitle: ", code: "source.duplicate-key", at: "title: "},
			broken{name: kind + ": not YAML", file: file, old: "title: ", new: "title: 'x' ", code: "source.yaml-broken"},
			broken{name: kind + ": an alias", file: file, old: "title: ", new: "title: *", code: "source.yaml-anchor"},
		)
	}
	return rows
}

var bodySlips = []broken{
	{name: "a waist in metres", file: aBody, old: "31 1/4 in", new: "31 m", code: "source.out-of-range"},
	{name: "no unit", file: aBody, old: "98.5 cm]", new: "98.5]", code: "source.bad-length"},
	{name: "unknown unit", file: aBody, old: "98.5 cm]", new: "98.5 ells]", code: "source.bad-length"},
	{name: "not a number", file: aBody, old: "98.5 cm]", new: "NaN cm]", code: "source.bad-length"},
	{name: "infinite", file: aBody, old: "98.5 cm]", new: "1e999 cm]", code: "source.bad-length"},
	{name: "a negative girth", file: aBody, old: "98.5 cm]", new: "-98.5 cm]", code: "source.out-of-range"},
	{name: "a thousand's comma", file: aBody, old: "98.5 cm]", new: "1,000 mm]", code: "source.bad-length"},
	{name: "unknown measure", file: aBody, old: "hip: [98", new: "hips: [98", code: "source.unknown-key"},
	{name: "which waist is not said", file: aBody, old: "waist-at: natural\n", new: "", code: "body.no-waist-at", at: "31 1/4"},
	{name: "unknown waist", file: aBody, old: "natural", new: "naturel", code: "source.unknown-word"},
	{name: "no measures", file: aBody, old: "  waist: [31 1/4 in, 31 1/4 in]\n  hip: [98.5 cm, 98.5 cm]\n", new: "", code: "source.wrong-type", at: "measures:"},
	{name: "a thigh above the hip", file: aBody, old: "  hip: [98.5 cm", new: "  thigh: 99 cm\n  hip: [98.5 cm", code: "body.unlikely", at: "thigh"},
	{name: "readings apart", file: aBody, old: "98.5 cm]", new: "100.5 cm]", code: "body.readings-differ", at: "100.5"},
	{name: "a decimal comma between readings", file: aBody, old: "[98.5 cm, 98.5 cm]", new: "[98,5 cm]", code: "source.comma-in-list", at: "98,5"},
	{name: "one reading", file: aBody, old: "[98.5 cm, 98.5 cm]", new: "98,5 cm", code: "body.read-once", at: "98,5"},
	{name: "a thigh that no hip goes with", file: aBody, old: "  hip: [98.5 cm", new: "  thigh: 78 cm\n  hip: [98.5 cm", code: "body.implausible", at: "78"},
}

var clothSlips = []broken{
	{name: "unknown direction", file: aCloth, old: "one-way", new: "oneway", code: "source.unknown-word"},
	{name: "shrinkage without a percent sign", file: aCloth, old: "3 %", new: "3", code: "source.bad-percent"},
	{name: "no width", file: aCloth, old: "width: 148 cm\n", new: "", code: "source.missing-key", at: "gusset"},
	{name: "a repeat that is none", file: aCloth, old: "frays: yes", new: "repeat: {even: yes}", code: "cloth.no-repeat"},
	{name: "a repeat longer than the cloth", file: aCloth, old: "frays: yes", new: "repeat: {along: 2.7 m, even: yes}", code: "cloth.repeat-large"},
	{name: "a repeat wider than the cloth", file: aCloth, old: "frays: yes", new: "repeat: {across: 147 cm, even: no}", code: "cloth.repeat-large"},
	{name: "a repeat of which nothing says whether it is even", file: aCloth, old: "frays: yes", new: "repeat: {along: 12 cm}", code: "source.missing-key"},
	{name: "a bar without a repeat across", file: aCloth, old: "frays: yes", new: "repeat: {along: 12 cm, even: no, bar: 3 cm}", code: "cloth.bar"},
	{name: "a comma in a list", file: aMachine, old: `["301", "304"]`, new: "[301,304]", code: "source.comma-in-list"},
}

var machineSlips = []broken{
	{name: "unknown kind of machine", file: aMachine, old: "kind: lockstitch", new: "kind: lokstitch", code: "source.unknown-word"},
	{name: "stitch not of ISO 4915", file: aMachine, old: `"304"`, new: `"904"`, code: "machine.stitch-number"},
	{name: "a stitch number as a number", file: aMachine, old: `"304"`, new: "304", code: "source.wrong-type"},
	{name: "an iron that sews", file: "machines/press.yaml", old: "kind: iron", new: "kind: iron\nstitches: [\"301\"]", code: "machine.idle-stitches", at: "stitches"},
	{name: "a lockstitch without stitches", file: aMachine, old: "stitches: [\"301\", \"304\"]\n", new: "", code: "machine.no-stitches", at: "kind: lockstitch"},
}

var methodSlips = []broken{
	{name: "operations in a ring", file: aMethod, old: `stitch: "301"`, new: "stitch: \"301\"\n    after: [press]", code: "method.cycle", at: "id: lap"},
	{name: "after nothing", file: aMethod, old: "after: [lap]", new: "after: [lop]", code: "method.unknown-after"},
	{name: "an unknown value", file: aMethod, old: "folds: [cover]", new: "folds: [cove]", code: "method.unknown-value"},
	{name: "a side that a finish has not", file: aMethod, old: "allowance: {edge:", new: "allowance: {a:", code: "source.unknown-key"},
	{name: "operation twice", file: aMethod, old: "id: press", new: "id: lap", code: "method.operation-twice", at: "id: lap"},
	{name: "stitch at the iron", file: aMethod, old: "machine: iron", new: "machine: iron\n    stitch: \"301\"\n    length: 2 mm", code: "method.stitch-place", at: "id: press"},
	{name: "unknown placeholder", file: aMethod, old: "{edge} and", new: "{egde} and", code: "method.placeholder"},
	{name: "own turn of cloth", file: aMethod, old: "depth: 25 mm", new: "turn-of-cloth: 1 mm", code: "method.own-turn-of-cloth"},
	{name: "seam not of ISO 4916", file: aMethod, old: "takes: finish", new: "takes: finish\nseam: \"9.1\"", code: "method.seam-number", at: "seam:"},
}

var docketSlips = []broken{
	{name: "unknown body", file: tabard, old: "body: wren", new: "body: wern", code: "making.no-file"},
	{name: "unknown pattern", file: tabard, old: "pattern: tabard", new: "pattern: tabbard", code: "making.no-file"},
	{name: "unknown cloth", file: tabard, old: "pocketing: calico", new: "pocketing: kaliko", code: "making.no-file"},
	{name: "unknown view", file: tabard, old: "view: long", new: "view: short", code: "making.unknown-view"},
	{name: "unknown item", file: tabard, old: "methods: {hem:", new: "methods: {hme:", code: "making.unknown-item"},
	{name: "unknown method", file: tabard, old: "hem: tape-hem", new: "hem: tap-hem", code: "making.unknown-method"},
	{name: "unknown method in a step", file: tabard, old: "method: double-hem", new: "method: duoble-hem", code: "making.unknown-method"},
	{name: "no cloth for a role", file: tabard, old: ", pocketing: calico", new: "", code: "making.no-cloth", at: "gusset"},
	{name: "unknown role", file: tabard, old: "pocketing:", new: "pockets:", code: "source.unknown-key"},
	{name: "a path as a name", file: tabard, old: "body: wren", new: "body: ../wren", code: "docket.bad-name"},
	{name: "a size as a number", file: tabard, old: `hip: "12"`, new: "hip: 12", code: "source.unquoted-label"},
	{name: "unknown change", file: tabard, old: "lengthen: {at", new: "lenghten: {at", code: "source.unknown-key"},
	{name: "two changes in a step", file: tabard, old: "{id: up, ", new: "{id: up, lengthen: {at: skirt, by: 1 cm}, ", code: "docket.two-changes"},
	{name: "a step twice", file: tabard, old: "id: up", new: "id: longer", code: "docket.id-twice", at: "move-hem"},
	{name: "a change by nothing", file: tabard, old: "by: 2.5 cm", new: "by: 0 cm", code: "docket.no-effect"},
	{name: "a change by metres", file: tabard, old: "by: 2.5 cm", new: "by: 25 m", code: "source.out-of-range"},
	{name: "a change without amount", file: tabard, old: ", by: 2.5 cm", new: "", code: "source.missing-key", at: "id: longer"},
	{name: "a piece from a cloth that is not named", file: tabard, old: "{id: up, ", new: "{id: thin, cut-from: {piece: pocket, cloth: lining}}\n  - {id: up, ", code: "making.no-cloth", at: "id: thin"},
	{name: "a piece from interfacing alone", file: tabard, old: "{id: up, ", new: "{id: thin, cut-from: {piece: pocket, cloth: interfacing}}\n  - {id: up, ", code: "source.unknown-word", at: "id: thin"},
	{name: "a division by an unknown method", file: tabard, old: "{id: up, ", new: "{id: two, divide: {piece: front, at: 20 cm, method: plain-opne}}\n  - {id: up, ", code: "making.unknown-method", at: "id: two"},
	{name: "unknown fold", file: tabard, old: "fold: auto", new: "fold: twisted", code: "source.unknown-word"},
	{name: "a match of an unknown join", file: tabard, old: "{join: centre-back, at", new: "{join: center-back, at", code: "pattern.match-join"},
	{name: "a match at a notch that one side lacks", file: tabard, old: "at: end", new: "at: hip", code: "pattern.match-point"},
}

package making

import "strings"

var patternSlips = []broken{
	{name: "sizes unquoted", file: aPattern, old: `["10", "12", "14"]`, new: "[10, 12, 14]", code: "source.unquoted-label"},
	{name: "size twice", file: aPattern, old: `"12", "14"]`, new: `"12", "12"]`, code: "pattern.size-twice"},
	{name: "sizes out of order", file: aPattern, old: "hip: [38, 40, 42]", new: "hip: [38, 42, 40]", code: "pattern.chart-order"},
	{name: "a chart row too short", file: aPattern, old: "[28, 30, 32]", new: "[28, 30]", code: "pattern.chart-count"},
	{name: "unknown unit of the chart", file: aPattern, old: "unit: in", new: "unit: inches", code: "source.unknown-word"},
	{name: "a decimal comma in the chart", file: aPattern, old: "[28, 30, 32]", new: "[28,5, 30, 32]", code: "source.comma-in-list"},
	{name: "chosen by a row that is not there", file: aPattern, old: "choose: hip", new: "choose: bust", code: "pattern.choose"},
	{name: "undeclared print", file: aPattern, old: "printed: {line: cutting, allowance: 15 mm}\n", new: "", code: "source.missing-key", at: "gusset"},
	{name: "a cutting line without allowance", file: aPattern, old: "{line: cutting, allowance: 15 mm}", new: "{line: cutting}", code: "source.missing-key"},
	{name: "an allowance in metres", file: aPattern, old: "allowance: 15 mm", new: "allowance: 15 m", code: "source.out-of-range"},
	{name: "allowance wider than the piece", file: aPattern, old: "allowance: 15 mm", new: "allowance: 120 mm", code: "pattern.inset", in: aPocket, at: "S10."},
	{name: "print of an unknown edge", file: aPattern, old: "      centre: {line: fold}", new: "      center: {line: fold}", code: "pattern.unknown-edge"},
	{name: "a piece without drawing", file: aPattern, old: "file: front.svg", new: "file: frnt.svg", code: "pattern.no-drawing", at: "title: Front"},
	{name: "a drawing elsewhere", file: aPattern, old: "file: front.svg", new: "file: ../front.svg", code: "pattern.file-name"},
	{name: "a zone twice", file: aPattern, old: "{zone: hip, measure: hip}", new: "{zone: waist, measure: hip}", code: "pattern.zone-twice"},
}

var viewSlips = []broken{
	{name: "view of an unknown piece", file: aPattern, old: "{piece: back, copies", new: "{piece: bakc, copies", code: "pattern.unknown-piece"},
	{name: "a piece used twice", file: aPattern, old: "{piece: back, copies: pair", new: "{piece: front, copies: pair", code: "pattern.piece-twice"},
	{name: "unknown way of cutting", file: aPattern, old: "copies: fold", new: "copies: folded", code: "source.unknown-word"},
	{name: "no fold edge", file: aPattern, old: "fold-edge: centre, ", new: "", code: "pattern.fold-edge", at: "piece: front"},
	{name: "unknown fold edge", file: aPattern, old: "fold-edge: centre", new: "fold-edge: center", code: "pattern.fold-edge"},
	{name: "join of an unknown piece", file: aPattern, old: sewSide, new: "sew: [fornt:side, back:side]", code: "pattern.unknown-piece"},
	{name: "join of an unknown edge", file: aPattern, old: sewSide, new: "sew: [front:sied, back:side]", code: "pattern.bad-reference"},
	{name: "join to an unknown point", file: aPattern, old: sewSide, new: `sew: ["front:side[hem..elbow]", back:side]`, code: "pattern.bad-reference"},
	{name: "not a place on a piece", file: aPattern, old: sewSide, new: "sew: [front side, back:side]", code: "pattern.bad-reference"},
	{name: "a join with one side", file: aPattern, old: sewSide, new: "sew: [front:side]", code: "pattern.few-sides"},
	{name: "an edge joined to itself", file: aPattern, old: sewSide, new: "sew: [back:side, back:side]", code: "pattern.self-join"},
	{name: "copies named by halves", file: aPattern, old: sewSide, new: "sew: [front@left:side, back:side]", code: "pattern.mixed-hands"},
	{name: "unknown notch", file: aPattern, old: "notches: [hip]", new: "notches: [knee]", code: "pattern.bad-reference"},
	{name: "a finish on an unknown edge", file: aPattern, old: "hem: {edges: [front:hem", new: "hem: {edges: [front:hemm", code: "pattern.bad-reference"},
	{name: "a match of an unknown join in a view", file: aPattern, old: "{join: side, at: hip}", new: "{join: sied, at: hip}", code: "pattern.match-join"},
	{name: "a match at an unknown notch", file: aPattern, old: "{join: side, at: hip}", new: "{join: side, at: knee}", code: "pattern.match-point"},
	{name: "a match without a unit", file: aPattern, old: "at: 3 cm", new: "at: 3", code: "source.bad-length"},
	{name: "a match of an unknown repeat", file: aPattern, old: "repeat: along", new: "repeat: up", code: "source.unknown-word"},
	{name: "a girth of an unknown line", file: aPattern, old: "front@left:/hip", new: "front@left:/hips", code: "pattern.bad-reference"},
	{name: "a girth of an unknown zone", file: aPattern, old: "      hip: {pieces", new: "      hop: {pieces", code: "pattern.unknown-zone"},
	{name: "an unknown item in the printed order", file: aPattern, old: "[pocket, side,", new: "[poket, side,", code: "pattern.unknown-item"},
	{name: "an id twice in a view", file: aPattern, old: "      waist: {edges: [front:waist", new: "      side: {edges: [front:waist", code: "pattern.item-twice"},
	{name: "pieces set on each other in a ring", file: aPattern, old: "      centre-back:", new: "      a: {sew: [front:side, back:/hip], method: x}\n      b: {sew: [back:side, front:/hip], method: x}\n      centre-back:", code: "pattern.cyclic-join", at: "      "},
}

var svgSlips = []broken{
	{name: "drawing: empty", file: aFront, new: "", code: "source.empty"},
	{name: "drawing: binary", file: aFront, new: "\x00\x01\x02", code: "source.not-text"},
	{name: "drawing: not XML", file: aFront, old: "</g>", new: "</gg>", code: "source.svg-broken"},
	{name: "drawing: another document", file: aFront, new: "<html></html>", code: "source.svg-root"},
	{name: "drawing: no page", file: aFront, old: `viewBox="0 0 500 800" `, new: "", code: "source.svg-viewbox", at: "<svg"},
	{name: "drawing: scaled", file: aFront, old: `width="500mm"`, new: `width="250mm"`, code: "source.svg-scale"},
	{name: "drawing: an entity", file: aFront, old: "<svg ", new: "<!DOCTYPE svg [<!ENTITY a 'b'>]>\n<svg ", code: "source.svg-doctype", at: "DOCTYPE"},
	{name: "drawing: NaN", file: aFront, old: "M0 800 H300", new: "MNaN 800 H300", code: "source.svg-path"},
	{name: "drawing: huge", file: aFront, old: "M0 800 H300", new: "M0 800 H9e9", code: "source.svg-huge"},
	{name: "drawing: an arc", file: aFront, old: "M0 800 H300", new: "M0 800 A1 1 0 0 1 300 800", code: "source.svg-arc"},
	{name: "drawing: an id twice", file: aFront, old: `id="S10.waist"`, new: `id="S10.hem"`, code: "source.svg-duplicate-id"},
	{name: "drawing: a picture", file: aFront, old: "</svg>", new: "<image href=\"a.png\"/></svg>", code: "source.svg-element"},
	{name: "drawing: an edge missing in one size", file: aFront, old: line(aFrontHem12), new: "", code: "pattern.structure", at: `id="S12.`},
	{name: "drawing: an edge of another name", file: aFront, old: `id="S12.hem"`, new: `id="S12.ham"`, code: "pattern.structure", at: `id="S12.`},
	{name: "drawing: other segments in one size", file: aFront, old: "M0 800 H312", new: "M0 800 H100 H312", code: "pattern.structure", at: `id="S12.`},
	{name: "drawing: a size missing", file: aPattern, old: `["10", "12", "14"]`, new: `["10", "11", "14"]`, code: "pattern.size-missing", at: "title: Front"},
	{name: "drawing: an unknown size", file: aFront, old: "</svg>", new: "<g id=\"S99\"><path id=\"S99.hem\" d=\"M0 0 H9\"/></g>\n</svg>", code: "pattern.unknown-size", at: "S99"},
	{name: "drawing: ends that do not meet", file: aFront, old: "M0 800 H300", new: "M0 800 H299", code: "pattern.open-corner"},
	{name: "drawing: an edge drawn backwards", file: aFront, old: "M0 800 H300", new: "M300 800 H0", code: "pattern.open-corner"},
	{name: "drawing: a crossing outline", file: aPocket, old: "M150 800 L150 630", new: "M150 800 L-60 700 L150 630", code: "pattern.crossing", at: "S10."},
	{name: "drawing: clockwise", file: aPocket, new: clockwise, code: "pattern.clockwise", at: "S10."},
	{name: "drawing: an unknown kind of mark", file: aFront, old: `id="S10.notch.side.hip"`, new: `id="S10.nick.side.hip"`, code: "pattern.bad-id"},
	{name: "drawing: a notch off its line", file: aFront, old: `cx="277.491"`, new: `cx="257.491"`, code: "pattern.notch-off"},
	{name: "drawing: a notch on no edge", file: aFront, old: `id="S10.notch.side.hip"`, new: `id="S10.notch.sied.hip"`, code: "pattern.structure", at: "S12."},
	{name: "drawing: no grain line", file: aPocket, new: strings.ReplaceAll(pocketOf("S"), "grain.grain", "fold.middle"), code: "pattern.no-grain", in: aPattern, at: "title: Pocket"},
	{name: "drawing: the grain leans", file: aFront, old: "M80 180 L80 680", new: "M80 180 L90 680", code: "pattern.grain-leans"},
	{name: "drawing: a bent fold edge", file: aFront, old: "M0 100 L0 800", new: "M0 100 C5 300 5 500 0 800", code: "pattern.structure", at: "S12."},
	{name: "drawing: a line of another name in one size", file: aFront, old: "level.hip", new: "level.hop", code: "pattern.structure", at: "S12."},
	{name: "drawing: a level missing between others", file: aFront, old: "level.hip", new: "stitch.hip", all: true, code: "pattern.level-missing", in: aPattern, at: "title: Front"},
	{name: "drawing: a fold that is not along the grain", file: aPattern, old: "centre: {line: fold}", new: "centre: {line: fold}\n      side: {line: fold}", code: "pattern.fold-leans", in: aFront, at: "S10.side"},
	{name: "drawing: thousands of nodes", file: aFront, old: "M0 800 H300", new: "M0 800 H300" + strings.Repeat(" H299 H300", 500), code: "pattern.too-many-nodes", at: `id="S10.hem"`},
}

const aFrontHem12 = `<path id="S12.hem" d="M0 800 H312"/>`

// line is a whole indented line of a drawing.
func line(element string) string { return "  " + element + "\n" }

// pocketOf draws a rectangle in the three sizes, counter-clockwise.
func pocketOf(s string) string {
	var b strings.Builder
	b.WriteString("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 500 800\">\n")
	for _, size := range []string{"10", "12", "14"} {
		for _, l := range []string{
			`<g id="ID">`, `<path id="ID.fore" d="M0 630 V800"/>`, `<path id="ID.base" d="M0 800 H150"/>`,
			`<path id="ID.aft" d="M150 800 V630"/>`, `<path id="ID.mouth" d="M150 630 H0"/>`,
			`<path id="ID.grain.grain" d="M75 660 V770"/>`, `</g>`,
		} {
			b.WriteString(strings.ReplaceAll(l, "ID", s+size) + "\n")
		}
	}
	return b.String() + "</svg>\n"
}

// clockwise is the same rectangle the other way round.
var clockwise = strings.NewReplacer(
	"M0 630 V800", "M150 630 V800", "M0 800 H150", "M150 800 H0",
	"M150 800 V630", "M0 800 V630", "M150 630 H0", "M0 630 H150",
).Replace(pocketOf("S"))

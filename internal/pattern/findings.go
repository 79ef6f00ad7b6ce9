package pattern

import "gusset/internal/finding"

func stop(code, text, mend string) finding.Kind {
	return finding.Kind{Code: "pattern." + code, Severity: finding.Stop, Text: text, Mend: mend}
}

func warn(code, text, mend string) finding.Kind {
	k := stop(code, text, mend)
	k.Severity = finding.Warn
	return k
}

func advice(code, text, mend string) finding.Kind {
	k := stop(code, text, mend)
	k.Severity = finding.Advice
	return k
}

// The pattern file.
var (
	fewSizes   = stop("no-sizes", "the pattern has no sizes", "list them in order: sizes: [\"10\", \"12\"]")
	sizeTwice  = stop("size-twice", "size %[1]s is listed twice", "keep one of the two")
	rowCount   = stop("chart-count", "the chart's %[1]s has %[2]d values for %[3]d sizes", "give one value for each size")
	rowOrder   = stop("chart-order", "the chart's %[1]s does not grow from size %[2]s to size %[3]s", "list sizes and values from the smallest up")
	noChoose   = stop("choose", "the size is to be chosen by %[1]s, but neither the chart nor the finished measures have such a row", "add the row, or choose by another measure")
	badName    = stop("bad-name", "%[1]q is not a name: names are small letters, digits and hyphens", "write a name such as back-pocket")
	badRef     = stop("bad-reference", "%[1]s", "write it as the pieces have it")
	badStep    = stop("bad-step", "%[1]s", "write outseam, fly.outside or outseam.sew@left")
	fewSides   = stop("few-sides", "join %[1]s has %[2]d side", "give two sides or more, each an edge or a list of edges")
	mixedHands = stop("mixed-hands", "join %[1]s names a copy for some pieces and none for others", "name the copy of every piece that has two, or of none")
	selfJoin   = stop("self-join", "join %[1]s sews %[2]s to itself", "join it to the other hand or to another edge")
	ringJoin   = stop("cyclic-join", "%[1]s is set on %[2]s, which is set on it in turn", "set one of them on the other only")
	noPiece    = stop("unknown-piece", "this pattern has no piece called %[1]s", "%[2]s")
	unused     = stop("piece-not-used", "view %[1]s does not use piece %[2]s", "add it to the view's pieces, or take it out here")
	noZone     = stop("unknown-zone", "this pattern has no zone called %[1]s", "%[2]s")
	noItem     = stop("unknown-item", "this view has no item called %[1]s", "%[2]s")
	noJoin     = stop("match-join", "this view has no join called %[1]s", "%[2]s")
	noPoint    = stop("match-point", "%[1]s cannot be matched at %[2]s: %[3]s has no notch of that name", "%[4]s, or say how far along the join: at: 12 cm")
	easeWhere  = stop("ease-between", "the ease of %[1]s does not lie between two of its notches", "name two of: %[2]s")
	noEdge     = stop("unknown-edge", "%[1]s has no edge called %[2]s, whose print is told here", "%[3]s")
	zoneTwice  = stop("zone-twice", "zone %[1]s is listed twice", "keep one of the two")
	pieceTwice = stop("piece-twice", "view %[1]s lists piece %[2]s twice", "keep one of the two, with number: for more copies")
	itemTwice  = stop("item-twice", "two items of view %[1]s are called %[2]s", "give each a name of its own")
	noFoldEdge = stop("fold-edge", "piece %[1]s is cut on the fold, but its fold edge %[2]q is not there", "name the edge that lies on the fold: fold-edge: ...")
	fileName   = stop("file-name", "%[1]q is not the name of a drawing in the pattern's own folder", "write a name such as front.svg")
)

// Gaps in the chart.
var (
	chartGap = advice("chart-gap", "the chart gives no %[1]s for size %[2]s; %[3]s is taken, between its neighbours", "write the value if the paper has it")
	chartEnd = advice("chart-end", "the chart gives %[1]s from size %[2]s to size %[3]s only, so beyond them no size is chosen by it", "write the missing values if the paper has them, or set the size in the docket")
	chartFew = warn("chart-few", "the chart gives %[1]s for %[2]d size, from which none can be chosen", "write the values of two sizes or more, or take the row out")
)

// The drawings.
var (
	noSize     = stop("size-missing", "%[1]s is not drawn in size %[2]s", "add a group with the id S%[2]s")
	otherSize  = warn("unknown-size", "group %[1]s is not a size of this pattern and is passed over", "list the size in pattern.yaml, or delete the group")
	noOutline  = stop("no-outline", "%[1]s has no edges in size %[2]s", "give the outline's paths ids such as S%[2]s.hem")
	badID      = stop("bad-id", "%[1]q is not an id of an edge, a line or a mark", "write S12.hem, S12.grain.grain or S12.notch.hem.middle")
	differs    = stop("structure", "%[1]s in size %[2]s is not drawn as in size %[3]s: %[4]s", "give every size the same edges, lines, marks and segments")
	openCorner = stop("open-corner", "%[1]s and %[2]s of %[3]s lie %.2[4]f mm apart in size %[5]s", "let them end in one point")
	manyNodes  = stop("too-many-nodes", "%[1]s in size %[2]s is drawn with more nodes than an outline needs (%[3]d segments, %[4]d is the most)", "simplify its curves in the drawing program")
	crossing   = stop("crossing", "the outline of %[1]s crosses itself in size %[2]s", "look at the drawing there")
	clockwise  = stop("clockwise", "the outline of %[1]s runs clockwise in size %[2]s", "draw the edges counter-clockwise, as the wearer's left copy seen face up")
	noInset    = stop("inset", "the stitching line of %[1]s cannot be recovered in size %[2]s: %[3]s", "check the allowance that pattern.yaml states for these edges")
	roughInset = warn("inset-rough", "the stitching line of %[1]s:%[2]s is told to %.2[3]f mm only in size %[4]s", "draw the edge with more nodes")
	farInset   = stop("inset-far", "the stitching line of %[1]s:%[2]s is off by %.3[3]f mm in size %[4]s", "draw the edge with more nodes")
	noGrain    = stop("no-grain", "%[1]s has no grain line", "draw one: S12.grain.grain")
	leanGrain  = stop("grain-leans", "the grain line of %[1]s leans %.1[2]f° in size %[3]s", "draw the piece with its grain upright")
	foldLeans  = stop("fold-leans", "the fold edge %[1]s of %[2]s is not straight along the grain in size %[3]s", "draw it straight and upright")
	farNotch   = stop("notch-off", "notch %[1]s lies %.1[2]f mm off the printed line of %[3]s:%[4]s", "put it on the line")
	noLevel    = stop("level-missing", "%[1]s shows some zones but not %[2]s, which lies between them", "draw the level line S12.level.%[2]s")
	backwards  = warn("grading", "%[1]s gets narrower at %[2]s from size %[3]s to size %[4]s", "check that the sizes are not exchanged")
)

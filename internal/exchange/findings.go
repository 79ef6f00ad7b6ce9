package exchange

import "gusset/internal/finding"

func stop(code, text, mend string) finding.Kind {
	return finding.Kind{Code: "exchange." + code, Severity: finding.Stop, Text: text, Mend: mend}
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

// Files of any format.
var (
	tooLarge = stop("too-large", "the file is larger than %[1]d MiB", "check that this is the right file")
	empty    = stop("empty", "the file holds nothing", "save it again")
	tooMuch  = stop("too-much", "the file has more than %[1]d %[2]s", "leave out what is no pattern piece, or split the file")
	farOff   = stop("far-off", "a point lies more than %[1]d m from the origin", "check the unit and the scale of the drawing")
	noPieces = stop("no-pieces", "the file shows no closed outline", "check that the outline of each piece is drawn, and closed")
	faults   = stop("too-many", "more than %[1]d faults: the rest is not listed", "mend these first and read the file again")
)

// DXF.
var (
	dxfBinary   = stop("dxf-binary", "this is a binary DXF", "save it as text (ASCII) DXF")
	dxfGroup    = stop("dxf-group", "%[1]q is no group code", "the file is cut short or damaged here: save it again")
	dxfCut      = stop("dxf-cut-short", "the file ends in the middle of %[1]s", "it is cut short: save or copy it again")
	dxfNumber   = stop("dxf-number", "%[1]q is no number (group %[2]d of a %[3]s)", "the file is damaged here: save it again")
	dxfUnit     = stop("dxf-unit", "the file does not say its unit", "look at a known length, then say --unit mm or --unit in")
	dxfBothUnit = stop("dxf-unit-twice", "the text says %[1]s and the header says %[2]s", "look at a known length, then say --unit mm or --unit in")
	dxfScale    = stop("dxf-scale", "block %[1]s is inserted at another size (scale %[2]s)", "insert it at scale 1 and save again")
	dxfNested   = stop("dxf-nested", "block %[1]s has another block inside it", "explode the inner block and save again")
	dxfEntity   = warn("dxf-entity", "a %[1]s on layer %[2]s is not read", "turn it into polylines if it belongs to the piece")
	dxfLayer    = advice("dxf-layer", "what lies on layer %[1]s is passed over (%[2]s)", "")
	dxfTwice    = stop("piece-twice", "%[1]s is there twice in size %[2]s", "keep one of the two, or give it another name")
	dxfText     = advice("dxf-text", "the text %[1]q is passed over", "")
	dxfCutout   = warn("cutout", "a cutout inside %[1]s is read as a line inside", "mark it by hand: an opening is cut by its method")
)

// Outlines.
var (
	openLoop  = stop("open", "the outline of %[1]s does not close: %.2[2]f mm between two ends, near %.1[3]f, %.1[4]f", "let the lines end in one point")
	forks     = stop("forks", "three lines meet in the outline of %[1]s, near %.1[2]f, %.1[3]f", "leave one outline for each piece on this layer")
	manyLoops = stop("many-outlines", "%[1]s has %[2]d outlines where one is wanted", "put each piece and size into a group or block of its own")
	tiny      = stop("tiny", "the outline of %[1]s is smaller than a button", "check the unit and the scale of the drawing")
	turned    = advice("turned", "%[1]s was drawn with its grain %.1[2]f° off upright and has been turned", "check which end is the top")
	coarse    = warn("coarse", "a curve of %[1]s is drawn with straight lines that leave up to %.2[2]f mm of room", "it runs smoothly through their ends; compare the lengths of the seams")
)

// Bringing sizes together.
var (
	sizeGap    = stop("size-missing", "%[1]s is there in size %[2]s but not in size %[3]s", "take in the sizes that every piece has: --sizes %[2]s")
	sizeOrder  = advice("size-order", "the sizes are put in order by the length of their outlines: %[1]s", "say --sizes with all of them in another order if that is wrong")
	noSize     = advice("no-size", "the file names no size; it is called %[1]s", "say it with --sizes when it has another name")
	otherEdges = stop("corners", "%[1]s has %[2]d corners in size %[3]s and %[4]d in size %[5]s, so they cannot be matched", "mark the corners alike in every size, or take in one size: --sizes %[3]s")
	matchRough = warn("corners-rough", "the corners of %[1]s are matched from size %[2]s to size %[3]s by their shape, and not closely", "look at the drawing: the same corner must begin each edge")
	dropped    = warn("not-in-every-size", "%[1]s of %[2]s is not drawn in every size and is left out", "draw it in every size")
	stacked    = advice("stacked", "the sizes of %[1]s lie apart in the file; they are laid on each other by their lower left corners", "")
	noGrain    = warn("no-grain", "%[1]s has no grain line; it is taken to run up the drawing", "check which way the grain runs before anything is cut")
	noNotch    = warn("notch-off", "notch %[1]s of %[2]s lies %.1[3]f mm off its outline and is left out", "put it on the line")
	badEdge    = warn("name", "%[1]s", "%[2]s")
)

// Drawings without pieces of their own.
var outsideGroups = advice("outside-groups", "what lies outside of the groups or layers of the pieces is passed over (%[1]d lines, dots and words)", "")

var (
	forked     = warn("forks-near", "three lines meet near %.1[1]f, %.1[2]f; one of them was followed", "look at the outlines there")
	innerLoops = warn("inner-outlines", "%[1]d closed outlines lie inside others and are passed over", "name stitching lines and inside lines by their group, or put each size into a group of its own: size-12")
)

// PDF.
var (
	pdfNone     = stop("pdf-none", "this is no PDF", "check that this is the right file")
	pdfCutShort = stop("pdf-cut-short", "the file ends inside an object that begins at byte %[1]d", "it is cut short: save or copy it again")
	pdfDamaged  = stop("pdf-damaged", "a part of the file cannot be unpacked", "save it again; print it into a new PDF if that does not help")
	pdfUnfolds  = stop("pdf-unfolds", "the file unfolds to more than %[1]d MiB", "leave out pictures and what is no pattern piece")
	pdfFilter   = stop("pdf-filter", "%[1]s is not read", "print it into a new PDF")
	pdfLocked   = stop("pdf-locked", "the file is encrypted", "save it without a password, if you may")
	pdfNoPages  = stop("pdf-no-pages", "the file has no pages that can be read", "save it again")
	pdfRing     = stop("pdf-ring", "the pages, or drawings within drawings, lead back to themselves", "print it into a new PDF")
	pdfDeep     = stop("pdf-deep", "drawings lie within drawings more than %[1]d deep, or are used more than %[2]d times", "print it into a new PDF")
	pdfFilled   = advice("pdf-filled", "%[1]d filled shapes without a drawn line are passed over", "")
	pdfPicture  = advice("pdf-pictures", "%[1]d pictures are passed over: only drawn lines are read", "")
	pdfApart    = warn("pdf-pages", "page %[1]d cannot be joined to the others and stands by itself", "look whether its outlines are whole")
	pdfTiles    = stop("pdf-tiles", "%[1]d × %[2]d sheets are said, and the file has %[3]d pages", "count the sheets that show the drawing; take other pages out of the file first")
	pdfJoined   = advice("pdf-joined", "%[1]d pages are joined by what they show alike", "measure a known length that runs over a joint")
)

// Taped pieces.
var (
	tapedPoint    = stop("taped-point", "there is no point called %[1]s", "%[2]s")
	tapedFew      = stop("taped-few", "the piece has %[1]d edges", "give two or more, round the piece")
	tapedOff      = stop("taped-off", "%[1]s is %.1[2]f mm as drawn and %.1[3]f mm by the tape: %.1[4]f mm apart", "measure its points and its length again")
	tapedNear     = warn("taped-near", "%[1]s is %.1[2]f mm as drawn and %.1[3]f mm by the tape: %.1[4]f mm apart", "measure again if the seam is to match")
	tapedGap      = stop("taped-gap", "%[1]s ends at %[2]s and %[3]s begins at %[4]s, %.1[5]f mm apart", "measure the two points again")
	tapedSlip     = warn("taped-slip", "%[1]s ends at %[2]s and %[3]s begins at %[4]s, %.1[5]f mm apart; the corner is taken to be at %[4]s", "measure the two points again")
	tapedTwice    = stop("taped-twice", "two edges are called %[1]s", "give each a name of its own")
	tapedTurned   = stop("taped-clockwise", "the edges run clockwise", "list them counter-clockwise, as the piece is seen face up")
	tapedCrossing = stop("taped-crossing", "the outline crosses itself near %.0[1]f, %.0[2]f mm", "look at the points there: across first, then along")
	tapedBend     = stop("taped-bend", "%[1]s cannot be drawn through its points: %[2]s", "check the points, and the order in which they are listed")
	tapedNotch    = stop("taped-notch", "%[1]s is %.1[2]f mm long, so that notch %[3]s at %.1[4]f mm is not on it", "measure from where the edge begins")
	tapedNoCheck  = advice("taped-no-check", "no edge and no distance was taped besides, so nothing checks these points", "tape each edge, and two distances from corner to corner across the piece")
	tapedWay      = stop("taped-way", "%[1]s is given both by points and by its depth", "keep one of the two")
)

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

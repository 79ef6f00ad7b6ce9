package method

import "gusset/internal/finding"

func stop(code, text, mend string) finding.Kind {
	return finding.Kind{Code: "method." + code, Severity: finding.Stop, Text: text, Mend: mend}
}

// The findings of reading methods.
var (
	badSeam            = stop("seam-number", "%[1]q is not a seam number of ISO 4916", "write class, configuration and penetrations in quotes, such as \"2.04.06\", or leave it out")
	badStitch          = stop("stitch-number", "%[1]q is not a stitch number of ISO 4915", "write three digits in quotes, the first from 1 to 6, such as \"301\"")
	badNeedle          = stop("needle", "%[1]q is not a needle size", "write the metric size in quotes, such as \"90\" or \"90/14\"")
	badID              = stop("operation-name", "%[1]q is not a name for an operation", "use small letters, digits and hyphens, such as sew or press-open")
	ownTurn            = stop("own-turn-of-cloth", "turn-of-cloth is worked out from the cloth's thickness and cannot be given", "take it out, or give the value another name")
	unknownValue       = stop("unknown-value", "%[1]s is not among this method's values", "%[2]s")
	badFold            = stop("fold", "turn %[1]d cannot be %[2]s: a turn's depth is a value that is not negative", "name one value for each turn")
	foldsElsewhere     = stop("folds-elsewhere", "a %[1]s has no turns of its own", "leave folds to methods that take a finish")
	unknownPlaceholder = stop("placeholder", "{%[1]s} stands for nothing here", "%[2]s")
	opTwice            = stop("operation-twice", "two operations are called %[1]s", "give each a name of its own")
	unknownAfter       = stop("unknown-after", "%[1]s is after %[2]s, which this method does not have", "%[3]s")
	cyclic             = stop("cycle", "these operations wait for each other: %[1]s", "take one of the afters out")
	stitchPlace        = stop("stitch-place", "%[1]s: stitch %[2]s cannot be made at a place of the kind %[3]s", "name the machine that sews it")
	noStitch           = stop("no-stitch", "%[1]s is done at the %[2]s, but no stitch is named", "name the stitch, such as stitch: \"301\"")
	noLength           = stop("no-stitch-length", "%[1]s has a stitch but no stitch length", "write length: 2.5 mm, or what suits the stitch")
	joinsOnly          = stop("joins-only", "%[1]s is for joins, not for a %[2]s", "take it out")
	repeatElsewhere    = stop("repeat-elsewhere", "a %[1]s has nothing to repeat along", "leave repeat to methods that take a closure")
	noSpacing          = stop("spacing", "%[1]s is less than 1 mm, too little to space anything by", "give it the distance from one to the next")
	nothingRepeats     = stop("each", "the %[1]s is for each of what is repeated, but nothing is", "add repeat, or give the count itself")
	piecesElsewhere    = stop("pieces", "a %[1]s cannot add pieces", "leave pieces to methods that take a join or a part")
	pieceOnce          = stop("pieces-many", "a method adds one kind of piece, and this one has %[1]d", "leave one")
	shapeElsewhere     = stop("shape", "a %[1]s is not a piece for a %[2]s", "a part has tabs; a join has facings and strips")
	tabLength          = stop("tab-length", "the length of a %[1]s is given where it follows from its edge, or lacking where it does not", "give a tab its length; a facing and a strip are as long as their edge")
	overElsewhere      = stop("over", "over is for closures that are sewn shut", "take it out")
	shutElsewhere      = stop("shut", "a %[1]s has no opening to close", "leave shut to methods that take a closure")
	noMethods          = stop("unreadable", "a method that comes with the program cannot be read: %[1]s", "install the program again")
)

package source

import "gusset/internal/finding"

func stop(code, text, mend string) finding.Kind {
	return finding.Kind{Code: "source." + code, Severity: finding.Stop, Text: text, Mend: mend}
}

// Files of any sort.
var (
	tooLarge = stop("too-large", "the file is larger than %[1]d MiB", "check that this is the right file")
	empty    = stop("empty", "the file is empty", "write the file again, or take it away")
	binary   = stop("not-text", "the file is not plain text: byte %[1]d is not part of UTF-8 text", "save it as plain text in UTF-8")
	tooDeep  = stop("too-deep", "nested more than %[1]d deep", "lay the contents out flatter")
	tooMany  = stop("too-many", "more than %[1]d faults: the rest is not listed", "mend these first and check again")
)

// YAML as such.
var (
	yamlBroken    = stop("yaml-broken", "the file cannot be read as YAML: %[1]s", "look at this line and the one above it: indent, quotes, brackets, colons")
	yamlLong      = stop("too-long", "the file has more than %[1]d words and marks", "split it into several files")
	yamlAnchor    = stop("yaml-anchor", "anchors, aliases and merge keys (%[1]s) are not read", "write the value out in each place")
	yamlTag       = stop("yaml-tag", "tags and directives (%[1]s) are not read", "leave it out, or put a value that begins with ! or %% in quotes")
	yamlDocuments = stop("yaml-documents", "a second document begins here", "keep one document in a file")
	badKey        = stop("bad-key", "%[1]s cannot be a key", "use one word or number as the key")
	duplicateKey  = stop("duplicate-key", "%[1]s is given twice", "keep one of the two")
	commaInList   = stop("comma-in-list", "the comma in %[1]q may be a decimal comma or part two numbers",
		"write decimals in [ ] with a point (88.5), and a space after each comma between items")
)

// The first line of a YAML file.
var (
	missingHeader = stop("missing-header", "the file does not begin with %[1]q", "make %[1]q its first line")
	badHeader     = stop("bad-header", "%[1]q does not say a kind and a version", "write %[2]q")
	otherKind     = stop("other-kind", "this is a %[1]s file where a %[2]s file is wanted", "%[3]s")
	newer         = stop("newer", "made by a newer Gusset (%[1]s/%[2]d); this one reads %[1]s/%[3]d", "bring Gusset up to date")
)

// Keys and values.
var (
	missingKey    = stop("missing-key", "%[1]s is missing", "add a line with %[2]s and its value")
	unknownKey    = stop("unknown-key", "%[1]s is not known here", "%[2]s")
	wrongType     = stop("wrong-type", "%[1]s: found %[3]s where %[2]s is wanted", "give %[2]s")
	unknownWord   = stop("unknown-word", "%[1]s: %[2]q is not one of the words read here", "%[3]s")
	badNumber     = stop("bad-number", "%[1]s: %[2]q is not a %[3]s", "write a %[3]s in digits, such as %[4]s")
	badLength     = stop("bad-length", "%[1]s: in %[2]q, character %[3]d: want %[4]s", "write a number and its unit, such as 88.5 cm or 34 1/2 in")
	badPercent    = stop("bad-percent", "%[1]s: in %[2]q, character %[3]d: want %[4]s", "write a number and a percent sign, such as 3 %%")
	outOfRange    = stop("out-of-range", "%[1]s is %[2]s; it must be between %[3]s and %[4]s", "check the number and its unit")
	unquotedLabel = stop("unquoted-label", "%[1]s: the size label %[2]s is not in quotes", "write \"%[2]s\", so that it is read as a name and not as a number")
)

// SVG drawings.
var (
	svgBroken      = stop("svg-broken", "the drawing cannot be read as XML: %[1]s", "save the drawing again as plain SVG")
	svgDoctype     = stop("svg-doctype", "document types and entities are not read", "save the drawing again as plain SVG, or delete the <!DOCTYPE line")
	svgRoot        = stop("svg-root", "the file is not an SVG drawing: its first element is %[1]s", "save it as plain SVG")
	svgViewBox     = stop("svg-viewbox", "the drawing has no sound viewBox: %[1]s", "set the page size in millimetres, so that viewBox is \"0 0 width height\"")
	svgScale       = stop("svg-scale", "%[1]s is %[2]q, but the viewBox says %[3]s mm", "set the document scale so that one user unit is 1 mm")
	svgElement     = stop("svg-element", "<%[1]s> is not read", "draw it with paths, lines, polylines or circles (object to path), outside of clones and symbols")
	svgTransform   = stop("svg-transform", "the transform cannot be read: %[1]s", "use translate, scale, rotate or matrix, or apply the transform in the drawing program")
	svgNumber      = stop("svg-number", "%[1]s is %[2]q where %[3]s wanted", "write numbers in millimetres, without a unit")
	svgPath        = stop("svg-path", "the path data are broken at character %[1]d: %[2]s", "draw the path again, or save it as plain SVG")
	svgArc         = stop("svg-arc", "the path has an elliptical arc, which is not read", "turn the arc into Bézier curves (add nodes, or object to path)")
	svgHuge        = stop("svg-huge", "a coordinate lies more than %[1]d m from the page's corner", "check the scale and the transforms of the drawing")
	svgLong        = stop("svg-too-long", "the drawing has more than %[1]d %[2]s", "leave out what is not part of the pattern piece, or simplify its curves")
	svgDuplicateID = stop("svg-duplicate-id", "the id %[1]q is used twice", "give one of the two another id")
)

package referee

import "gusset/internal/finding"

func stop(code, text, mend string) finding.Kind {
	return finding.Kind{Code: "referee." + code, Severity: finding.Stop, Text: text, Mend: mend}
}

const again = "lay the pieces again"

// The findings of this package.
var (
	outline  = stop("outline", "the cut outline of %[1]s is not a plain counter-clockwise outline within 500 m", "cut set and lay must be made again")
	altered  = stop("altered", "the lay shows another outline for %[1]s than the one to be cut", again)
	unknown  = stop("unknown", "%[1]s lies on the cloth and is not to be cut from it", again)
	missing  = stop("missing", "%[1]s is to be cut and lies nowhere", again)
	twice    = stop("twice", "%[1]s would be cut %[2]d times", again)
	both     = stop("both", "%[1]s is said to have found no place, yet it would be cut", again)
	overlap  = stop("overlap", "%[1]s and %[2]s share cloth %.1[3]f mm from the cut end, within %.1[4]f by %.1[5]f mm", "move one of them")
	beyond   = stop("beyond", "%[1]s reaches %.1[2]f mm past the %[3]s", "move it in, or lay it on wider or longer cloth")
	section  = stop("section", "section %[1]d, %.1[2]f to %.1[3]f mm along the cloth and %.1[4]f mm wide, is not one of this cloth: %[5]s", again)
	astray   = stop("astray", "%[1]s lies in section %[2]d, which is not there", again)
	nofold   = stop("nofold", "%[1]s is half a piece and would be cut twice: no fold runs along its grain there", "open it out on a single layer")
	tilt     = stop("tilt", "%[1]s is turned by %[2]v degrees, which is more than %[3]v off its grain", "turn it back")
	flawed   = stop("flaw", "%[1]s lies on the flaw %[2]s from the end and %[3]s from the selvedge", "move it off the flaw")
	remnant  = stop("remnant", "%[1]s reaches past the edge of the remnant", "move it in")
	grain    = stop("grain", "%[1]s is turned by %[2]v degrees; its grain runs along the cloth at 90 and -90 only, and there is no permission for it to lie off the grain", "turn it")
	nap      = stop("nap", "the top of %[1]s points the other way than that of %[2]s on one-way cloth", "turn it end for end")
	mirror   = stop("mirror", "%[1]s lies face down on a single layer and would be cut as its mirror image", "turn it face up")
	layers   = stop("layers", "%[1]s is cut through %[2]d layers where its section has %[3]d", again)
	single   = stop("single", "%[1]s lies on folded cloth and would be cut twice; it is no half piece and no mirror image goes with it", "lay it on a single layer")
	unequal  = stop("unequal", "%[1]s and %[2]s would be cut as mirror images, and are none", "lay both on a single layer")
	fold     = stop("fold", "the fold line of %[1]s is not exactly on the fold: its ends are %.3[2]f and %.3[3]f mm away", "move it to the fold")
	halved   = stop("halved", "the fold line of %[1]s does not run along its grain at one side of it, so no whole piece can be made of it", "draw the half to one side of an upright fold line")
	phase    = stop("phase", "%[1]s and %[2]s miss each other by %.2[4]f mm of the repeat %[5]s, where they are matched: %[3]s", "move one of them until the same point of the repeat lies under both places")
	hands    = stop("hands", "%[1]s and %[2]s are the two hands of a piece, and their stripes miss each other by %.2[3]f mm of the repeat %[4]s", "move one of them until it mirrors the other")
	barFold  = stop("bar-fold", "section %[1]d is folded where the cloth's repeat is not its own mirror image, so the layers do not show the same", "lay it open, or fold it along the middle of a bar")
	pinMoved = stop("pin-moved", "%[1]s is pinned and does not lie where it is written", again)
	length   = stop("length", "the lay is said to take %.1[1]f mm; its pieces and sections reach %.1[2]f mm, and the cloth %.1[3]f mm", "take longer cloth, or lay the pieces again")
)

// kinds lists all of them.
var kinds = []finding.Kind{
	outline, altered, unknown, missing, twice, both, overlap, beyond, section, astray,
	nofold, tilt, flawed, remnant, grain, nap, mirror, layers, single, unequal, fold, halved, phase, hands, barFold, pinMoved, length,
}

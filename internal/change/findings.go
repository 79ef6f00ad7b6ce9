package change

import "gusset/internal/finding"

// The findings of changes. Lengths come in the user's unit.
var (
	noLine = finding.Kind{
		Code: "change.no-line", Severity: finding.Stop,
		Text: "no piece has a line called %[1]s to lengthen or shorten at",
		Mend: "use one of: %[2]s",
	}
	noRoom = finding.Kind{
		Code: "change.no-room", Severity: finding.Stop,
		Text: "%[1]s at %[2]s is more than %[3]s has room for: %[4]s at the most",
		Mend: "take less here, or share it between two lines",
	}
	noHem = finding.Kind{
		Code: "change.no-hem", Severity: finding.Stop,
		Text: "no finish of this view takes an edge called %[1]s",
		Mend: "name the hem as the pattern's finishes do: %[2]s",
	}
	noLevel = finding.Kind{
		Code: "change.no-level", Severity: finding.Stop,
		Text: "%[1]s has no level called %[2]s to begin from",
		Mend: "use one of: %[3]s",
	}
	levelBelow = finding.Kind{
		Code: "change.level-below", Severity: finding.Stop,
		Text: "level %[1]s of %[2]s is not above the hem",
		Mend: "begin from a level above the hem",
	}
	foldOver = finding.Kind{
		Code: "change.fold-over", Severity: finding.Stop,
		Text: "after this step the outline of %[1]s crosses itself",
		Mend: "change less, or begin from a higher level",
	}
	opened = finding.Kind{
		Code: "change.opens-seam", Severity: finding.Stop,
		Text: "this step makes %[1]s miss by %[2]s: what it is sewn to does not follow",
		Mend: "change the other piece as well, or name a line that both have",
	}
	trued = finding.Kind{
		Code: "change.trued", Severity: finding.Advice,
		Text: "this step changed the sides of %[1]s by different lengths, %[2]s apart; corners were moved by at most %[3]s to make them fit",
		Mend: "walk the seam on the printed pieces if you would rather ease the difference in",
	}
	curvedHem = finding.Kind{
		Code: "change.curved-hem", Severity: finding.Stop,
		Text: "the hem of %[1]s is curved: only straight hems can be moved or tapered here",
		Mend: "change the length at a lengthening line instead",
	}
	hemTooHigh = finding.Kind{
		Code: "change.hem-too-high", Severity: finding.Stop,
		Text: "the hem of %[1]s would pass the end of %[2]s",
		Mend: "shorten less",
	}
	edgePast = finding.Kind{
		Code: "change.edge-past", Severity: finding.Stop,
		Text: "%[1]s of %[2]s, moved so far, would pass the end of %[3]s or of %[4]s",
		Mend: "move it less",
	}
	notchLost = finding.Kind{
		Code: "change.notch-lost", Severity: finding.Warn,
		Text: "notch %[1]s of %[2]s is cut off with the end of its edge",
		Mend: "mark another notch further in if the seam needs one",
	}
	placementMoved = finding.Kind{
		Code: "change.placement", Severity: finding.Warn,
		Text: "placement %[1]s on %[2]s lies where the width changes and is left as it was",
		Mend: "check that the piece set on it still clears the sides",
	}
	noItem = finding.Kind{
		Code: "change.no-item", Severity: finding.Stop,
		Text: "this view has no finish, join, closure or part called %[1]s",
		Mend: "did you mean %[2]s?",
	}
	noEdge = finding.Kind{
		Code: "change.no-edge", Severity: finding.Stop,
		Text: "%[1]s",
		Mend: "name an edge as piece:edge",
	}
	edgeLonger = finding.Kind{
		Code: "change.edge-length", Severity: finding.Advice,
		Text: "%[1]s is %[2]s %[3]s than before: the corner moves and the next edge follows",
		Mend: "walk the seams of both edges",
	}
	noPiece = finding.Kind{
		Code: "change.no-piece", Severity: finding.Stop,
		Text: "this view has no piece called %[1]s",
		Mend: "did you mean %[2]s?",
	}
	noShell = finding.Kind{
		Code: "change.no-shell", Severity: finding.Stop,
		Text: "%[1]s is cut from interfacing alone: it has no other cloth to change",
		Mend: "name a piece that is cut from cloth",
	}
	undivided = finding.Kind{
		Code: "change.undivided", Severity: finding.Stop,
		Text: "%[1]s cannot be divided %[2]s from its end: %[3]s",
		Mend: "divide it elsewhere, or cut it whole",
	}
	noSeam = finding.Kind{
		Code: "change.no-seam", Severity: finding.Stop,
		Text: "this view has no join called %[1]s",
		Mend: "name one of: %[2]s",
	}
	levelOffSeam = finding.Kind{
		Code: "change.level-off-seam", Severity: finding.Stop,
		Text: "%[1]s does not cross a level called %[2]s",
		Mend: "name a level that it crosses; its pieces have: %[3]s",
	}
	levelOrder = finding.Kind{
		Code: "change.level-order", Severity: finding.Stop,
		Text: "along %[1]s, levels %[2]s and %[3]s are not apart, or not in order",
		Mend: "begin at a level below, and end at one above",
	}
	noCorner = finding.Kind{
		Code: "change.no-corner", Severity: finding.Stop,
		Text: "a corner of %[1]s cannot slide so far along %[2]s",
		Mend: "change less, or end the change at a level before the corner",
	}
	noLevelAnywhere = finding.Kind{
		Code: "change.no-level-anywhere", Severity: finding.Stop,
		Text: "no piece has a level called %[1]s",
		Mend: "name a level that is drawn on the pieces",
	}
	levelBelowFork = finding.Kind{
		Code: "change.level-below-fork", Severity: finding.Stop,
		Text: "level %[1]s of %[2]s is not below the fork",
		Mend: "name a level lower down the leg",
	}
	wideWedge = finding.Kind{
		Code: "change.wide-wedge", Severity: finding.Stop,
		Text: "a wedge of %[1]s is too steep for %[2]s: %[3]s at the most",
		Mend: "share it between two levels",
	}
	handsDiffer = finding.Kind{
		Code: "change.hands-differ", Severity: finding.Stop,
		Text: "the two hands of %[1]s differ: a dart of it cannot be changed on both at once",
		Mend: "change the dart before the step that made them differ",
	}
	noDart = finding.Kind{
		Code: "change.no-dart", Severity: finding.Stop,
		Text: "%[1]s is not a dart of this view: two neighbouring edges that meet in a point and are sewn to each other",
		Mend: "name one of: %[2]s",
	}
	noSpot = finding.Kind{
		Code: "change.no-spot", Severity: finding.Stop,
		Text: "%[1]s has no %[2]s",
		Mend: "name a notch or corner of the edge, a level that it crosses, middle, or a distance along it",
	}
	noSlash = finding.Kind{
		Code: "change.no-slash", Severity: finding.Stop,
		Text: "the piece cannot be cut from %[1]s to %[2]s: %[3]s",
		Mend: "choose another place",
	}
	shortDart = finding.Kind{
		Code: "change.short-dart", Severity: finding.Stop,
		Text: "%[1]s would be %[2]s long; one shorter than %[3]s is not sewn to a point",
		Mend: "leave it longer, or gather what it takes in",
	}
	noNeighbour = finding.Kind{
		Code: "change.no-neighbour", Severity: finding.Stop,
		Text: "%[1]s is not an edge beside %[2]s",
		Mend: "move it towards %[3]s or %[4]s",
	}
	notchInWay = finding.Kind{
		Code: "change.notch-in-way", Severity: finding.Stop,
		Text: "notch %[1]s of %[2]s lies where %[3]s would pass",
		Mend: "move the dart less far",
	}
	notBeside = finding.Kind{
		Code: "change.not-beside", Severity: finding.Stop,
		Text: "%[1]s and %[2]s do not open beside each other to one edge",
		Mend: "pivot one of them next to the other first",
	}
	notOneEdge = finding.Kind{
		Code: "change.not-one-edge", Severity: finding.Stop,
		Text: "%[1]s opens at a corner between %[2]s and %[3]s: there is no edge to gather",
		Mend: "pivot it into an edge first",
	}
	noFold = finding.Kind{
		Code: "change.no-fold", Severity: finding.Stop,
		Text: "%[1]s is not cut on the fold",
		Mend: "name a piece that is cut on the fold and opens flat",
	}
	noCentreSeam = finding.Kind{
		Code: "change.no-centre-seam", Severity: finding.Stop,
		Text: "the two halves of %[1]s are not sewn to each other along one whole edge",
		Mend: "name a pair with a plain centre seam",
	}
	leaningCentre = finding.Kind{
		Code: "change.leaning-centre", Severity: finding.Stop,
		Text: "%[1]s of %[2]s leans or bends by %[3]s: a fold is straight and runs with the grain",
		Mend: "straighten the edge first",
	}
	notJoined = finding.Kind{
		Code: "change.not-joined", Severity: finding.Stop,
		Text: "%[1]s cannot be saved: %[2]s",
		Mend: "leave the seam",
	}
	noCrossing = finding.Kind{
		Code: "change.no-crossing", Severity: finding.Stop,
		Text: "no edge runs on across %[1]s",
		Mend: "name a join that ends in an edge sewn or finished as one, or a piece cut on the fold",
	}
	unsettled = finding.Kind{
		Code: "change.unsettled", Severity: finding.Stop,
		Text: "the sides of %[1]s cannot be made to fit: a corner would move by %[2]s, and %[3]s is the most",
		Mend: "settle it as ease, or lengthen the shorter piece at a line",
	}
	noSweep = finding.Kind{
		Code: "change.no-sweep", Severity: finding.Stop,
		Text: "in one sweep %[1]s of %[2]s would move by %[3]s, more than %[4]s: it bends both ways on purpose",
		Mend: "draw it on across one seam only: run-on",
	}
	nothing = finding.Kind{
		Code: "change.nothing", Severity: finding.Advice,
		Text: "this step changes nothing: %[1]s already",
		Mend: "take it out of the recipe",
	}
)

// The findings of the changes of tops.
var (
	noArmhole = finding.Kind{
		Code: "change.no-armhole", Severity: finding.Stop,
		Text: "no piece has an edge in %[1]s next to one in %[2]s",
		Mend: "name the shoulder seam and the armhole seam as this view calls them",
	}
	steepShoulder = finding.Kind{
		Code: "change.steep-shoulder", Severity: finding.Stop,
		Text: "the shoulder of %[1]s cannot be changed by %[2]s",
		Mend: "change less",
	}
	noBlade = finding.Kind{
		Code: "change.no-blade", Severity: finding.Stop,
		Text: "no piece has a level called %[1]s that runs from %[2]s to another edge",
		Mend: "name a level that crosses the armhole at the shoulder blades",
	}
	noArm = finding.Kind{
		Code: "change.no-arm", Severity: finding.Stop,
		Text: "%[1]s cannot be spread by %[2]s: %[3]s",
		Mend: "change less, or name a level below the head of the sleeve",
	}
	noApex = finding.Kind{
		Code: "change.no-apex", Severity: finding.Stop,
		Text: "no piece in %[2]s has a bust point marked %[1]s",
		Mend: "mark the bust point on the front (a drill mark), or name its mark",
	}
	noBust = finding.Kind{
		Code: "change.no-bust", Severity: finding.Stop,
		Text: "%[1]s cannot be changed by %[2]s at the bust: %[3]s",
		Mend: "change less, or share it between two steps",
	}
	noBustDart = finding.Kind{
		Code: "change.no-bust-dart", Severity: finding.Stop,
		Text: "%[1]s has no bust dart: there is nothing to take %[2]s out of",
		Mend: "take it in at the side, a quarter of the whole on each edge: take-in: {seam: %[3]s, by: %[4]s, at: %[5]s}; the front keeps its length",
	}
	pocketOnDart = finding.Kind{
		Code: "change.pocket-on-dart", Severity: finding.Advice,
		Text: "%[1]s on %[2]s lies across the bust dart",
		Mend: "sew and press the dart first, then mark the placement anew over it; or set the piece lower",
	}
	noPocket = finding.Kind{
		Code: "change.no-pocket", Severity: finding.Stop,
		Text: "pocket %[1]s cannot be set so: %[2]s",
		Mend: "set it elsewhere, make it smaller, or give it another name",
	}
	noFacing = finding.Kind{
		Code: "change.no-facing", Severity: finding.Stop,
		Text: "%[1]s cannot be faced %[2]s wide: %[3]s",
		Mend: "make the facing narrower, or keep the finish",
	}
	bentEdge = finding.Kind{
		Code: "change.bent-edge", Severity: finding.Stop,
		Text: "%[1]s of %[2]s is not straight: an overlap ends at a straight edge",
		Mend: "name the straight front edge",
	}
	noClothPiece = finding.Kind{
		Code: "change.no-cloth-piece", Severity: finding.Stop,
		Text: "no piece of this view is cut from %[1]s",
		Mend: "name the cloth that shrinks",
	}
	cutUnwashed = finding.Kind{
		Code: "change.cut-unwashed", Severity: finding.Advice,
		Text: "%[1]s is cut unwashed: the pieces have the size that the first wash takes them from, and joined pieces differ by what it makes good",
		Mend: "washing the cloth before it is cut is surer; then take this step out, and never do both",
	}
)

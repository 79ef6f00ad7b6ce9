package trace

import "gusset/internal/finding"

func stop(code, text, mend string) finding.Kind {
	return finding.Kind{Code: "trace." + code, Severity: finding.Stop, Text: text, Mend: mend}
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

// Cards and tapes.
var (
	noCards = stop("no-cards", "no calibration card is seen",
		"have every card whole and sharp in the picture, four pixels for each small square of its symbol and never less than three; print cards with gusset cards")
	mirrored  = stop("mirrored", "the picture is a mirror image", "turn it over left to right, or switch off mirroring in the camera")
	fewCards  = stop("few-cards", "only %[1]d cards can be used (%[2]s), four are needed", "lay a card near every corner of the piece, and have all of them whole in the picture")
	cardTwice = stop("card-twice", "two cards %[1]s are seen", "use every letter once")
	cardFaint = warn("card-faint", "card %[1]s is seen but a corner mark of it cannot be measured: it is not used",
		"keep tape and weights off the black marks, and the whole card in the picture and in focus")
	tapeCard     = stop("card-missing", "card %[1]s is named by a tape but is not seen", "have it whole and sharp in a photo, or take another tape reading between cards that are")
	noTape       = stop("no-tape", "no distance from card to card is given: the size of the piece is not known", "measure from cross to cross and give it, as --tape \"A-D 118,4 cm\"; best along both diagonals")
	tapeShort    = warn("tape-short", "the longest tape is %.0[1]f mm, the cards lie up to %.0[2]f mm apart: the scale is known to ±%.2[3]f %% only", "measure along a diagonal, corner card to corner card")
	oneTape      = advice("one-tape", "one tape reading gives the size: a slip in it would not be seen", "measure the other diagonal as well")
	tapeOff      = warn("tape-off", "the tape %[1]s-%[2]s of %[3]s is %.1[4]f mm from what the photo makes it", "measure it again, cross to cross")
	tapeWrong    = stop("tape-wrong", "the tape %[1]s-%[2]s of %[3]s is %.1[4]f mm from what the photo makes it", "measure it again, cross to cross; one of the readings or one of the letters is wrong")
	printOff     = warn("print-scale", "by the tape the cards are printed %.1[1]f %% too %[2]s", "if they were not, a tape reading is wrong: hold a rule to a card, its corner points are 85 mm apart")
	printWrong   = stop("print-scale", "by the tape the cards are printed %.1[1]f %% too %[2]s, and no second tape confirms it", "measure the other diagonal, or print the cards again at 100 %%")
	curl         = warn("card-curled", "the cards do not lie quite flat: card %[1]s is %.2[2]f mm out", "tape it down along all sides, or glue the cards to board, and take the photo again")
	curlBad      = stop("card-curled", "the cards do not lie flat, or one was moved: card %[1]s is %.2[2]f mm out, %.2[3]f mm are usual", "tape the cards down along all sides, or glue them to board; do not move them between photos")
	unsolved     = stop("unsolved", "the cards do not fit together to one flat table", "check that the cards lie flat, and that none was moved between photos")
	unconnected  = stop("unconnected", "photo %[1]s shares no card with the others", "take it again so that it shows two cards, better four, of a neighbouring photo; do not move the cards in between")
	otherCamera  = stop("other-camera", "photo %[1]s has %[2]d × %[3]d pixels, the first one %[4]d × %[5]d", "take all photos with the same camera and setting, without cropping them")
	loose        = warn("loosely-joined", "photo %[1]s shares only one card with the others", "take it again so that it shows two of their cards, better four")
	steep        = warn("steep", "photo %[1]s looks at the piece %.0[2]f degrees from straight down", "hold the camera further over the piece: 35 degrees is the most that was tried")
	coarse       = warn("coarse", "a pixel of photo %[1]s covers %.2[2]f mm of the piece", "go nearer, or set the camera to more pixels: half a millimetre is what was tried")
	manyTapes    = stop("tape-same", "a tape goes from card %[1]s to the same card", "name two cards")
	tapeUnlikely = stop("tape-unlikely", "a tape of %[1]s from card to card is not possible", "give the distance from cross to cross, with its unit")
)

// The piece.
var (
	noPiece = stop("no-piece", "no paper is told apart from the table between the cards",
		"lay a dark plain cloth or a sheet of coloured paper under the piece")
	cropped    = stop("cropped", "%.0[1]f mm of the edge run out of the picture, or more than 13 cm outside the cards", "have the whole piece between the cards and in the picture, with room round it; take a long piece in several photos")
	cardTouch  = stop("card-on-piece", "a card lies on the piece or against it for %.0[1]f mm", "move the cards 3 cm away from the piece")
	outsideBy  = warn("outside-cards", "the piece reaches %.0[1]f mm outside the middles of the cards, where nothing holds the scale", "lay the cards further out, one near each corner of the piece")
	lowEdge    = warn("low-contrast", "over %.0[1]f %% of the edge the paper hardly stands out from the table", "look at those places in the preview; a dark plain cloth under the piece makes it sharp")
	lowEdgeBad = stop("low-contrast", "over %.0[1]f %% of the edge the paper does not stand out from the table", "lay a dark plain cloth or a sheet of coloured paper under the piece")
	jagged     = stop("low-contrast", "the edge is too uneven to be followed: %[1]d lines and curves for %[2]d edges", "lay a dark plain cloth or a sheet of coloured paper under the piece, and light it evenly")
	lifted     = warn("lifted", "the photos disagree by %.1[1]f mm about the edge: the paper does not lie quite flat there", "press and weigh the piece down there, and take the photos again")
	liftedBad  = stop("lifted", "the photos disagree by %.1[1]f mm about the edge: the paper does not lie flat there", "press and weigh the piece down there, and take the photos again")
	onePhoto   = advice("one-photo", "one photo cannot show whether the paper lies flat everywhere", "take a second one from the opposite side")
	littleSeen = advice("one-photo", "only %.0[1]f %% of the edge are seen in two photos: elsewhere paper that stands up would not be noticed", "take further photos from other sides")
	confirm    = advice("confirm-notches", "%[1]d of %[2]d notches may be slits or printed ticks: the photo does not tell", "look at them in the preview, and take out what is none")
	grainGuess = advice("grain", "line %[1]d of the preview is taken for the grain: it is the longest that runs as the cards' arrows do", "if it is another, say which: --grain 2")
	noGrain    = warn("grain", "no straight line is found inside: the way the cards' arrows point is taken for the grain", "draw the grain line on the paper, or lay the cards by it")
	noLine     = stop("grain", "there is no line %[1]d", "the preview numbers the lines that are there")
)

// Printed lines that are followed.
var (
	fewPlaces  = stop("few-places", "size %[1]s: %[2]d places do not make an outline", "give three places of the line or more, corners among them")
	offTable   = stop("off-table", "size %[1]s: place %[2]d (%.1[3]f %.1[4]f cm) lies beside what the photos show", "read the places off the grid of the preview, in cm")
	noInk      = stop("no-line-there", "size %[1]s: from place %[2]d to place %[3]d there is no printed line: %.0[4]f %% of the way have ink", "give a place on the line in between, and look at the preview")
	littleInk  = warn("faint-line", "size %[1]s: from place %[2]d to place %[3]d only %.0[4]f %% of the way have ink", "look at it in the preview; a place in between keeps it on the line")
	linesClose = warn("lines-close", "size %[1]s: from place %[2]d to place %[3]d another line runs within 5 mm for %.0[4]f mm: it may have been taken for this one", "look at it in the preview; a place every 3 cm keeps it on the line")
	folds      = stop("line-crosses", "size %[1]s: the followed outline crosses itself", "give the places in their order round the piece, and more of them where lines run close together")
	unlike     = stop("sizes-differ", "size %[1]s has %[2]d corners, size %[3]s has %[4]d", "give the places of a corner in every size, at the corner itself")
)

// Kinds lists every finding of this package.
var Kinds = []finding.Kind{noCards, mirrored, fewCards, cardTwice, cardFaint, tapeCard, noTape, tapeShort, oneTape, tapeOff, tapeWrong,
	printOff, printWrong, curl, curlBad, unsolved, unconnected, otherCamera, loose, steep, coarse, manyTapes, tapeUnlikely,
	noPiece, cropped, cardTouch, outsideBy, lowEdge, lowEdgeBad, jagged, lifted, liftedBad, onePhoto, littleSeen, confirm,
	grainGuess, noGrain, noLine, fewPlaces, offTable, noInk, littleInk, linesClose, folds, unlike}

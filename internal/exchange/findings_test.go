package exchange

import (
	"testing"

	"gusset/internal/finding"
)

// allKinds is every kind of the package.
var allKinds = []finding.Kind{
	tooLarge, empty, tooMuch, farOff, noPieces, faults,
	dxfBinary, dxfGroup, dxfCut, dxfNumber, dxfUnit, dxfBothUnit, dxfScale, dxfNested, dxfEntity, dxfLayer, dxfTwice, dxfText, dxfCutout,
	openLoop, forks, manyLoops, tiny, turned, coarse,
	sizeGap, sizeOrder, noSize, otherEdges, matchRough, dropped, stacked, noGrain, noNotch, badEdge,
	outsideGroups, forked, innerLoops,
	pdfNone, pdfCutShort, pdfDamaged, pdfUnfolds, pdfFilter, pdfLocked, pdfNoPages, pdfRing, pdfDeep, pdfFilled, pdfPicture, pdfApart, pdfTiles, pdfJoined,
	tapedPoint, tapedFew, tapedOff, tapedNear, tapedGap, tapedSlip, tapedTwice, tapedTurned, tapedCrossing, tapedBend, tapedNotch, tapedNoCheck, tapedWay,
}

// Every kind has a code of its own and keeps to the rules of wording.
func TestKinds(t *testing.T) {
	codes := map[string]bool{}
	for _, k := range allKinds {
		if err := k.Validate(); err != nil {
			t.Error(err)
		}
		if codes[k.Code] {
			t.Errorf("code %s is used twice", k.Code)
		}
		codes[k.Code] = true
	}
}

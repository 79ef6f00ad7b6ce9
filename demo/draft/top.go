package main

import "fmt"

// The Mooring overshirt. The draft goes from the nape down: the levels of the
// body (armhole, bust, waist, hip, hem), the back and the front about their
// centres, the sleeve from the armhole it is set in, and every facing from the
// edges it is sewn to. Armhole and neck meet the shoulder seam square, so that
// both run on smoothly over it; the side meets armhole and hem square.
//
// The proportions (a quarter of the bust and the ease for each panel, the back
// a centimetre wider than the front; a back shoulder 6 mm longer than the
// front's; a sleeve head half as high as the armhole is deep, with little ease)
// are common practice of the trade.

// draftTops drafts every size.
func draftTops() ([]draft, error) {
	var out []draft
	for _, s := range topSizes {
		d, err := draftTop(newTopBlock(s))
		if err != nil {
			return nil, fmt.Errorf("size %s: %w", s.label, err)
		}
		out = append(out, d)
	}
	return out, nil
}

func draftTop(b topBlock) (draft, error) {
	back, err := draftTopBack(b)
	if err != nil {
		return nil, err
	}
	front, err := draftTopFront(b)
	if err != nil {
		return nil, err
	}
	sleeve, err := draftSleeve(b, front.piece, back)
	if err != nil {
		return nil, err
	}
	frontFacing, backFacing := draftTopFacings(b, front, back)
	return draft{
		"back": back, "front": front.piece, "sleeve": sleeve,
		"front-facing": frontFacing, "back-facing": backFacing, "sleeve-facing": draftSleeveFacing(sleeve),
		"breast-pocket": breastPocket(b).draft(), "hip-pocket": hipPocket(b).draft(),
	}, nil
}

package main

import (
	"fmt"
	"sort"

	"gusset/internal/piece"
)

// draft is every piece of the pattern in one size, by name.
type draft map[string]piece.Piece

// draftAll drafts every size.
func draftAll() ([]draft, error) {
	var out []draft
	for _, s := range sizes {
		d, err := draftSize(s)
		if err != nil {
			return nil, fmt.Errorf("size %s: %w", s.label, err)
		}
		out = append(out, d)
	}
	return out, nil
}

func draftSize(s size) (draft, error) {
	out := draft{}
	add := func(ps ...piece.Piece) {
		for _, p := range ps {
			out[p.Name] = p
		}
	}
	for _, l := range []leg{{}, {cropped: true}} {
		front, err := draftFront(newBlock(s, l), l)
		if err != nil {
			return nil, err
		}
		back, err := draftBack(front, l)
		if err != nil {
			return nil, err
		}
		add(front.piece, back.piece)
		if l.cropped {
			add(draftBags(front))
			continue
		}
		yoke, err := draftYoke(back)
		if err != nil {
			return nil, err
		}
		waist, _ := yoke.Edge("waist")
		add(yoke, draftBand(front.waist, waist.Curve.Length()), draftFacing(front), draftShield(front))
		add(draftFrontPocket(front), draftBackPocket(back), draftLoops())
	}
	return out, nil
}

// pieceNames lists the pieces in the order of their names.
func pieceNames(drafts []draft) []string {
	var names []string
	for name := range drafts[0] {
		names = append(names, name)
	}
	sort.Strings(names)
	return names
}

package sheet

import (
	"fmt"

	"gusset/internal/cloth"
	"gusset/internal/finish"
	"gusset/internal/piece"
)

// shown is a piece as the pattern sheets show it, once, with how often it is
// cut.
type shown struct {
	cut             finish.Cut
	asDrawn, turned int
}

// showEach groups cut pieces that one drawing serves: the copies of a piece
// from one cloth, and the mirror images among them, which are cut with the
// paper turned over. The left copy is drawn where there is one.
func showEach(cuts []finish.Cut) []shown {
	type key struct {
		piece string
		cloth cloth.Role
		copy  piece.Copy
	}
	var out []shown
	at := map[key]int{}
	for _, c := range cuts {
		k := key{c.Piece, c.Cloth, c.Copy}
		if c.Pair != "" {
			k.copy = piece.Both
		}
		i, ok := at[k]
		if !ok {
			i = len(out)
			at[k] = i
			out = append(out, shown{cut: c})
		}
		if c.Copy == piece.Left && out[i].cut.Copy == piece.Right {
			// The right copy came first: draw the left one instead.
			out[i] = shown{cut: c, turned: out[i].asDrawn}
		}
		if c.Copy == out[i].cut.Copy {
			out[i].asDrawn++
		} else {
			out[i].turned++
		}
	}
	return out
}

// title names the piece, and its hand where the hands differ.
func (s shown) title() string {
	if s.cut.Pair == "" {
		return s.cut.Name()
	}
	return s.cut.Title
}

// copies says how often and how the piece is cut.
func (s shown) copies() string {
	all := s.asDrawn + s.turned
	switch {
	case s.cut.OnFold:
		return fmt.Sprintf("cut %d on the fold", all)
	case s.turned > 0 && all == 2:
		return "cut 2, one of them mirrored"
	case s.turned > 0:
		return fmt.Sprintf("cut %d, %d of them mirrored", all, s.turned)
	}
	return fmt.Sprintf("cut %d, paper face up", all)
}

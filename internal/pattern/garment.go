package pattern

import (
	"maps"

	"gusset/internal/piece"
)

// Garment is one view's pieces in one size with what is done to them: the
// value that the stages from fit to finish hand on. Pieces are as drawn (the
// left hand); a change to one hand only adds the right copy under its own key.
type Garment struct {
	View   View
	Pieces map[string]piece.Piece // "front", or "front@right" where the hands differ
	Order  []string               // piece names in the view's order
}

// Use returns how the named piece is cut in this view.
func (g Garment) Use(name string) (Use, bool) {
	for _, u := range g.View.Uses {
		if u.Piece == name {
			return u, true
		}
	}
	return Use{}, false
}

// Copies lists the copies in which a use is joined: left and right for pairs
// and for pieces on the fold that open flat, single otherwise.
func (u Use) CopyList() []piece.Copy {
	if u.Copies == Pair || u.Copies == OnFold && !u.Folded {
		return []piece.Copy{piece.Left, piece.Right}
	}
	return []piece.Copy{piece.Single}
}

// Copy returns the piece as one copy is cut, face up. The right copy is the
// mirror image unless a change has made it a piece of its own.
func (g Garment) Copy(name string, c piece.Copy) (piece.Piece, bool) {
	if p, ok := g.Pieces[name+"@"+string(c)]; ok {
		return p, true
	}
	p, ok := g.Pieces[name]
	if ok && c == piece.Right {
		p = p.Mirror()
	}
	return p, ok
}

// Handed returns the same garment with every right copy made once and kept, so
// that asking for copies many times mirrors nothing again. It is for looking
// only: a change to it would part the hands.
func (g Garment) Handed() Garment { return g.HandedOf(func(string) bool { return true }) }

// HandedOf is Handed for those pieces only that are needed.
func (g Garment) HandedOf(need func(piece string) bool) Garment {
	pieces := make(map[string]piece.Piece, 2*len(g.Pieces))
	for _, u := range g.View.Uses {
		if !need(u.Piece) {
			continue
		}
		for _, c := range u.CopyList() {
			if p, ok := g.Copy(u.Piece, c); ok && c == piece.Right {
				pieces[u.Piece+"@"+string(c)] = p
			}
		}
	}
	maps.Copy(pieces, g.Pieces)
	g.Pieces = pieces
	return g
}

// Clone returns a garment whose piece map and pieces may be changed freely.
func (g Garment) Clone() Garment {
	pieces := make(map[string]piece.Piece, len(g.Pieces))
	for k, p := range g.Pieces {
		pieces[k] = p.Clone()
	}
	g.Pieces = pieces
	v := g.View
	v.Joins = append([]Join(nil), v.Joins...)
	v.Finishes = append([]Finish(nil), v.Finishes...)
	v.Closures = append([]Closure(nil), v.Closures...)
	g.View = v
	return g
}

package seam

import (
	"slices"

	"gusset/internal/finding"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// Seam is one seam as sewn: two or more sides, each a chain of stretches
// walked from the seam's beginning to its end.
type Seam struct {
	ID      string     // join id, with "@left" or "@right" where sewn for each hand
	Join    string     // the join's id
	Copy    piece.Copy // the hand, or Both
	Title   string
	Sides   [][]Stretch
	Ease    []float64 // stated ease in mm of each side over the first
	Notches []string
	Between []string // the two notches between which the ease is worked in; empty for all along
	Place   finding.Place
}

// Length is the length of the seam's first side in mm.
func (s Seam) Length() float64 { return ChainLength(s.Sides[0]) }

// ChainLength is the length of a side in mm.
func ChainLength(chain []Stretch) float64 {
	var sum float64
	for _, s := range chain {
		sum += s.Length()
	}
	return sum
}

// Resolve turns the view's joins into seams on actual copies. A join written
// without copies is sewn once for each hand. What cannot be resolved is left
// out and reported at the join's place.
func Resolve(g pattern.Garment) ([]Seam, finding.List) {
	g = g.Handed()
	var seams []Seam
	var out finding.List
	for _, j := range g.View.Joins {
		for _, c := range hands(g, j) {
			s, fs := resolve(g, j, c)
			out = append(out, fs...)
			if len(fs) == 0 {
				seams = append(seams, s)
			}
		}
	}
	return seams, out
}

// ResolveDrawn is Resolve without those seams of the right hand that are mirror
// images of the left's: they would say the same of the same drawings. What cannot
// be resolved is left out.
func ResolveDrawn(g pattern.Garment) []Seam {
	seams, _ := resolveDrawn(g)
	return seams
}

// WalkDrawn walks the seams of ResolveDrawn.
func WalkDrawn(g pattern.Garment) ([]Seam, Walked) {
	seams, handed := resolveDrawn(g)
	w, _ := Walk(handed, seams, unit.Millimetre)
	return seams, w
}

// resolveDrawn also returns the garment with those right copies made that the seams
// ask for.
func resolveDrawn(g pattern.Garment) ([]Seam, pattern.Garment) {
	forked := func(j pattern.Join) bool {
		return anyRef(j, func(r piece.Ref) bool { _, own := g.Pieces[r.Piece+"@"+string(piece.Right)]; return own })
	}
	type sewn struct {
		join pattern.Join
		hand piece.Copy
	}
	var list []sewn
	mirrored := map[string]bool{}
	for _, j := range g.View.Joins {
		for _, c := range hands(g, j) {
			if c == piece.Right && !forked(j) {
				continue
			}
			list = append(list, sewn{j, c})
			anyRef(j, func(r piece.Ref) bool {
				mirrored[r.Piece] = mirrored[r.Piece] || CopyFor(g, r, c) == piece.Right
				return false
			})
		}
	}
	g = g.HandedOf(func(name string) bool { return mirrored[name] })
	var seams []Seam
	for _, x := range list {
		if s, found := resolve(g, x.join, x.hand); len(found) == 0 {
			seams = append(seams, s)
		}
	}
	return seams, g
}

// anyRef reports whether a join has a reference of a kind.
func anyRef(j pattern.Join, is func(piece.Ref) bool) bool {
	return slices.ContainsFunc(j.Sides, func(side []piece.Ref) bool { return slices.ContainsFunc(side, is) })
}

// hands lists the copies a join is sewn on: left and right for a join sewn for
// each hand, otherwise once.
func hands(g pattern.Garment, j pattern.Join) []piece.Copy {
	if !j.Each {
		return []piece.Copy{piece.Both}
	}
	for _, side := range j.Sides {
		for _, r := range side {
			if u, ok := g.Use(r.Piece); ok && len(u.CopyList()) == 2 {
				return []piece.Copy{piece.Left, piece.Right}
			}
		}
	}
	return []piece.Copy{piece.Both}
}

func resolve(g pattern.Garment, j pattern.Join, hand piece.Copy) (Seam, finding.List) {
	s := Seam{ID: j.ID, Join: j.ID, Copy: hand, Title: j.Title, Notches: j.Notches, Between: j.EaseBetween, Place: j.Place}
	if hand != piece.Both {
		s.ID += "@" + string(hand)
	}
	var out finding.List
	for i, refs := range j.Sides {
		var chain []Stretch
		for _, r := range refs {
			c := CopyFor(g, r, hand)
			st, err := ResolveRef(g, r, c, against(i, hand, c))
			if err != nil {
				out = append(out, cannotResolve.At(j.Place, j.ID, err.Error()))
				continue
			}
			chain = append(chain, st)
		}
		s.Sides = append(s.Sides, chain)
		s.Ease = append(s.Ease, ease(j, i))
	}
	return s, out
}

// against says whether side i is walked against the copy's outline. The first
// side goes with it, the others against. A join written for each hand is walked
// on the right as the mirror image of the left, so there the outline, which
// Mirror has turned round, is met the other way.
func against(i int, hand, c piece.Copy) bool {
	return (i > 0) != (hand == piece.Right && c == piece.Right)
}

// CopyFor says which copy a reference means when the seam is sewn on the given
// hand: its own if it names one, else the hand's, else the only one there is.
func CopyFor(g pattern.Garment, r piece.Ref, hand piece.Copy) piece.Copy {
	if r.Copy != piece.Both {
		return r.Copy
	}
	if u, ok := g.Use(r.Piece); ok && len(u.CopyList()) == 1 {
		return piece.Single
	}
	if hand == piece.Both {
		return piece.Left
	}
	return hand
}

// ease returns the stated ease of side i; the first stated value belongs to
// the second side.
func ease(j pattern.Join, i int) float64 {
	if i == 0 || i > len(j.Ease) {
		return 0
	}
	return j.Ease[i-1].MM()
}

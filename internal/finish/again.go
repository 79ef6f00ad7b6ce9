package finish

import (
	"reflect"
	"sync"

	"gusset/internal/construct"
	"gusset/internal/finding"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/seam"
)

// Again cuts the pieces of another plan. Those of which the plan asks what that of c
// asked, of the same drawing, come out as they did and are taken over.
func (c CutSet) Again(p construct.Plan) (CutSet, finding.List) {
	b := builderOf(p)
	out := CutSet{uses: b.sideBySide(c.uses)}
	for _, u := range out.uses {
		out.pieces = append(out.pieces, u.cuts...)
		for _, f := range u.found {
			b.add(f)
		}
	}
	return out, b.found
}

// cutUse are the copies of one piece of the view, cut, with what they were cut
// from and what was found.
type cutUse struct {
	asked asked
	cuts  []Cut
	found finding.List
}

// asked is everything that the cuts of one piece of the view depend on.
type asked struct {
	Use     pattern.Use
	Drawn   map[string]piece.Piece
	Demands map[copyKey][]construct.Demand
	Matched map[copyKey][]seam.MatchPoint
}

// sideBySide cuts the pieces of the view, which do not touch each other, at the
// same time.
func (b *builder) sideBySide(before []cutUse) []cutUse {
	out := make([]cutUse, len(b.garment.View.Uses))
	var all sync.WaitGroup
	for i, u := range b.garment.View.Uses {
		all.Go(func() { out[i] = b.useAgain(u, before) })
	}
	all.Wait()
	return out
}

// useAgain takes one piece of the view over from those cut before, or cuts it.
func (b *builder) useAgain(u pattern.Use, before []cutUse) cutUse {
	a := b.askedOf(u)
	for _, old := range before {
		if old.asked.Use.Piece == u.Piece && reflect.DeepEqual(old.asked, a) {
			return old
		}
	}
	own := &builder{garment: b.garment, demands: b.demands, matched: b.matched, told: map[string]bool{}}
	return cutUse{a, own.use(u), own.found}
}

func (b *builder) askedOf(u pattern.Use) asked {
	a := asked{u, map[string]piece.Piece{}, map[copyKey][]construct.Demand{}, map[copyKey][]seam.MatchPoint{}}
	if p, ok := b.garment.Pieces[u.Piece]; ok {
		a.Drawn[""] = p
	}
	for _, c := range u.CopyList() {
		k := copyKey{u.Piece, c}
		a.Demands[k], a.Matched[k] = b.demands[k], b.matched[k]
		if p, ok := b.garment.Pieces[u.Piece+"@"+string(c)]; ok {
			a.Drawn[string(c)] = p
		}
	}
	return a
}

package finish

import (
	"math"
	"slices"

	"gusset/internal/construct"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// leftToRight turns a piece over, left to right.
var leftToRight = geom.Affine{A: -1, D: 1}

// alike reports whether the right copy of a pair is the mirror image of the left, in
// its drawing and in all that is asked of its edges.
func (b *builder) alike(u pattern.Use) bool {
	for _, c := range []piece.Copy{piece.Left, piece.Right} {
		if _, own := b.garment.Pieces[u.Piece+"@"+string(c)]; own {
			return false
		}
	}
	left, right := b.demands[copyKey{u.Piece, piece.Left}], b.demands[copyKey{u.Piece, piece.Right}]
	if u.Copies != pattern.Pair || len(left) != len(right) {
		return false
	}
	p := b.garment.Pieces[u.Piece]
	for i, l := range left {
		e, _ := p.Edge(l.Edge)
		if !mirrorsDemand(l, right[len(right)-1-i], e.Curve.Length()) {
			return false
		}
	}
	return true
}

// mirrorsDemand reports whether r asks of the mirror image of an edge of some length
// what l asks of the edge.
func mirrorsDemand(l, r construct.Demand, length float64) bool {
	same := func(a, b float64) bool { return math.Abs(a-b) < sameWidth }
	near := func(a, b geom.Pt) bool { return a.Dist(leftToRight.Apply(b)) < sameWidth }
	return l.Edge == r.Edge && l.Kind == r.Kind && l.Corner == r.Corner && l.Method == r.Method && l.Source == r.Source &&
		l.Outside == r.Outside && slices.Equal(l.Folds, r.Folds) && same(l.Width, r.Width) && same(l.TurnOf, r.TurnOf) &&
		same(l.From, length-r.To) && same(l.To, length-r.From) &&
		(l.Kind != construct.ForIntake || l.Intake.Back != r.Intake.Back &&
			near(l.Intake.Legs[0], r.Intake.Legs[1]) && near(l.Intake.Legs[1], r.Intake.Legs[0]))
}

// otherHand is a left copy turned over: the right one of a pair that are alike.
func (b *builder) otherHand(u pattern.Use, left Cut) Cut {
	r := left
	r.Copy = piece.Right
	r.ID = u.Piece + "@" + string(piece.Right)
	r.Sewn = left.Sewn.Mirror()
	r.Outline = turnedOver(left.Outline)
	r.Exact = turnedBack(left.Exact, leftToRight.Apply)
	r.Notches = slices.Clone(left.Notches)
	for i, n := range r.Notches {
		r.Notches[i] = [2]geom.Pt{leftToRight.Apply(n[0]), leftToRight.Apply(n[1])}
	}
	r.Turns = turnedBack(left.Turns, func(c geom.Curve) geom.Curve { return c.Transform(leftToRight).Reverse() })
	r.Allowances = turnedBack(left.Allowances, func(a Allowance) Allowance {
		a.At = leftToRight.Apply(a.At)
		return a
	})
	p, _ := b.garment.Copy(u.Piece, piece.Right)
	r.Matched = b.matchedOn(u, piece.Right, upright(p), 0)
	return r
}

// turnedBack is a list in the other order, each of it turned over.
func turnedBack[T any](list []T, over func(T) T) []T {
	if list == nil {
		return nil
	}
	out := make([]T, len(list))
	for i, x := range list {
		out[len(list)-1-i] = over(x)
	}
	return out
}

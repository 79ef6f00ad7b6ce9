package exchange

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// Proposal is a join that the shapes suggest: two sides of equal length in every
// size, or of which one is eased to the other, with notches that meet. Only the
// user knows whether they are sewn together.
type Proposal struct {
	// Sides are the edges of either side in the order in which a pattern's join
	// lists them; of an eased seam the shorter first.
	Sides [2][]piece.Ref
	// Lengths of the sides in the middle size, and the widest difference in any
	// size, in mm.
	Lengths [2]float64
	Widest  float64
	Eased   bool
	Notches []string // names of the notches that meet, as the first side has them
	// Over is the side that goes on over this seam, where that is what speaks for it.
	Over string
	// Else are other edges that would do as well.
	Else []string
}

// How near two sides must come to be proposed. Plain seams are computed within
// half a millimetre, traced paper within 1.5 mm.
const (
	sameLength = 1.5   // mm
	sameShare  = 0.005 // of the length
	sameNotch  = 2.0   // mm along the seam
	shortJoin  = 25.0  // mm; shorter edges match by chance
)

// candidate is a pair of sides that may be sewn together.
type candidate struct {
	Proposal
	a, b side
	cost float64
}

// mostProposed bounds the pieces whose edges are compared.
const mostProposed = 150

// Propose looks for joins between the edges of different pieces: first edge to
// edge; then seams of which one side goes on over another seam, as a side seam
// over that of a yoke; then eased seams, if notches meet on them. A piece sewn to
// its own other hand, and a dart, are not found.
func Propose(pieces []Graded) []Proposal {
	if len(pieces) > mostProposed {
		return nil
	}
	p := proposer{taken: map[*stretch]bool{}}
	single := singles(stretches(pieces))
	p.keep(pairs(single, single, equalSides))
	p.keep(pairs(p.over(p.chosen), p.free(single), equalSides))
	single = p.free(single)
	p.keep(pairs(single, single, easedSides))
	p.keep(pairs(p.over(p.chosen), p.free(single), easedSides))
	// A side that goes on over a seam that is not sure itself, where two notches
	// more speak for both.
	single = p.free(single)
	unsure := p.over(pairs(single, single, likelySides))
	p.keep(pairs(unsure, single, twoNotches(equalSides)))
	p.keep(pairs(p.free(unsure), p.free(single), twoNotches(easedSides)))
	return p.out
}

// equalSides compares two sides that are to have one length in every size.
func equalSides(a, b side) (candidate, bool) {
	c := candidate{a: a, b: b}
	for k := range a.sizes() {
		la, lb := a.length(k), b.length(k)
		gap := math.Abs(la - lb)
		if gap > sameLength && gap > sameShare*la || la < shortJoin {
			return c, false
		}
		c.Widest = math.Max(c.Widest, gap)
		na, nb := facing(a, b, k)
		names, miss, ok := notchesMeet(na, nb, lb)
		if !ok {
			return c, false
		}
		if k == a.sizes()/2 {
			c.Lengths, c.Notches = [2]float64{la, lb}, names
		}
		c.cost = math.Max(c.cost, gap+miss)
	}
	// What goes on over a seam is compared with many: chance must be small.
	if len(a.edges)+len(b.edges) > 2 && len(c.Notches) == 0 && a.sizes() < 3 {
		return c, false
	}
	// Weighed against millimetres of difference: a bend of one radian more on one
	// side counts as one; edges that run the same way on the paper as four, since
	// outlines run counter-clockwise and sewn edges against each other; a notch
	// that meets is worth two.
	c.cost += math.Abs(a.bend() - b.bend())
	if len(a.edges)+len(b.edges) == 2 && a.edges[0].chord.Dot(b.edges[0].chord) > 0 {
		c.cost += 4
	}
	c.cost -= 2 * float64(len(c.Notches))
	return c, true
}

// notchesMeet compares the notches of two sides that are sewn together, which run
// against each other.
func notchesMeet(na, nb []piece.Mark, length float64) (names []string, miss float64, ok bool) {
	if len(na) != len(nb) {
		return nil, 0, len(na) == 0 || len(nb) == 0
	}
	for i := range na {
		d := math.Abs(na[i].At - (length - nb[len(nb)-1-i].At))
		if d > sameNotch {
			return nil, 0, false
		}
		miss = math.Max(miss, d)
		names = append(names, na[i].Name)
	}
	return names, miss, true
}

// notchesOf are the notches of an edge in the order along it.
func notchesOf(p piece.Piece, edge string) []piece.Mark {
	var out []piece.Mark
	for _, m := range p.Marks {
		if m.Kind == piece.Notch && m.Edge == edge {
			out = append(out, m)
		}
	}
	slices.SortFunc(out, func(a, b piece.Mark) int { return cmp.Compare(a.At, b.At) })
	return out
}

// bend is by how much an edge turns in all, left or right, in radians.
func bend(c geom.Curve) float64 {
	pts := c.Flatten(0.1)
	var sum float64
	for i := 2; i < len(pts); i++ {
		a, b := pts[i-1].Sub(pts[i-2]), pts[i].Sub(pts[i-1])
		sum += math.Abs(math.Atan2(a.Cross(b), a.Dot(b)))
	}
	return sum
}

// ID is a name for the join.
func (p Proposal) ID() string {
	a, b := p.Sides[0][0], p.Sides[1][0]
	name := a.Piece + "-" + a.Edge + "-" + b.Piece
	return strings.TrimRight(name[:min(60, len(name))], "-")
}

// Side is one side in words.
func (p Proposal) Side(i int) string {
	var out []string
	for _, r := range p.Sides[i] {
		out = append(out, r.String())
	}
	return strings.Join(out, " + ")
}

// Ease is how much longer the second side is in the middle size, mm; 0 unless it
// is eased.
func (p Proposal) Ease() float64 {
	if !p.Eased {
		return 0
	}
	return p.Lengths[1] - p.Lengths[0]
}

// Why says what speaks for the join.
func (p Proposal) Why() string {
	text := fmt.Sprintf("%.1f and %.1f mm", p.Lengths[0], p.Lengths[1])
	switch {
	case p.Eased:
		text += fmt.Sprintf(", %.1f mm eased in", p.Ease())
	case p.Widest > 0.05:
		text += fmt.Sprintf(", at most %.1f mm apart in any size", p.Widest)
	}
	if n := len(p.Notches); n > 0 {
		text += fmt.Sprintf(", %d notch", n)
		if n > 1 {
			text += "es"
		}
		if p.Eased {
			text += " in the same order"
		} else {
			text += " in the same place"
		}
	}
	if p.Over != "" {
		text += "; " + p.Over + " goes on over it"
	}
	if len(p.Else) > 0 {
		text += "; as well " + strings.Join(p.Else[:min(3, len(p.Else))], ", ")
	}
	return text
}

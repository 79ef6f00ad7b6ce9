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

// Proposal is a join that the shapes suggest: two edges of equal length in every
// size, with notches that meet. Only the user knows whether they are sewn
// together.
type Proposal struct {
	A, B piece.Ref
	// Lengths of either side in the middle size, and the widest difference in any
	// size, in mm.
	LengthA, LengthB, Widest float64
	Notches                  []string // names of the notches that meet, as A has them
	// Else are other edges that would do as well.
	Else []string
}

// How near two edges must come to be proposed. Plain seams are computed within
// half a millimetre, traced paper within 1.5 mm; an eased seam is not found here.
const (
	sameLength = 1.5   // mm
	sameShare  = 0.005 // of the length
	sameNotch  = 2.0   // mm along the seam
	shortJoin  = 25.0  // mm; shorter edges match by chance
)

// candidate is a pair of edges that may be sewn together.
type candidate struct {
	Proposal
	cost float64
}

// mostProposed bounds the pieces whose edges are compared.
const mostProposed = 150

// Propose looks for joins between the edges of different pieces. Seams of several
// edges on a side, eased seams, and a piece sewn to its own other hand are not
// found.
func Propose(pieces []Graded) []Proposal {
	if len(pieces) > mostProposed {
		return nil
	}
	var all []candidate
	for i, a := range pieces {
		for _, b := range pieces[i+1:] {
			for x := range a.In[0].Edges {
				for y := range b.In[0].Edges {
					if c, ok := compare(a, x, b, y); ok {
						all = append(all, c)
					}
				}
			}
		}
	}
	slices.SortStableFunc(all, func(a, b candidate) int { return cmp.Compare(a.cost, b.cost) })
	taken := map[string]bool{}
	var out []Proposal
	for _, c := range all {
		a, b := c.A.String(), c.B.String()
		if taken[a] || taken[b] {
			continue
		}
		taken[a], taken[b] = true, true
		for _, d := range all {
			da, db := d.A.String(), d.B.String()
			if d.cost < c.cost+0.5 && len(d.Notches) == len(c.Notches) && (da == a) != (db == b) {
				c.Else = append(c.Else, da+" with "+db)
			}
		}
		out = append(out, c.Proposal)
	}
	return out
}

func compare(a Graded, x int, b Graded, y int) (candidate, bool) {
	c := candidate{Proposal: Proposal{
		A: piece.Ref{Piece: a.Name, Edge: a.In[0].Edges[x].Name}, B: piece.Ref{Piece: b.Name, Edge: b.In[0].Edges[y].Name},
	}}
	for k := range a.In {
		e, f := a.In[k].Edges[x], b.In[k].Edges[y]
		la, lb := e.Curve.Length(), f.Curve.Length()
		gap := math.Abs(la - lb)
		if gap > sameLength && gap > sameShare*la || la < shortJoin {
			return c, false
		}
		c.Widest = math.Max(c.Widest, gap)
		names, miss, ok := notchesMeet(a.In[k], e, b.In[k], f, lb)
		if !ok {
			return c, false
		}
		if k == len(a.In)/2 {
			c.LengthA, c.LengthB, c.Notches = la, lb, names
		}
		c.cost = math.Max(c.cost, gap+miss)
	}
	// Weighed against millimetres of difference: a bend of one radian more on one
	// side counts as one; edges that run the same way on the paper as four, since
	// outlines run counter-clockwise and sewn edges against each other; a notch
	// that meets is worth two.
	e, f := a.In[0].Edges[x].Curve, b.In[0].Edges[y].Curve
	c.cost += math.Abs(bend(e) - bend(f))
	if e.End().Sub(e.Start()).Dot(f.End().Sub(f.Start())) > 0 {
		c.cost += 4
	}
	c.cost -= 2 * float64(len(c.Notches))
	return c, true
}

// notchesMeet compares the notches of two edges that are sewn together, which run
// against each other.
func notchesMeet(a piece.Piece, e piece.Edge, b piece.Piece, f piece.Edge, length float64) (names []string, miss float64, ok bool) {
	na, nb := notchesOf(a, e.Name), notchesOf(b, f.Name)
	if len(na) != len(nb) {
		return nil, 0, len(na) == 0 || len(nb) == 0
	}
	slices.Reverse(nb)
	for i := range na {
		d := math.Abs(na[i].At - (length - nb[i].At))
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
	return strings.TrimRight((p.A.Piece + "-" + p.A.Edge + "-" + p.B.Piece)[:min(60, len(p.A.Piece)+len(p.A.Edge)+len(p.B.Piece)+2)], "-")
}

// Why says what speaks for the join.
func (p Proposal) Why() string {
	text := fmt.Sprintf("%.1f and %.1f mm", p.LengthA, p.LengthB)
	if p.Widest > 0.05 {
		text += fmt.Sprintf(", at most %.1f mm apart in any size", p.Widest)
	}
	if n := len(p.Notches); n > 0 {
		text += fmt.Sprintf(", %d notch", n)
		if n > 1 {
			text += "es"
		}
		text += " in the same place"
	}
	if len(p.Else) > 0 {
		text += "; as well " + strings.Join(p.Else[:min(3, len(p.Else))], ", ")
	}
	return text
}

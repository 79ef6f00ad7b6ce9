package exchange

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// side is one side of a seam: an edge, or edges of several pieces one after the
// other, along their outlines.
type side struct {
	edges []*stretch
	over  []*stretch // the two edges of the seam that it goes on over, if it does
}

// stretch is an edge of a piece, with what is compared of it in every size.
type stretch struct {
	of           *Graded
	number       int // among all edges of all pieces
	ref          piece.Ref
	before, next *stretch // in the outline
	chord        geom.Pt
	length       []float64
	notches      [][]piece.Mark
	bend         float64
}

// stretches are the edges of all pieces.
func stretches(pieces []Graded) []*stretch {
	var out []*stretch
	for i := range pieces {
		g := &pieces[i]
		first := len(out)
		for k, e := range g.In[0].Edges {
			s := &stretch{of: g, number: len(out), ref: piece.Ref{Piece: g.Name, Edge: e.Name}, chord: e.Curve.End().Sub(e.Curve.Start()), bend: bend(e.Curve)}
			for _, in := range g.In {
				s.length = append(s.length, in.Edges[k].Curve.Length())
				s.notches = append(s.notches, notchesOf(in, in.Edges[k].Name))
			}
			out = append(out, s)
		}
		own := out[first:]
		for k, s := range own {
			s.before, s.next = own[(k+len(own)-1)%len(own)], own[(k+1)%len(own)]
		}
	}
	return out
}

func (r side) sizes() int { return len(r.edges[0].length) }

func (r side) length(size int) float64 {
	var sum float64
	for _, s := range r.edges {
		sum += s.length[size]
	}
	return sum
}

// notches are those of a size in the order along the side, At from its beginning.
func (r side) notches(size int) []piece.Mark {
	if len(r.edges) == 1 {
		return r.edges[0].notches[size]
	}
	var out []piece.Mark
	from := 0.0
	for _, s := range r.edges {
		for _, m := range s.notches[size] {
			m.At += from
			out = append(out, m)
		}
		from += s.length[size]
	}
	return out
}

// joints are the places between the edges of the side, as marks: a notch of the
// other side may meet the seam that it goes on over, as that of a sleeve's crown
// meets the shoulder seam.
func (r side) joints(size int) []piece.Mark {
	var out []piece.Mark
	at := 0.0
	for i, s := range r.edges[1:] {
		at += r.edges[i].length[size]
		out = append(out, piece.Mark{Name: "at " + s.ref.String(), At: at})
	}
	return out
}

// facing are the notches of two sides in a size, with the joints of a side among
// them where the other has as many more.
func facing(a, b side, size int) (na, nb []piece.Mark) {
	na, nb = a.notches(size), b.notches(size)
	if len(na) < len(nb) {
		na = withJoints(na, a.joints(size), len(nb))
	} else if len(nb) < len(na) {
		nb = withJoints(nb, b.joints(size), len(na))
	}
	return na, nb
}

func withJoints(marks, joints []piece.Mark, want int) []piece.Mark {
	if len(marks)+len(joints) != want {
		return marks
	}
	out := append(slices.Clone(marks), joints...)
	slices.SortStableFunc(out, func(x, y piece.Mark) int { return cmp.Compare(x.At, y.At) })
	return out
}

func (r side) bend() float64 {
	var sum float64
	for _, s := range r.edges {
		sum += s.bend
	}
	return sum
}

func (r side) refs() []piece.Ref {
	out := make([]piece.Ref, len(r.edges))
	for i, s := range r.edges {
		out[i] = s.ref
	}
	return out
}

// name is the side in words.
func (r side) name() string {
	var out []string
	for _, s := range r.edges {
		out = append(out, s.ref.String())
	}
	return strings.Join(out, " + ")
}

// shares reports whether two runs have a piece in common.
func (r side) shares(o side) bool {
	for _, s := range r.edges {
		if slices.ContainsFunc(o.edges, func(q *stretch) bool { return s.of == q.of }) {
			return true
		}
	}
	return false
}

// proposer gathers proposals, the surest first: an edge that has been taken is
// not proposed again.
type proposer struct {
	taken  map[*stretch]bool
	chosen []candidate
	out    []Proposal
}

// singles are edges, each a side of its own.
func singles(all []*stretch) []side {
	out := make([]side, len(all))
	for i := range all {
		out[i] = side{edges: all[i : i+1]}
	}
	return out
}

// free are the runs of which no edge has been taken.
func (p *proposer) free(all []side) []side {
	return slices.DeleteFunc(slices.Clone(all), func(r side) bool {
		return slices.ContainsFunc(r.edges, func(q *stretch) bool { return p.taken[q] })
	})
}

// over are the sides that go on over seams: sewn edges run against each other, so
// where edge e is sewn to f, the edge before e goes on in the edge after f, and
// the edge before f in the edge after e.
func (p *proposer) over(seams []candidate) []side {
	var out []side
	for _, c := range seams {
		if len(c.a.edges)+len(c.b.edges) > 2 {
			continue
		}
		e, f := c.a.edges[0], c.b.edges[0]
		seam := []*stretch{e, f}
		out = append(out, side{[]*stretch{e.before, f.next}, seam}, side{[]*stretch{f.before, e.next}, seam})
	}
	return p.free(out)
}

// mostPairs bounds the pairs that are compared at once.
const mostPairs = 2_000_000

// pairs compares every side of one list with those of another that lie on other
// pieces, two single edges once.
func pairs(as, bs []side, compare func(a, b side) (candidate, bool)) []candidate {
	var out []candidate
	if len(as)*len(bs) > mostPairs {
		return nil
	}
	for _, a := range as {
		for _, b := range bs {
			if len(a.edges)+len(b.edges) == 2 && a.edges[0].number > b.edges[0].number || a.shares(b) {
				continue
			}
			if c, ok := compare(a, b); ok {
				out = append(out, c)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b candidate) int { return cmp.Compare(a.cost, b.cost) })
	return out
}

// keep proposes the best of the candidates, each edge once.
func (p *proposer) keep(all []candidate) {
	for _, c := range all {
		if len(p.free([]side{c.a, c.b})) < 2 {
			continue
		}
		c.Else = others(c, all)
		p.take(c)
		for _, r := range []side{c.a, c.b} {
			p.under(r)
		}
	}
}

// take proposes a candidate.
func (p *proposer) take(c candidate) {
	for _, r := range []side{c.a, c.b} {
		for _, q := range r.edges {
			p.taken[q] = true
		}
	}
	against := c.b.refs()
	slices.Reverse(against) // the second side is walked against its outline
	c.Sides = [2][]piece.Ref{c.a.refs(), against}
	p.chosen = append(p.chosen, c)
	p.out = append(p.out, c.Proposal)
}

// under proposes the seam that a side goes on over, if it was not sure by itself.
func (p *proposer) under(r side) {
	if len(r.over) == 0 {
		return
	}
	a, b := side{edges: r.over[:1]}, side{edges: r.over[1:]}
	if len(p.free([]side{a, b})) < 2 {
		return
	}
	c, ok := equalSides(a, b)
	if !ok {
		if a.length(0) > b.length(0) {
			a, b = b, a
		}
		mid := a.sizes() / 2
		c = candidate{a: a, b: b}
		c.Eased, c.Lengths = true, [2]float64{a.length(mid), b.length(mid)}
	}
	c.Over = r.name()
	p.take(c)
}

// others are the candidates that would do as well as c for one of its sides.
func others(c candidate, all []candidate) (out []string) {
	a, b := c.a.name(), c.b.name()
	for _, d := range all {
		da, db := d.a.name(), d.b.name()
		same := (da == a || da == b) != (db == a || db == b)
		if same && d.cost < c.cost+0.5 && len(d.Notches) == len(c.Notches) {
			out = append(out, da+" with "+db)
		}
	}
	return out
}

// Bounds of an eased seam (common practice): a sleeve head is up to a tenth longer
// than its armhole, a back shoulder some millimetres longer than the front.
const (
	mostEase   = 0.10 // of the shorter side
	oneNotch   = 0.06 // likewise, where a single notch speaks for it
	easeGrows  = 0.25 // by how much it may differ between sizes, of itself
	likelyEase = 0.08
)

// easedSides compares two sides of which one is a little longer in every size,
// with notches in the same order and no stretch between them shorter on the
// longer side.
func easedSides(a, b side) (candidate, bool) {
	if a.length(0) > b.length(0) {
		a, b = b, a
	}
	mid := a.sizes() / 2
	c := candidate{a: a, b: b}
	c.Eased, c.Lengths = true, [2]float64{a.length(mid), b.length(mid)}
	for k := range a.sizes() {
		la, lb := a.length(k), b.length(k)
		na, nb := facing(a, b, k)
		ease, most := lb-la, mostEase
		if len(na) == 1 {
			most = oneNotch
		}
		if la < shortJoin || ease < sameLength || ease > most*la || len(na) == 0 || len(na) != len(nb) {
			return c, false
		}
		if math.Abs(ease-c.Ease()) > max(2*sameLength, easeGrows*c.Ease()) || !stretchesHold(na, nb, la, lb) {
			return c, false
		}
		c.Widest = max(c.Widest, ease)
	}
	na, _ := facing(a, b, mid)
	for _, m := range na {
		c.Notches = append(c.Notches, m.Name)
	}
	c.cost = c.Ease() + 5*math.Abs(a.bend()-b.bend()) - 10*float64(len(c.Notches))
	return c, true
}

// stretchesHold reports whether every stretch from notch to notch is as long on
// the longer side, or longer by no more than the whole ease and than so much of it
// can be eased in.
func stretchesHold(na, nb []piece.Mark, la, lb float64) bool {
	a, b := 0.0, 0.0
	for i := range len(na) + 1 {
		endA, endB := la, lb
		if i < len(na) {
			endA, endB = na[i].At, lb-nb[len(nb)-1-i].At
		}
		if more := (endB - b) - (endA - a); more < -sameNotch || more > min(lb-la, mostEase*(endA-a))+sameNotch {
			return false
		}
		a, b = endA, endB
	}
	return true
}

// twoNotches wants two notches to meet.
func twoNotches(compare func(a, b side) (candidate, bool)) func(a, b side) (candidate, bool) {
	return func(a, b side) (candidate, bool) {
		c, ok := compare(a, b)
		return c, ok && len(c.Notches) >= 2
	}
}

// likelySides are edges that could be sewn together, equal or eased.
func likelySides(a, b side) (candidate, bool) {
	for k := range a.sizes() {
		if la, lb := a.length(k), b.length(k); la < shortJoin || math.Abs(la-lb) > likelyEase*min(la, lb) {
			return candidate{}, false
		}
	}
	return candidate{a: a, b: b}, true
}

package change

import (
	"fmt"
	"math"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// spread slashes a piece from one edge to another and spreads it there by an
// amount, or laps it by less than nothing. The slash ends in a hinge on the other
// edge, which keeps its length; spread evenly, both edges gain the same. Flare is
// spread at a hem, fullness at an edge that is gathered.
//
// Hinged, what opens is a wedge with the slash for legs: its area is half the
// square of the slash times the sine of the angle, and the opening is twice the
// slash times the sine of half of it (identities of the isosceles triangle). An
// equal amount lapped at the same place undoes it.
func spread(j *job) string {
	by := j.step.By.MM()
	open, k, at, ok1 := j.spotOn(j.step.Spot)
	hinge, h, hingeAt, ok2 := j.spotOn(j.step.Hinge)
	if !ok1 || !ok2 {
		return ""
	}
	p := open
	if hinge.Name != p.Name || k == h {
		j.tell(noSlash, j.step.Spot.Edge, j.step.Hinge.Edge, "the slash must run to another edge of the same piece")
		return ""
	}
	q, c := p.Edges[k].Curve.At(at), p.Edges[h].Curve.At(hingeAt)
	if !clearLine(p, q, c) {
		j.tell(noSlash, j.step.Spot.Edge, j.step.Hinge.Edge, "the slash leaves the piece")
		return ""
	}
	if most := mostSpread * q.Dist(c); math.Abs(by) > most {
		j.tell(noRoom, j.step.By, p.Edges[k].Name, p.Name, j.say(most))
		return ""
	}
	before := map[string][]float64{}
	for _, r := range walk(j.g) {
		before[r.Seam.ID] = r.Lengths
	}
	s := slash{j: j, p: p.Clone(), open: k, hinge: h, at: at, hingeAt: hingeAt, even: j.step.Even}
	if why := s.spread(by); why != "" {
		j.tell(noSlash, j.step.Spot.Edge, j.step.Hinge.Edge, why)
		return ""
	}
	j.rewire(p, s.now, nil)
	if j.step.Gather {
		j.easeGrown(before)
	}
	word := "spread"
	if by < 0 {
		word = "lapped"
	}
	return fmt.Sprintf("%s %s %s at %s", p.Title, word, strings.TrimLeft(j.step.By.String(), "+-"), p.Edges[k].Name)
}

// mostSpread is the widest opening as a share of the slash: wider wants several
// slashes, or the hem is no curve any more.
const mostSpread = 0.5

// slash is a cut across a piece from edge open to edge hinge.
type slash struct {
	j           *job
	p, now      piece.Piece
	open, hinge int
	at, hingeAt float64
	even        bool
	across      float64 // length of what the open edge runs on over, in mm
}

// spread opens the slash. first is the part from the opening round to the hinge,
// in outline order, second the part from the hinge back to the opening.
func (s *slash) spread(by float64) string {
	p := s.p
	q, c := p.Edges[s.open].Curve.At(s.at), p.Edges[s.hinge].Curve.At(s.hingeAt)
	gap := -by // what is lapped along the edge goes away
	openEnd, hingeEnd := s.at, s.hingeAt
	if by < 0 {
		var ok bool
		if openEnd, ok = chordAlong(p.Edges[s.open].Curve, s.at, gap); !ok {
			return "there is less of the edge than is to be lapped"
		}
		if s.even {
			if hingeEnd, ok = chordAlong(p.Edges[s.hinge].Curve.Reverse(), p.Edges[s.hinge].Curve.Length()-s.hingeAt, gap); !ok {
				return "there is less of the edge than is to be lapped"
			}
			hingeEnd = p.Edges[s.hinge].Curve.Length() - hingeEnd
		}
	}
	for _, lapped := range []struct {
		edge     string
		from, to float64
	}{{p.Edges[s.open].Name, s.at, openEnd}, {p.Edges[s.hinge].Name, hingeEnd, s.hingeAt}} {
		for _, m := range p.Marks {
			if lost(m, lapped.edge, lapped.from, lapped.to) && s.j.bounds(p.Name, m.Name) {
				return "it laps notch " + m.Name + ", where a seam begins or ends"
			}
		}
	}
	away := p.Edges[s.open].Curve.At(openEnd)
	// The map takes first so that its beginning lies by from q along the edge.
	var by2 geom.Affine
	switch {
	case s.even && by > 0:
		side := c.Sub(q).Left().Unit()
		if side.Dot(p.Edges[s.open].Curve.TangentAt(s.at)) < 0 {
			side = side.Mul(-1)
		}
		by2 = geom.Shift(side.Mul(by))
	case s.even:
		by2 = geom.Shift(q.Sub(away))
	case by > 0:
		turn := 2 * math.Asin(by/2/q.Dist(c))
		if c.Sub(q).Cross(p.Edges[s.open].Curve.TangentAt(s.at)) > 0 {
			turn = -turn
		}
		by2 = geom.Turn(turn, c)
	default:
		by2 = geom.Turn(turnFrom(c, away, q), c)
	}
	return s.lay(by2, openEnd, hingeEnd)
}

// chordAlong is the place on a curve after at that lies a straight distance away.
func chordAlong(c geom.Curve, at, chord float64) (float64, bool) {
	from, l := c.At(at), c.Length()
	lo, hi := at, math.Min(l, at+2*chord)
	if c.At(hi).Dist(from) < chord {
		return 0, false
	}
	for range 60 {
		if mid := (lo + hi) / 2; c.At(mid).Dist(from) < chord {
			lo = mid
		} else {
			hi = mid
		}
	}
	return hi, hi < l-atEnd
}

// lay puts the parts together again, the edges run on across what has opened.
// Which part stays is for the grain and the fold; the other turns.
func (s *slash) lay(by geom.Affine, openEnd, hingeEnd float64) string {
	j, p := s.j, s.p
	open, hinge := p.Edges[s.open], p.Edges[s.hinge]
	openA, openB := open.Curve.Between(0, s.at), open.Curve.Between(openEnd, open.Curve.Length())
	hingeA, hingeB := hinge.Curve.Between(0, hingeEnd), hinge.Curve.Between(s.hingeAt, hinge.Curve.Length())
	first, second := between(p, s.open+1, s.hinge), between(p, s.hinge+1, s.open)
	whole := func(a geom.Curve, mid chain, b geom.Curve) chain {
		return append(append(chain{{Curve: a}}, mid...), piece.Edge{Curve: b})
	}
	back := inverse(by)
	firstRing := whole(openB, first, hingeA).ring()
	secondRing := whole(hingeB, second, openA).ring()
	var moved []geom.Pt
	m := by
	if j.staying(p.Name, whole(hingeB, second, openA), whole(openB, first, hingeA)) {
		moved = firstRing
		first, openB, hingeA = j.turned(first, m), openB.Transform(m), hingeA.Transform(m)
	} else {
		m = back
		moved = secondRing
		second, openA, hingeB = j.turned(second, m), openA.Transform(m), hingeB.Transform(m)
	}
	hingeLong := hingeA.Length()
	open.Curve = s.meet(openA, openB, openEnd > s.at)
	s.across = runOn(openA, openB).Length()
	over := runOn(hingeA, hingeB)
	hinge.Curve = joinedCurves(joinedCurves(hingeA, over), hingeB)
	j.mark(&open)
	j.mark(&hinge)
	s.shiftNotches(open.Name, s.at, openEnd, open.Curve.Length()-openB.Length()-openEnd)
	s.shiftNotches(hinge.Name, hingeEnd, s.hingeAt, hingeLong+over.Length()-s.hingeAt)
	edges := append(chain{open}, first...)
	edges = append(append(edges, hinge), second...)
	s.now = j.assemble(s.p, edges, moved, m)
	return ""
}

// easeReach is how far to either side of a lapped slash an edge is drawn round
// again, mm.
const easeReach = 60

// meet draws an edge on from one side of the slash to the other. Lapped, the two
// meet in a corner, or a step where one side of the slash is longer: there the
// edge is drawn round again.
func (s *slash) meet(a, b geom.Curve, lapped bool) geom.Curve {
	across := runOn(a, b)
	smoothly := len(a) > 0 && len(b) > 0 && a.EndTangent().Dist(b.StartTangent()) < 1e-6
	if !lapped || len(a) == 0 || len(b) == 0 || len(across) == 0 && smoothly {
		return joinedCurves(joinedCurves(a, across), b)
	}
	la, lb := a.Length(), b.Length()
	a, b = a.Between(0, la-math.Min(easeReach, 0.6*la)), b.Between(math.Min(easeReach, 0.6*lb), lb)
	return joinedCurves(joinedCurves(a, runOn(a, b)), b)
}

// lost tells whether a mark is a notch on what is lapped between two places of an
// edge.
func lost(m piece.Mark, edge string, from, to float64) bool {
	return m.Kind == piece.Notch && m.Edge == edge && m.At > from && m.At < to
}

// shiftNotches moves the notches of an edge beyond a slash; those on what has
// been lapped are lost.
func (s *slash) shiftNotches(edge string, from, to, by float64) {
	var kept []piece.Mark
	for _, m := range s.p.Marks {
		if lost(m, edge, from, to) {
			s.j.tell(notchLost, m.Name, s.p.Name)
			continue
		}
		if m.Kind == piece.Notch && m.Edge == edge && m.At > from {
			m.At += by
		}
		kept = append(kept, m)
	}
	s.p.Marks = kept
}

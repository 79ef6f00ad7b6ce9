package change

import (
	"fmt"
	"math"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
	"gusset/internal/seam"
)

// takeIn takes in or lets out a seam: every edge in it moves inwards, square to
// itself, by the amount at a level, less and less down to another level, or to
// the seam's lower end, and up to a third level. Where none is named above, the amount is kept to the seam's end,
// and the corner there slides along the edge that meets it: the waist gets
// shorter and whatever is sewn to it follows. The amount is for each edge, so a
// seam of two edges takes twice as much from the girth, and two such seams four
// times (CWU Costume Text ch. 17: divide by the number of seam edges).
func takeIn(j *job) string {
	by := j.step.By.MM()
	s, ok := j.seamOf(j.step.Item)
	if !ok {
		return ""
	}
	// A centre seam has the same drawing on both sides; the first takes it in.
	taker := map[string]int{}
	for side, chain := range s.Sides {
		for _, st := range chain {
			name, _ := drawing(j.g, st)
			if _, known := taker[name+":"+st.Edge]; !known {
				taker[name+":"+st.Edge] = side
			}
		}
	}
	for side := range s.Sides {
		j.takeInSide(s, side, by, taker)
	}
	if j.found.Stops() > 0 {
		return ""
	}
	word := "taken in"
	if by < 0 {
		word = "let out"
	}
	return fmt.Sprintf("%s %s by %s on each edge at the %s", j.step.Item, word, strings.TrimLeft(j.step.By.String(), "+-"), j.step.At)
}

// seamOf resolves a join as sewn on the left, or once.
func (j *job) seamOf(id string) (seam.Seam, bool) {
	seams := seam.ResolveDrawn(j.g)
	var ids []string
	for _, s := range seams {
		if s.Join == id && s.Copy != piece.Right {
			return s, true
		}
		if s.Copy != piece.Right {
			ids = append(ids, s.Join)
		}
	}
	j.tell(noSeam, id, strings.Join(ids, ", "))
	return seam.Seam{}, false
}

// profile is how much of an amount applies at each distance walked along one
// side of a seam: all of it between full and the far end, none beyond zero.
type profile struct{ zero, full, end, past float64 }

func (f profile) at(walked float64) float64 {
	t := smooth((walked - f.zero) / (f.full - f.zero))
	if f.end != f.past {
		t *= smooth((f.past - walked) / (f.past - f.end))
	}
	return t
}

// profileOf places the step's levels along a side.
func (j *job) profileOf(s seam.Seam, chain []seam.Stretch) (profile, bool) {
	full, ok1 := j.levelAlong(s, chain, j.step.At)
	zero, ok2 := lowerEnd(chain), true
	if j.step.From != "" {
		zero, ok2 = j.levelAlong(s, chain, j.step.From)
	}
	if !ok1 || !ok2 {
		return profile{}, false
	}
	f := profile{zero: zero, full: full}
	if j.step.Upto != "" {
		past, ok := j.levelAlong(s, chain, j.step.Upto)
		if !ok {
			return profile{}, false
		}
		f.end, f.past = full, past
	}
	if math.Abs(f.full-f.zero) < 1 || f.end != f.past && (f.past-f.end)*(f.full-f.zero) <= 0 {
		j.tell(levelOrder, s.Join, j.step.From, j.step.At)
		return profile{}, false
	}
	return f, true
}

// lowerEnd is the end of a side that lies lower, as a distance walked. Pieces lie
// anywhere on the paper, so the first stretch alone tells which way is down.
func lowerEnd(chain []seam.Stretch) float64 {
	if c := chain[0].Curve; c.Start().Y > c.End().Y {
		return seam.ChainLength(chain)
	}
	return 0
}

// levelAlong is where a seam crosses a level, as a distance walked along one
// side of it.
func (j *job) levelAlong(s seam.Seam, chain []seam.Stretch, level string) (float64, bool) {
	var before float64
	names := map[string]bool{}
	for _, st := range chain {
		name, mirrored := drawing(j.g, st)
		p := j.g.Pieces[name]
		for _, n := range levelNames(p) {
			names[n] = true
		}
		if l, ok := p.Line(piece.Level, level); ok && !st.Inside {
			c := st.Curve
			if mirrored {
				c = c.Transform(geom.Affine{A: -1, D: 1})
			}
			y := height(l.Curve)
			line := geom.Polyline(geom.Pt{X: -farOff, Y: y}, geom.Pt{X: farOff, Y: y})
			if x := geom.Crossings(c, line); len(x) > 0 {
				return before + x[0].A, true
			}
		}
		before += st.Length()
	}
	if at, ok := j.levelAtEnd(chain, level); ok {
		return at, true
	}
	j.tell(levelOffSeam, s.Join, level, strings.Join(sorted(names), ", "))
	return 0, false
}

// pastEnd is how far past the end of its edge a level may lie, mm: a waist is
// curved, and a yoke takes the top off the piece that has the level.
const pastEnd = 60

// levelAtEnd is the upper end of the first edge of a side that ends just below
// the level.
func (j *job) levelAtEnd(chain []seam.Stretch, level string) (float64, bool) {
	var before float64
	for _, st := range chain {
		name, _ := drawing(j.g, st)
		l, ok := j.g.Pieces[name].Line(piece.Level, level)
		at, top := before, st.Curve.Start().Y
		if y := st.Curve.End().Y; y > top {
			at, top = before+st.Length(), y
		}
		if ok && !st.Inside {
			if over := height(l.Curve) - top; over >= 0 && over <= pastEnd {
				return at, true
			}
		}
		before += st.Length()
	}
	return 0, false
}

// farOff is farther than any piece reaches, mm.
const farOff = 1e4

// takeInSide moves the edges of one side, but for those that another takes.
func (j *job) takeInSide(s seam.Seam, side int, by float64, taker map[string]int) {
	chain := s.Sides[side]
	f, ok := j.profileOf(s, chain)
	if !ok {
		return
	}
	var before float64
	for _, st := range chain {
		name, mirrored := drawing(j.g, st)
		if !st.Inside && taker[name+":"+st.Edge] == side {
			start := before
			p := j.g.Pieces[name].Clone()
			i := p.Index(st.Edge)
			l := p.Edges[i].Curve.Length()
			j.moveIn(&p, i, func(at float64) float64 {
				if mirrored {
					at = l - at
				}
				if at < st.From-0.01 || at > st.To+0.01 {
					return 0
				}
				return by * f.at(start+st.Walked(at))
			})
			j.g.Pieces[name] = p
		}
		before += st.Length()
	}
}

// slide is how much of an edge, in mm from its end, goes with a corner that
// slides along the neighbouring edge.
const slide = 60

// moveIn moves edge i inwards by an amount that may differ along it. A corner
// that moves stays on the neighbouring edge, which is cut off there or run on.
func (j *job) moveIn(p *piece.Piece, i int, amount func(at float64) float64) {
	e := p.Edges[i].Curve
	l, n := e.Length(), len(p.Edges)
	before, after := (i+n-1)%n, (i+1)%n
	startBy, endBy := amount(0), amount(l)
	start := j.slideCorner(p, before, e.Start(), e.StartTangent().Left(), startBy, true)
	end := j.slideCorner(p, after, e.End(), e.EndTangent().Left(), endBy, false)
	start = start.Sub(e.StartTangent().Left().Mul(startBy))
	end = end.Sub(e.EndTangent().Left().Mul(endBy))
	reach := math.Min(slide, l/2)
	j.mapSpots(p, i, func(s geom.Spot) geom.Pt {
		q := s.P.Add(s.Tangent().Left().Mul(amount(s.At)))
		q = q.Add(start.Mul(1 - smooth(s.At/reach)))
		return q.Add(end.Mul(1 - smooth((l-s.At)/reach)))
	}, fitTol)
}

// slideCorner moves a corner inwards by an amount along the neighbouring edge k
// and returns how far it went. last says that the neighbour ends there.
func (j *job) slideCorner(p *piece.Piece, k int, corner, in geom.Pt, by float64, last bool) geom.Pt {
	if math.Abs(by) < 1e-9 {
		return geom.Pt{}
	}
	c := p.Edges[k].Curve
	if last {
		c = c.Reverse() // now it begins at the corner
	}
	depth := func(at float64) float64 { return c.At(at).Sub(corner).Dot(in) }
	slope := c.StartTangent().Dot(in)
	if slope < leastSlope {
		j.tell(noCorner, p.Name, p.Edges[k].Name)
		return in.Mul(by)
	}
	x := by / slope
	if by < 0 {
		c = c.Extend(-x, 0)
	} else {
		for range 30 {
			x = math.Min(math.Max(x+(by-depth(x))/slope, 0), c.Length())
		}
		if math.Abs(depth(x)-by) > 0.01 {
			j.tell(noCorner, p.Name, p.Edges[k].Name)
			return in.Mul(by)
		}
		c = c.Between(x, c.Length())
	}
	moved := c.Start().Sub(corner)
	if last {
		c = c.Reverse()
	}
	p.Edges[k].Curve = c
	j.mark(&p.Edges[k])
	grown := 0.0
	if !last {
		grown = -x
	}
	j.keepNotches(p, k, grown)
	return moved
}

// leastSlope is how squarely the neighbour must meet an edge for its corner to
// slide along it.
const leastSlope = 0.3

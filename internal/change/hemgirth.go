package change

import (
	"fmt"
	"math"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
	"gusset/internal/seam"
)

// smoothStart is the share of the way from the level to the hem over which a
// taper sets in; below it the sides run straight.
const smoothStart = 0.25

// taper is how much of a hem's change shows at fraction u of the way from the
// level (0) to the hem (1).
func taper(u float64) float64 {
	const w = smoothStart
	switch {
	case u <= 0:
		return 0
	case u < w:
		return u * u / (2 * w) / (1 - w/2)
	}
	return (u - w/2) / (1 - w/2)
}

// side is one of the edges that run from the hem upwards: on the left of the
// piece it goes out to smaller x.
type side struct {
	ring  int
	out   float64 // -1 left, +1 right
	edges []int
	down  float64 // mm by which its end at the hem moves down, to keep partners equal
}

// hemGirth brings the hem to a girth measured round, tapering from a level.
// The difference is divided by the number of seam edges that end at the hem
// (source: CWU Costume Text, ch. 17, "divide by the number of garment seams
// available"; a leg of two pieces has four edges and each takes a quarter).
func hemGirth(j *job) string {
	ring := j.hemRing(j.step.Edge)
	levels := make([]float64, len(ring))
	for k, h := range ring {
		l, ok := h.p.Line(piece.Level, j.step.From)
		if !ok {
			j.tell(noLevel, h.name, j.step.From, strings.Join(levelNames(h.p), ", "))
			continue
		}
		levels[k] = height(l.Curve)
		if levels[k] < h.y+1 {
			j.tell(levelBelow, j.step.From, h.name)
		}
	}
	if j.found.Stops() > 0 {
		return ""
	}
	was := girth(ring)
	each := (j.step.To.MM() - was) / float64(2*len(ring))
	if math.Abs(each) < 1e-6 {
		j.tell(nothing, "the hem measures "+j.step.To.String())
	}
	for k, h := range ring {
		if narrow := h.p.Edges[h.i].Curve.Length() + 2*each; narrow < 10 {
			j.tell(foldOver, ring[k].name)
			return ""
		}
		j.warnPlacements(h, levels[k])
	}
	sides := sidesOf(ring, levels)
	// The sides of front and back slope differently, so the same taper changes
	// their lengths by different amounts; half the difference is given to each
	// and measured again.
	for range 6 {
		j.layTaper(ring, levels, sides, each)
		if !j.share(ring, sides) {
			break
		}
	}
	j.layTaper(ring, levels, sides, each)
	return fmt.Sprintf("hem %s to %s from the %s", j.say(was), j.step.To, j.step.From)
}

func levelNames(p piece.Piece) []string {
	var names []string
	for _, l := range p.Lines {
		if l.Kind == piece.Level {
			names = append(names, l.Name)
		}
	}
	return names
}

func (j *job) warnPlacements(h hemPiece, level float64) {
	for _, l := range h.p.Lines {
		if lo, _ := l.Curve.Bounds(); l.Kind == piece.Placement && lo.Y < level {
			j.tell(placementMoved, l.Name, h.name)
		}
	}
}

// sidesOf lists the two sides of every hem: all edges from the hem's corner up
// to the level.
func sidesOf(ring []hemPiece, levels []float64) []side {
	var out []side
	for k, h := range ring {
		n := len(h.p.Edges)
		left := side{ring: k, out: -1}
		for i := (h.i + n - 1) % n; i != h.i; i = (i + n - 1) % n {
			left.edges = append(left.edges, i)
			if h.p.Edges[i].Curve.Start().Y >= levels[k]-0.01 {
				break
			}
		}
		right := side{ring: k, out: 1}
		for i := (h.i + 1) % n; i != h.i; i = (i + 1) % n {
			right.edges = append(right.edges, i)
			if h.p.Edges[i].Curve.End().Y >= levels[k]-0.01 {
				break
			}
		}
		out = append(out, left, right)
	}
	return out
}

// layTaper lays every side of the ring's original pieces at its taper and puts
// the result into the garment.
func (j *job) layTaper(ring []hemPiece, levels []float64, sides []side, each float64) {
	for k, h := range ring {
		p := h.p.Clone()
		for _, s := range sides {
			if s.ring != k {
				continue
			}
			f := func(q geom.Pt) geom.Pt {
				t := taper((levels[k] - q.Y) / (levels[k] - h.y))
				return geom.Pt{X: q.X + s.out*each*t, Y: q.Y - s.down*t}
			}
			for _, i := range s.edges {
				j.moveEdge(&p, i, f)
			}
		}
		j.setStraight(&p, h.i)
		j.g.Pieces[h.name] = p
	}
}

// share gives half of each seam's new difference to either side that a taper
// has moved, and reports whether there was any.
func (j *job) share(ring []hemPiece, sides []side) bool {
	before := j.g.Clone()
	for _, h := range ring {
		before.Pieces[h.name] = h.p
	}
	was := look(before)
	more := false
	for _, s := range seam.ResolveDrawn(j.g) {
		if s.Copy == piece.Right || len(s.Sides) != 2 {
			continue
		}
		a, b := sideOf(ring, sides, s.Sides[0]), sideOf(ring, sides, s.Sides[1])
		if a == nil || b == nil {
			continue
		}
		grown := seam.ChainLength(s.Sides[1]) - seam.ChainLength(s.Sides[0]) - s.Ease[1]
		if r, known := was.report(s); known {
			grown -= r.Gaps[1]
		}
		a.down += grown / 2
		b.down -= grown / 2
		more = more || math.Abs(grown) > 0.001
	}
	return more
}

// sideOf finds the taper side that a seam's chain runs along down to the hem.
func sideOf(ring []hemPiece, sides []side, chain []seam.Stretch) *side {
	for k := range sides {
		h := ring[sides[k].ring]
		first := h.p.Edges[sides[k].edges[0]].Name
		for _, st := range chain {
			if st.Piece == h.name && st.Edge == first && !st.Inside {
				return &sides[k]
			}
		}
	}
	return nil
}

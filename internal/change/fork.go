package change

import (
	"fmt"
	"math"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
	"gusset/internal/seam"
)

// crotchLength makes the seam through the crotch longer or shorter where it
// meets the inseam: the fork point goes out, level, and with it the inseam, less
// and less down to a level, and the last stretch of the crotch curve. More room
// at the inside of the thigh comes with it.
func crotchLength(j *job) string {
	by := j.step.By.MM()
	s, ok := j.seamOf(j.step.Item)
	if !ok {
		return ""
	}
	for _, name := range j.drawingsIn(s) {
		j.pullFork(name, s, by)
	}
	if j.found.Stops() > 0 {
		return ""
	}
	word := "longer"
	if by < 0 {
		word = "shorter"
	}
	return fmt.Sprintf("%s %s %s at the fork", j.step.Item, strings.TrimLeft(j.step.By.String(), "+-"), word)
}

// drawingsIn lists the drawings whose edges a seam takes, each once.
func (j *job) drawingsIn(s seam.Seam) []string {
	names := map[string]bool{}
	for _, chain := range s.Sides {
		for _, st := range chain {
			if name, _ := drawing(j.g, st); !st.Inside {
				names[name] = true
			}
		}
	}
	return sorted(names)
}

// pullFork moves the lowest corner of a piece's edge in the seam.
func (j *job) pullFork(name string, s seam.Seam, by float64) {
	p := j.g.Pieces[name].Clone()
	level, ok := p.Line(piece.Level, j.step.From)
	if !ok {
		if levelled(p) {
			j.tell(noLevel, name, j.step.From, strings.Join(levelNames(p), ", "))
		}
		return // a yoke has no fork
	}
	i, atEnd := lowCorner(p, s)
	n := len(p.Edges)
	leg := (i + 1) % n // the edge that goes on down the leg
	if !atEnd {
		leg = (i + n - 1) % n
	}
	fork := p.Edges[i].Curve.Start()
	if atEnd {
		fork = p.Edges[i].Curve.End()
	}
	fall := fork.Y - height(level.Curve)
	if fall < 20 {
		j.tell(levelBelowFork, j.step.From, name)
		return
	}
	out := geom.Pt{X: by}
	if lo, hi := geom.BoundsOf(p.Outline(1)); fork.X < (lo.X+hi.X)/2 {
		out.X = -by
	}
	j.mapEdge(&p, leg, func(q geom.Pt, _ float64) geom.Pt {
		return q.Add(out.Mul(smooth(1 - (fork.Y-q.Y)/fall)))
	})
	l := p.Edges[i].Curve.Length()
	back := math.Min(0.6*l, forkBlend)
	j.mapEdge(&p, i, func(q geom.Pt, at float64) geom.Pt {
		if atEnd {
			at = l - at
		}
		return q.Add(out.Mul(smooth(1 - at/back)))
	})
	j.g.Pieces[name] = p
}

// forkBlend is how far up the crotch curve goes with the fork, mm.
const forkBlend = 160

// lowCorner finds the edge of a piece that a seam takes and that reaches lowest,
// and whether its end is that low corner.
func lowCorner(p piece.Piece, s seam.Seam) (edge int, atEnd bool) {
	low := math.Inf(1)
	for _, chain := range s.Sides {
		for _, st := range chain {
			k := p.Index(st.Edge)
			if st.Piece != p.Name || st.Inside || k < 0 {
				continue
			}
			c := p.Edges[k].Curve
			if c.Start().Y < low {
				low, edge, atEnd = c.Start().Y, k, false
			}
			if c.End().Y < low {
				low, edge, atEnd = c.End().Y, k, true
			}
		}
	}
	return edge, atEnd
}

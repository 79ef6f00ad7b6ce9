package change

import (
	"fmt"
	"math"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
	"gusset/internal/seam"
)

// runOnEdges draws the edges on smoothly that break where they cross a seam or a
// fold: each of the two that meet there turns by half the break, over its last
// stretch, so that their corners make a straight angle. The corners stay where
// they are; what the lengths change by is trued.
func runOnEdges(j *job) string {
	seams, _ := seam.Resolve(j.g)
	var did []string
	known := false
	for _, c := range seam.Crossings(j.g, seams) {
		if c.Seam.Join != j.step.Item && !(c.Seam.Join == "" && c.Edges[0].Piece == j.step.Item) {
			continue
		}
		known = true
		if math.Abs(c.Break) < leastBreak {
			continue
		}
		a, b := c.Edges[0], c.Edges[1]
		turn := c.Break * math.Pi / 180 / 2
		j.bendEnd(a, turn)
		if b.Piece != a.Piece || b.Edge != a.Edge {
			j.bendEnd(b, turn)
		}
		did = append(did, fmt.Sprintf("%.1f°", math.Abs(c.Break)))
	}
	switch {
	case !known:
		j.tell(noCrossing, j.step.Item)
		return ""
	case len(did) == 0:
		j.tell(nothing, "the edges run on across "+j.step.Item)
	}
	return fmt.Sprintf("edges drawn on across %s, which broke by %s", j.step.Item, strings.Join(did, " and "))
}

// leastBreak is the break, in degrees, that is left alone: no pencil shows it.
const leastBreak = 0.05

// bendEnd turns the end of an edge at a corner so that the corner's inner angle
// gets smaller by so many radians. Right copies are the mirror images of the left.
func (j *job) bendEnd(c seam.Corner, by float64) {
	name := c.Piece
	if own := c.Piece + "@" + string(c.Copy); c.Copy != piece.Both {
		if _, forked := j.g.Pieces[own]; forked {
			name = own
		}
	}
	p := j.g.Pieces[name].Clone()
	i := p.Index(c.Edge)
	if i < 0 {
		return
	}
	e := p.Edges[i].Curve
	start := c.Start != (c.Copy == piece.Right && name == c.Piece) // mirrored, an edge's ends change places
	if !start {
		e = e.Reverse()
		by = -by
	}
	if c.Copy == piece.Right && name == c.Piece {
		by = -by
	}
	l := e.Length()
	reach := math.Min(j.step.By.MM(), 0.45*l)
	rest := e.Between(reach, l)
	dir := e.StartTangent().Rot(by)
	h := e.Start().Dist(rest.Start()) / 3
	bent := geom.Curve{geom.Cubic(e.Start(), e.Start().Add(dir.Mul(h)), rest.Start().Sub(rest.StartTangent().Mul(h)), rest.Start())}
	e = joinedCurves(bent, rest)
	if !start {
		e = e.Reverse()
	}
	p.Edges[i].Curve = e
	j.mark(&p.Edges[i])
	j.relay(&p, i)
	j.g.Pieces[name] = p
}

// relay puts the notches of an edge that has been drawn anew on it again, each at
// the nearest place.
func (j *job) relay(p *piece.Piece, i int) {
	for k := range p.Marks {
		if m := &p.Marks[k]; m.Kind == piece.Notch && m.Edge == p.Edges[i].Name {
			m.At, _ = p.Edges[i].Curve.Nearest(m.P)
			m.P = p.Edges[i].Curve.At(m.At)
		}
	}
}

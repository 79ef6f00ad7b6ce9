package advise

import (
	"fmt"

	"gusset/internal/docket"
	"gusset/internal/piece"
)

// footRound is what a hem measures round at the least, in mm, to let a foot
// through where it does not open: heel and instep of a large adult foot (common
// practice).
const footRound = 340

var (
	narrower = []float64{20, 40, 60} // mm round
	shorter  = []float64{10, 20, 30} // mm
)

// narrowerLeg tapers the legs to a narrower hem.
func (c *counsel) narrowerLeg() []way {
	var out []way
	for _, f := range c.hems() {
		round := c.round(f.Edges)
		level, ok := c.taperFrom(f.Edges)
		if !ok {
			continue
		}
		var w way
		for _, less := range narrower {
			to := c.whole(round - less)
			if to.MM() < footRound {
				break
			}
			s := docket.Change{ID: c.free("narrower"), Kind: docket.HemGirth, Edge: hemEdge, To: to, From: level}
			w = append(w, edit{
				step: Step{
					Way: "leg", Text: fmt.Sprintf("the hem %s round instead of %s, tapered from the %s", to, c.say(round), level),
					Warning: "another line of the leg; see that the foot passes",
					File:    c.docketFile(), Write: "changes: " + written(s),
				},
				apply: add(s),
			})
		}
		out = append(out, w)
	}
	return out
}

// round is how long the edges of one hand are together, in mm.
func (c *counsel) round(edges []piece.Ref) float64 {
	sum := 0.0
	for _, r := range edges {
		if r.Copy == piece.Right {
			continue
		}
		if e, ok := c.base.Garment().Pieces[r.Piece].Edge(r.Edge); ok {
			sum += e.Curve.Length()
		}
	}
	return sum
}

// taperFrom is the lowest level above the hem that all its pieces have.
func (c *counsel) taperFrom(edges []piece.Ref) (string, bool) {
	best, low := "", 0.0
	for _, l := range c.base.Garment().Pieces[edges[0].Piece].Lines {
		if l.Kind != piece.Level || l.Name == hemEdge {
			continue
		}
		y, all := (l.Curve.Start().Y+l.Curve.End().Y)/2, true
		for _, r := range edges {
			p := c.base.Garment().Pieces[r.Piece]
			e, ok := p.Edge(r.Edge)
			_, has := p.Line(piece.Level, l.Name)
			all = all && ok && has && y > e.Curve.Start().Y+100
		}
		if all && (best == "" || y < low) {
			best, low = l.Name, y
		}
	}
	return best, best != ""
}

// shorterLeg moves the hem up.
func (c *counsel) shorterLeg() []way {
	if len(c.hems()) == 0 {
		return nil
	}
	var w way
	for _, up := range shorter {
		s := docket.Change{ID: c.free("shorter"), Kind: docket.MoveHem, Edge: hemEdge, By: c.whole(-up)}
		w = append(w, edit{
			step: Step{
				Way: "length", Text: fmt.Sprintf("the hem %s higher", c.whole(up)), Warning: "check the length on the wearer before cutting",
				File: c.docketFile(), Write: "changes: " + written(s),
			},
			apply: add(s),
		})
	}
	return []way{w}
}

package change

import (
	"strings"

	"gusset/internal/piece"
)

// hemPiece is a piece with a hem: the hem edge's place in the outline, and the
// height of the hem line.
type hemPiece struct {
	name string
	p    piece.Piece
	i    int
	y    float64
}

// hemRing finds the pieces whose named edge a finish takes together: the hem
// of one leg, sleeve or skirt.
func (j *job) hemRing(edge string) []hemPiece {
	var ring []hemPiece
	var known []string
	for _, f := range j.g.View.Finishes {
		for _, r := range f.Edges {
			if r.Edge != edge {
				known = append(known, r.Edge)
				continue
			}
			p, ok := j.g.Pieces[r.Piece]
			if !ok || p.Index(edge) < 0 {
				continue
			}
			ring = append(ring, hemPiece{name: r.Piece, p: p, i: p.Index(edge), y: height(p.Edges[p.Index(edge)].Curve)})
		}
		if len(ring) > 0 {
			break
		}
	}
	if len(ring) == 0 {
		j.tell(noHem, edge, strings.Join(known, ", "))
	}
	for _, h := range ring {
		if !h.p.Edges[h.i].Curve.Straight(0.1) {
			j.tell(curvedHem, h.name)
		}
	}
	return ring
}

// girth is the hem measured round: the sum of the ring's edges.
func girth(ring []hemPiece) float64 {
	var sum float64
	for _, h := range ring {
		sum += h.p.Edges[h.i].Curve.Length()
	}
	return sum
}

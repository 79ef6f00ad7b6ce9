package change

import (
	"slices"

	"gusset/internal/geom"
	"gusset/internal/piece"
	"gusset/internal/seam"
)

// A patch pocket is set on a line drawn inside another piece. When a step
// changes the pocket, the line must follow, as every joined edge does: it is
// drawn again by the pocket's own new edges, laid where the old ones lay.

// followPlacements redraws the placement lines of pieces that the step has
// changed.
func (j *job) followPlacements(before looked) {
	right := func(s seam.Seam) bool { return s.Copy == piece.Right }
	old := slices.DeleteFunc(slices.Clone(before.seams), right)
	now := slices.DeleteFunc(seam.ResolveDrawn(j.g), right)
	if len(old) != len(now) {
		return
	}
	for i, s := range now {
		if len(s.Sides) != 2 {
			continue
		}
		for line := range s.Sides {
			set := s.Sides[1-line]
			if on := s.Sides[line]; len(on) == 1 && on[0].Inside && onePiece(set) && touched(j.g.Pieces[set[0].Piece], j.step.ID) {
				j.follow(old[i].Sides[1-line], set, on[0])
			}
		}
	}
}

// onePiece reports whether a chain is made of edges of one piece.
func onePiece(chain []seam.Stretch) bool {
	for _, st := range chain {
		if st.Inside || st.Piece != chain[0].Piece || st.Copy == piece.Right {
			return false
		}
	}
	return len(chain) > 0
}

// follow lays the new edges of a pocket by the map that laid the old ones on
// the line. Where the line was not the old edges' own shape there is no such
// map, and the walk of the seam tells.
func (j *job) follow(old, now []seam.Stretch, on seam.Stretch) {
	was := joined(old)
	line := on.Curve
	if was.Length() < 1 || line.Length() < 1 {
		return
	}
	turn := line.End().Sub(line.Start()).Angle() - was.End().Sub(was.Start()).Angle()
	lay := geom.Turn(turn, was.Start()).Then(geom.Shift(line.Start().Sub(was.Start())))
	for _, at := range []float64{0.25, 0.5, 0.75, 1} {
		if lay.Apply(was.At(at*was.Length())).Dist(line.At(at*line.Length())) > exactFit {
			return
		}
	}
	p := j.g.Pieces[on.Piece].Clone()
	for i, l := range p.Lines {
		if l.Name == on.Edge {
			c := joined(now).Transform(lay)
			if !on.Forward {
				c = c.Reverse()
			}
			p.Lines[i].Curve = c
		}
	}
	j.g.Pieces[on.Piece] = p
}

// joined is a chain as one curve.
func joined(chain []seam.Stretch) geom.Curve {
	var c geom.Curve
	for _, st := range chain {
		c = append(c, st.Curve...)
	}
	return c
}

package change

import (
	"math"

	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/seam"
)

// looked is a garment with its seams, walked: what truing and checking ask for
// again and again. A step is checked against the garment that it was given, and
// what it made is what the next step is given, so both are looked at once.
// Seams of the right hand that only say what the left's say of the same drawings
// are left out.
type looked struct {
	pattern.Garment
	walked []seam.Report
	seams  []seam.Seam // in the order of the joins
}

// report is what was walked of a seam. The right hand of a step that parts the
// hands is what the left was.
func (l looked) report(s seam.Seam) (seam.Report, bool) {
	var left seam.Report
	known := false
	for _, r := range l.walked {
		switch {
		case r.Seam.ID == s.ID:
			return r, true
		case s.Copy == piece.Right && r.Seam.Join == s.Join && r.Seam.Copy == piece.Left:
			left, known = r, true
		}
	}
	return left, known
}

// miss is the largest miss of the sides of a seam, mm.
func miss(r seam.Report) float64 {
	var most float64
	for _, gap := range r.Gaps {
		most = math.Max(most, math.Abs(gap))
	}
	return most
}

// look walks the seams of a garment as drawn.
func look(g pattern.Garment) looked {
	seams, w := seam.WalkDrawn(g)
	return looked{Garment: g, seams: seams, walked: w.Seams()}
}

// walk walks every seam of a garment as drawn, once for both hands.
func walk(g pattern.Garment) []seam.Report { return look(g).walked }

// drawing is the name of the drawing that a stretch lies on, and whether the
// stretch sees its mirror image.
func drawing(g pattern.Garment, st seam.Stretch) (name string, mirrored bool) {
	if own := st.Piece + "@" + string(st.Copy); st.Copy != piece.Both {
		if _, forked := g.Pieces[own]; forked {
			return own, false
		}
	}
	return st.Piece, st.Copy == piece.Right
}

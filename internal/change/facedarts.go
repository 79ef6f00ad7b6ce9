package change

import (
	"fmt"
	"math"

	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/seam"
)

// A facing of an edge that darts divide is not traced from it as it lies, for the
// facing has no darts. It is laid on the piece with the darts closed, and where the
// edge has become longer or shorter towards one end, the facing is lengthened or
// cut off at that end: its own end moves along with all its length.

// leastCut is the least change of length, mm, that a facing is cut for: less is
// left to the truing.
const leastCut = 0.05

// cutShort looks along two sides of a seam for edges of facings that are sewn to
// an edge of a changed piece in several stretches.
func (j *job) cutShort(before pattern.Garment, facings, mains []seam.Stretch, done map[string]bool) {
	runs, faced := byPiece(facings), byPiece(mains)
	if len(runs) != len(faced) {
		return
	}
	for k, run := range runs {
		main := faced[k]
		name, mirrored := drawing(before, run[0])
		on, mirroredMain := drawing(before, main[0])
		if len(run) != 1 || len(main) < 2 || run[0].Inside || mirrored || mirroredMain || done[name] || !j.facingOf(before, name, on) {
			continue
		}
		atStart, atEnd, ok := j.grownAtEnds(main)
		if !ok || math.Abs(atStart+atEnd) < leastCut { // a dart that has moved along the edge changes no end
			continue
		}
		done[name] = true
		p := j.g.Pieces[name].Clone()
		i, n := p.Index(run[0].Edge), len(p.Edges)
		first, last := (i+n-1)%n, (i+1)%n
		if !run[0].Forward {
			first, last = last, first
		}
		switch p.Index(foldEdge(j.g, p.Name)) { // a fold stays where it is
		case first:
			atStart, atEnd = 0, atStart+atEnd
		case last:
			atStart, atEnd = atStart+atEnd, 0
		}
		j.cutEnd(&p, first, atStart)
		j.cutEnd(&p, last, atEnd)
		closeCorners(&p)
		j.g.Pieces[name] = p
	}
}

// cutEnd moves an end of a facing out by an amount, or in by less than nothing.
func (j *job) cutEnd(p *piece.Piece, end int, by float64) {
	if math.Abs(by) >= leastCut {
		j.moveIn(p, end, func(float64) float64 { return -by })
	}
}

// sewnAsBefore tells of which seams the step has left the stretches, as to their
// edges, and the stated ease as they were. Where it has divided an edge, no length
// tells what has grown, and where it has stated ease, the facing is to stay.
func (j *job) sewnAsBefore(before looked) map[string]bool {
	words := func(s seam.Seam) string {
		text := fmt.Sprint(s.Ease)
		for _, side := range s.Sides {
			for _, st := range side {
				text += " " + st.Piece + ":" + st.Edge
			}
			text += ";"
		}
		return text
	}
	now := map[string]string{}
	for _, s := range seam.ResolveDrawn(j.g) {
		now[s.ID] = words(s)
	}
	out := map[string]bool{}
	for _, s := range before.seams {
		out[s.ID] = now[s.ID] == words(s)
	}
	return out
}

// byPiece divides a chain into runs of stretches of one piece.
func byPiece(chain []seam.Stretch) [][]seam.Stretch {
	var out [][]seam.Stretch
	for i, st := range chain {
		if i == 0 || st.Piece != chain[i-1].Piece || st.Copy != chain[i-1].Copy {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], st)
	}
	return out
}

// grownAtEnds is how much longer the step has made the first stretch of a run, and
// the last, mm; what lies between them counts with the one that has changed more.
// False when one of them is no more, or is not the whole of its edge.
func (j *job) grownAtEnds(run []seam.Stretch) (atStart, atEnd float64, ok bool) {
	var middle float64
	for k, st := range run {
		name, _ := drawing(j.g, st)
		e, there := j.g.Pieces[name].Edge(st.Edge)
		if !there || st.Inside || st.From > 0.01 {
			return 0, 0, false
		}
		by := e.Curve.Length() - st.To
		switch k {
		case 0:
			atStart = by
		case len(run) - 1:
			atEnd = by
		default:
			middle += by
		}
	}
	if math.Abs(atStart) > math.Abs(atEnd) {
		return atStart + middle, atEnd, true
	}
	return atStart, atEnd + middle, true
}

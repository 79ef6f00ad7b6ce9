package sheet

import (
	"slices"
	"strings"

	"gusset/internal/construct"
	"gusset/internal/geom"
	"gusset/internal/machine"
	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// How the pieces of a step lie, and how they are seen.
type way struct {
	together bool // edges together, one on the other; else spread on both sides of the line
	wrong    bool // seen from the wrong side
}

// pieceAt is a copy with the movement that lays it on the table. Pieces are drawn
// face up, so one that was turned over lies wrong side up.
type pieceAt struct {
	name string
	copy piece.Copy
	to   geom.Affine
}

func (p pieceAt) wrongUp() bool { return p.to.Mirrors() }

// laidOut is what a step works on as it lies, lowest piece first, and the line
// along which the work runs.
type laidOut struct {
	pieces []pieceAt
	line   []geom.Curve
}

// wayOf reads how the pieces lie from the words of the step itself, so that
// picture and sentence cannot differ, and where they say nothing from what was
// done before: at the iron and on the wrong side one looks at the wrong side.
func wayOf(op construct.Operation) way {
	do := op.Do
	switch {
	case strings.Contains(do, "right sides together"):
		return way{together: true}
	case strings.Contains(do, "wrong sides together"):
		return way{together: true, wrong: true}
	case strings.Contains(do, "wrong side"):
		return way{wrong: true}
	case strings.Contains(do, "right side"), op.Thread == method.Threads[1]: // topstitching shows
		return way{}
	case op.Machine == machine.Iron:
		return way{wrong: true}
	case op.Stitch != "" && !op.Spread:
		return way{together: true}
	}
	return way{}
}

// layOut lays the pieces of a step on the table: the longest stretch of a side
// as it is drawn, the pieces beside it on the same side of the seam where it
// goes on, and those of the other sides where they are sewn.
func layOut(g pattern.Garment, op construct.Operation) laidOut {
	sides := concerned(op)
	if len(sides) == 0 || len(sides[0]) == 0 {
		return laidOut{}
	}
	base := longestSide(sides)
	w := wayOf(op)
	var out laidOut
	along := out.first(sides[base])
	for i, side := range sides {
		if i != base {
			out.beside(side, along, w.together, onFace(sides[base]))
		}
	}
	if p, ok := partner(g, op, sides); ok {
		out.beside([]construct.Stretch{p}, along, w.together, false)
	}
	out.line = along.curves
	if w.wrong {
		out.turnOver()
	}
	return out
}

// concerned are the sides that a step works on.
func concerned(op construct.Operation) [][]construct.Stretch {
	switch {
	case op.On == "a" && len(op.Sides) > 0:
		return op.Sides[:1]
	case op.On == "b" && len(op.Sides) > 1:
		return op.Sides[1:2]
	case op.On == "more" && len(op.Sides) > 2:
		return op.Sides[2:3]
	}
	return op.Sides
}

// longestSide is the side whose longest stretch is the longest; a line inside a
// piece comes before any edge, since what is set on it lies on that piece.
func longestSide(sides [][]construct.Stretch) int {
	best, most := 0, 0.0
	for i, side := range sides {
		for _, s := range side {
			l := s.Length()
			if s.Inside {
				l += 1e6
			}
			if l > most {
				best, most = i, l
			}
		}
	}
	return best
}

// first lays a side: its longest stretch's piece as it is drawn, the others on
// from it in both directions.
func (l *laidOut) first(side []construct.Stretch) run {
	k := 0
	for i, s := range side {
		if s.Length() > side[k].Length() {
			k = i
		}
	}
	curves := make([]geom.Curve, len(side))
	lay := func(i int, on func(geom.Curve) geom.Affine) {
		s := side[i]
		to, ok := l.find(s)
		if !ok {
			to = on(s.Curve)
			l.pieces = append(l.pieces, pieceAt{s.Piece, s.Copy, to})
		}
		curves[i] = s.Curve.Transform(to)
	}
	lay(k, func(geom.Curve) geom.Affine { return geom.Identity() })
	for i := k + 1; i < len(side); i++ {
		end := curves[i-1]
		lay(i, func(c geom.Curve) geom.Affine {
			return onFrom(c.Start(), c.StartTangent(), end.End(), end.EndTangent())
		})
	}
	for i := k - 1; i >= 0; i-- {
		begin := curves[i+1]
		lay(i, func(c geom.Curve) geom.Affine {
			return onFrom(c.End(), c.EndTangent(), begin.Start(), begin.StartTangent())
		})
	}
	var r run
	for _, c := range curves {
		r.add(c)
	}
	return r
}

// onFrom brings a point and direction onto another point and direction.
func onFrom(p, dir, at, onto geom.Pt) geom.Affine {
	return geom.Turn(onto.Angle()-dir.Angle(), p).Then(geom.Shift(at.Sub(p)))
}

// beside lays the pieces of another side where they are sewn to the line.
func (l *laidOut) beside(side []construct.Stretch, onto run, together, onFace bool) {
	length := 0.0
	for _, s := range side {
		length += s.Length()
	}
	begin := 0.0
	var order []pieceAt
	points := map[pieceAt]*matched{}
	for _, s := range side {
		key := pieceAt{name: s.Piece, copy: s.Copy}
		if points[key] == nil {
			points[key] = &matched{}
			order = append(order, key)
		}
		points[key].match(s, begin, length, onto)
		begin += s.Length()
	}
	for _, key := range order {
		if _, there := l.find(construct.Stretch{Piece: key.name, Copy: key.copy}); there {
			continue
		}
		key.to = points[key].lie(together, onFace)
		l.pieces = append(l.pieces, key)
	}
}

// lie is the movement of a piece to its place: turned over or not as the edges
// lie, but whichever fits where it is set on the face of another.
func (m matched) lie(together, onFace bool) geom.Affine {
	to, off := m.rigid(together)
	if !onFace {
		return to
	}
	plain, plainOff := m.rigid(false)
	turned, turnedOff := m.rigid(true)
	if off <= min(plainOff, turnedOff) {
		return to
	}
	if plainOff <= turnedOff {
		return plain
	}
	return turned
}

// onFace reports whether a side is a line inside a piece.
func onFace(side []construct.Stretch) bool {
	return slices.ContainsFunc(side, func(s construct.Stretch) bool { return s.Inside })
}

// find is where a stretch's piece lies already.
func (l *laidOut) find(s construct.Stretch) (geom.Affine, bool) {
	i := slices.IndexFunc(l.pieces, func(p pieceAt) bool { return p.name == s.Piece && p.copy == s.Copy })
	if i < 0 {
		return geom.Affine{}, false
	}
	return l.pieces[i].to, true
}

// turnOver turns the whole table's work over.
func (l *laidOut) turnOver() {
	over := geom.Affine{A: -1, D: 1}
	for i := range l.pieces {
		l.pieces[i].to = l.pieces[i].to.Then(over)
	}
	for i, c := range l.line {
		l.line[i] = c.Transform(over)
	}
}

// partner is the other hand of the piece that a closure lies along: the other
// front, edge to edge.
func partner(g pattern.Garment, op construct.Operation, sides [][]construct.Stretch) (construct.Stretch, bool) {
	s := sides[0][0]
	hand := map[piece.Copy]piece.Copy{piece.Left: piece.Right, piece.Right: piece.Left}[s.Copy]
	if len(sides) != 1 || len(sides[0]) != 1 || s.Inside || hand == "" || !slices.Contains(op.Pieces, s.Piece+"@"+string(hand)) {
		return s, false
	}
	p, ok := g.Copy(s.Piece, hand)
	if !ok {
		return s, false
	}
	e, ok := p.Edge(s.Edge)
	if !ok {
		return s, false
	}
	// The mirror image's edge runs the other way, and against the first's.
	s.Copy, s.Curve, s.From, s.To = hand, e.Curve.Reverse(), 0, e.Curve.Length()
	return s, true
}

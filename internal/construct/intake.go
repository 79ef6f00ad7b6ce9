package construct

import (
	"gusset/internal/geom"
	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/seam"
)

// nearLine is how far a pleat's lines may end from the corners of the edge
// across it, in mm: a size between two printed ones moves both a little.
const nearLine = 3.0

// intake is the cloth that a dart or pleat folds in: the stretches of outline
// that it takes, in outline order, and how they fold.
type intake struct {
	takes []Stretch
	shape Intake
}

// readIntake finds what a join with an intake folds in. A dart's two edges
// follow each other and meet in its point; a pleat's lines run in from the ends
// of the edge across it. A dart inside a piece, pointed at both ends, takes no
// edge at all. What does not fold is told and cut as a seam.
func (b *builder) readIntake(w *work) {
	kind := w.item.method.Intake
	if kind == method.None || w.item.takes != method.Join {
		return
	}
	if len(w.sides) != 2 || len(w.sides[0]) != 1 || len(w.sides[1]) != 1 || !sameCopy(w.sides[0][0], w.sides[1]) {
		b.add(intakeShape.At(w.item.place, w.item.id, string(kind)))
		return
	}
	ok := true
	if kind == method.Dart {
		w.intake, ok = b.dart(w.sides[0][0], w.sides[1][0])
	} else {
		w.intake, ok = b.pleat(w)
	}
	if !ok {
		w.intake = intake{}
		b.add(intakeShape.At(w.item.place, w.item.id, string(kind)))
	}
	w.folds = ok
}

// dart folds the wedge between two edges that meet in a point.
func (b *builder) dart(x, y Stretch) (intake, bool) {
	if x.Inside && y.Inside {
		return intake{}, true
	}
	p, _ := b.garment.Copy(x.Piece, x.Copy)
	i, j := p.Index(x.Edge), p.Index(y.Edge)
	if x.Inside != y.Inside || i < 0 || j < 0 {
		return intake{}, false
	}
	in := intake{takes: []Stretch{x, y}, shape: Intake{Back: true}}
	if p.After(i).Name != y.Edge {
		if p.After(j).Name != x.Edge {
			return intake{}, false
		}
		in.takes, in.shape.Back, i, j = []Stretch{y, x}, false, j, i
	}
	point := p.Edges[i].Curve.End()
	in.shape.Legs = [2]geom.Pt{
		point.Sub(p.Edges[i].Curve.Start()).Unit(),
		point.Sub(p.Edges[j].Curve.End()).Unit(),
	}
	return in, true
}

// pleat folds the cloth between two lines that run in from an edge.
func (b *builder) pleat(w *work) (intake, bool) {
	j := b.joinOf(w.item.id)
	var in intake
	for _, r := range j.Intake {
		s, err := seam.ResolveRef(b.garment, r, seam.CopyFor(b.garment, r, w.hand), false)
		if err != nil {
			b.add(unresolved.At(w.item.place, w.item.id, err.Error()))
			return in, true
		}
		in.takes = append(in.takes, s)
	}
	if len(in.takes) == 0 {
		return in, w.sides[0][0].Inside && w.sides[1][0].Inside
	}
	if len(in.takes) > 1 || !sameCopy(in.takes[0], w.sides[0]) {
		return in, false
	}
	p, _ := b.garment.Copy(in.takes[0].Piece, in.takes[0].Copy)
	e, _ := p.Edge(in.takes[0].Edge)
	first, second := w.sides[0][0].Curve, w.sides[1][0].Curve
	start, end := e.Curve.At(in.takes[0].From), e.Curve.At(in.takes[0].To)
	in.shape.Back = near(first, start) < near(second, start)
	if !in.shape.Back {
		first, second = second, first
	}
	in.shape.Legs = [2]geom.Pt{inwards(first, start), inwards(second, end)}
	return in, near(first, start) < nearLine && near(second, end) < nearLine
}

// near is how far the nearer end of a line lies from a point.
func near(c geom.Curve, p geom.Pt) float64 { return min(c.Start().Dist(p), c.End().Dist(p)) }

// inwards is the direction of a line away from its end that is nearer to p.
func inwards(c geom.Curve, p geom.Pt) geom.Pt {
	if c.Start().Dist(p) <= c.End().Dist(p) {
		return c.End().Sub(c.Start()).Unit()
	}
	return c.Start().Sub(c.End()).Unit()
}

func (b *builder) joinOf(id string) pattern.Join {
	for _, j := range b.garment.View.Joins {
		if j.ID == id {
			return j
		}
	}
	return pattern.Join{}
}

// fold brings together what folding brings together: the ends of the edge
// across a pleat, and of its lines there.
func (u *glue) fold(in intake, sides [][]Stretch) {
	if len(in.takes) != 1 {
		return
	}
	from, to := u.ends(in.takes[0])
	u.union(from, to)
	p, _ := u.garment.Copy(in.takes[0].Piece, in.takes[0].Copy)
	e, _ := p.Edge(in.takes[0].Edge)
	ends := [2]geom.Pt{e.Curve.At(in.takes[0].From), e.Curve.At(in.takes[0].To)}
	for _, side := range sides {
		s := side[0]
		begin, end := u.ends(s)
		if at := s.Curve.Start(); min(at.Dist(ends[0]), at.Dist(ends[1])) > nearLine {
			begin = end
		}
		u.union(begin, from)
	}
}

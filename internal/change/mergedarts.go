package change

import (
	"fmt"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// mergeDarts makes one dart of two that open to the same edge: what lies between
// them turns about the point of the one that goes until it is closed, and the
// other opens by as much. Its legs are drawn anew to its own point, moved onto
// the line that halves the new opening; so they are equally long, and the edge
// keeps its length.
func mergeDarts(j *job) string {
	keep, ok1 := j.dartOf(j.step.Item)
	gone, ok2 := j.dartOf(j.step.Other)
	if !ok1 || !ok2 {
		return ""
	}
	if keep.piece.Name != gone.piece.Name || keep.in == gone.in {
		j.tell(notBeside, keep.join.ID, gone.join.ID)
		return ""
	}
	p := keep.piece
	after := len(between(p, keep.out+1, gone.in)) <= len(between(p, gone.out+1, keep.in))
	middle := between(p, keep.out+1, gone.in)
	by := geom.Turn(-gone.turn(), gone.point())
	if !after { // the one that goes comes first: what follows it closes onto it
		middle = between(p, gone.out+1, keep.in)
		by = geom.Turn(gone.turn(), gone.point())
	}
	if len(middle) == 0 || len(middle) > 3 || !oneEdge(middle) {
		j.tell(notBeside, keep.join.ID, gone.join.ID)
		return ""
	}
	moved := middle.ring(gone.point(), keep.point())
	shifted := j.turned(middle, by)
	in, out := p.Edges[keep.in], p.Edges[keep.out]
	from, to := keep.from(), keep.to()
	if after {
		to = shifted[0].Curve.Start()
	} else {
		from = shifted[len(shifted)-1].Curve.End()
	}
	point := onAxis(from, to, keep.point())
	in.Curve, out.Curve = geom.Polyline(from, point), geom.Polyline(point, to)
	j.mark(&in)
	j.mark(&out)
	var edges chain
	if after {
		edges = append(append(chain{in, out}, shifted...), between(p, gone.out+1, keep.in)...)
	} else {
		edges = append(append(shifted, in, out), between(p, keep.out+1, gone.in)...)
	}
	was := p.Clone()
	was.Marks = withoutWedge(was.Marks, gone)
	now := j.assemble(was, edges, moved, by)
	kept := keep
	kept.piece = was
	j.redrill(&now, kept, from.Lerp(to, 0.5), point)
	j.rewire(p, now, map[string][]part{p.Edges[gone.in].Name: {}, p.Edges[gone.out].Name: {}})
	j.drop(gone.join.ID)
	return fmt.Sprintf("%s and %s of %s made one", keep.join.ID, gone.join.ID, p.Title)
}

// oneEdge reports whether a chain runs on without a sharp corner, as one edge
// cut up by darts does.
func oneEdge(c chain) bool {
	for i := 1; i < len(c); i++ {
		if c[i-1].Curve.EndTangent().Dot(c[i].Curve.StartTangent()) < 0.5 {
			return false
		}
	}
	return true
}

// withoutWedge drops the marks in a dart that goes.
func withoutWedge(marks []piece.Mark, d dart) []piece.Mark {
	wedge := []geom.Pt{d.from(), d.point(), d.to()}
	var out []piece.Mark
	for _, m := range marks {
		if m.Kind == piece.Notch || !geom.Inside(wedge, m.P) {
			out = append(out, m)
		}
	}
	return out
}

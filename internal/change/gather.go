package change

import (
	"fmt"
	"math"
	"slices"

	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/seam"
	"gusset/internal/unit"
)

// gatherDart turns a dart into gathers: its legs are not sewn, the edge is drawn
// on across the opening, and what the dart took in is stated as ease in every
// seam of the edge, to be drawn up there. What is measured round along that edge
// counts without it.
func gatherDart(j *job) string {
	d, ok := j.dartOf(j.step.Item)
	if !ok {
		return ""
	}
	p := d.piece.Clone()
	n := len(p.Edges)
	prev, next := (d.in+n-1)%n, (d.out+1)%n
	a, z := p.Edges[prev], p.Edges[next]
	if a.Curve.EndTangent().Dot(z.Curve.StartTangent()) < 0.5 {
		j.tell(notOneEdge, d.join.ID, a.Name, z.Name)
		return ""
	}
	before := map[string][]float64{}
	for _, r := range walk(j.g) {
		before[r.Seam.ID] = r.Lengths
	}
	across := runOn(a.Curve, z.Curve)
	a.Curve = joinedCurves(a.Curve, across)
	j.mark(&a)
	p.Edges[prev] = a
	p.Marks = withoutWedge(p.Marks, d)
	for _, k := range []int{prev, next} {
		p.Marks = append(p.Marks, j.gatherNotch(p, k, k == prev, across.Length()))
	}
	p.Edges = append(chain{}, between(p, next, d.in)...)
	j.rewire(d.piece, p, map[string][]part{d.piece.Edges[d.in].Name: {}, d.piece.Edges[d.out].Name: {}})
	j.drop(d.join.ID)
	j.easeGrown(before)
	j.easeGirths(p.Name, a.Name, across.Length())
	j.g.View.Finishes = append(j.g.View.Finishes, pattern.Finish{
		ID: j.step.ID, Title: "gathers in place of the " + d.join.Title, Method: j.step.Method, Place: j.place(),
		Edges: []piece.Ref{
			{Piece: p.Name, Edge: a.Name, From: gatherName(j.step.ID, a.Name), To: z.Name},
			{Piece: p.Name, Edge: z.Name, From: a.Name, To: gatherName(j.step.ID, z.Name)},
		},
	})
	return fmt.Sprintf("%s gathered, %s to be drawn up", d.join.ID, j.say(across.Length()))
}

// gatherReach is how far to either side of the old dart the edge is gathered,
// mm: fullness in one spot would stand out as a lump (common practice).
const gatherReach = 30

func gatherName(step, edge string) string { return step + "-" + edge }

// gatherNotch marks where the gathers begin or end on an edge beside the
// opening.
func (j *job) gatherNotch(p piece.Piece, edge int, last bool, across float64) piece.Mark {
	e := p.Edges[edge]
	l := e.Curve.Length()
	at := math.Min(gatherReach, 0.6*l)
	if last {
		at = math.Max(l-across-gatherReach, 0.4*(l-across))
	}
	return piece.Mark{Kind: piece.Notch, Name: gatherName(j.step.ID, e.Name), Edge: e.Name, At: at, P: e.Curve.At(at), Place: e.Place}
}

// runOn draws a curve from the end of one edge to the beginning of the next, in
// the direction of both.
func runOn(a, b geom.Curve) geom.Curve {
	if len(a) == 0 || len(b) == 0 {
		return nil
	}
	from, to := a.End(), b.Start()
	if from.Dist(to) < 1e-6 {
		return nil
	}
	h := from.Dist(to) / 3
	return geom.Curve{geom.Cubic(from, from.Add(a.EndTangent().Mul(h)), to.Sub(b.StartTangent().Mul(h)), to)}
}

// easeGrown states as ease what the sides of every seam now differ by more than
// before, so that it is worked in on purpose. before holds the lengths of the
// sides by seam.
func (j *job) easeGrown(before map[string][]float64) {
	done := map[string]bool{}
	for _, r := range walk(j.g) {
		was, known := before[r.Seam.ID]
		if !known || len(was) != len(r.Lengths) || done[r.Seam.Join] {
			continue
		}
		done[r.Seam.Join] = true
		for side := 1; side < len(was); side++ {
			grown := r.Lengths[side] - r.Lengths[0] - (was[side] - was[0])
			if math.Abs(grown) > 1e-6 {
				j.ease(r.Seam, side, grown)
			}
		}
	}
}

// ease adds to the stated ease of a side of a join. Ease is listed for the sides
// after the first.
func (j *job) ease(s seam.Seam, side int, by float64) {
	for i, x := range j.g.View.Joins {
		if x.ID != s.Join {
			continue
		}
		ease := make([]unit.Length, len(x.Sides)-1)
		copy(ease, x.Ease)
		ease[side-1] = unit.MM(ease[side-1].MM() + by)
		j.g.View.Joins[i].Ease = ease
	}
}

// easeGirths takes what is drawn up on an edge off the girths measured along it.
func (j *job) easeGirths(name, edge string, by float64) {
	v := &j.g.View
	v.Girths = slices.Clone(v.Girths)
	u, _ := j.g.Use(name)
	for i, g := range v.Girths {
		for _, r := range g.Edges {
			if r.Piece != name || r.Edge != edge {
				continue
			}
			copies := 1
			if r.Copy == piece.Both {
				copies = len(u.CopyList())
			}
			v.Girths[i].Less = unit.MM(v.Girths[i].Less.MM() + by*float64(copies))
		}
	}
}

package change

import (
	"fmt"
	"slices"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// raise moves an edge up or down the grain on every piece that has an edge of
// that name: a waist higher at the figure, a neck lower. An edge that darts cut up
// moves all along: waist is waist-side and waist-centre too. The edge keeps its
// shape; the edges beside it are cut off there or run on to it. A facing is not
// moved by its edge, which would make it deeper: it is traced anew and stays as deep
// as it was.
func raise(j *job) string {
	by := j.step.By.MM()
	done := false
	for _, name := range j.names() {
		p := j.g.Pieces[name].Clone()
		for _, run := range j.raisedRuns(p) {
			if done = true; !j.raiseRun(name, &p, run, by) {
				return ""
			}
		}
		j.g.Pieces[name] = p
	}
	if !done {
		j.tell(noEdge, "no piece of this view has an edge called "+j.step.Edge)
		return ""
	}
	word := "raised"
	if by < 0 {
		word = "lowered"
	}
	return fmt.Sprintf("%s %s by %s", j.step.Edge, word, strings.TrimLeft(j.step.By.String(), "+-"))
}

// raised reports whether an edge of that name is to be moved.
func (j *job) raised(edge string) bool {
	return edge == j.step.Edge || strings.HasPrefix(edge, j.step.Edge+"-")
}

// facesRaised reports whether an edge is sewn to one that is moved, of a piece
// that carries the figure.
func (j *job) facesRaised(name, edge string) bool {
	for _, x := range j.g.View.Joins {
		on := slices.IndexFunc(x.Sides, func(side []piece.Ref) bool {
			return slices.ContainsFunc(side, func(r piece.Ref) bool { return r.Piece == name && r.Edge == edge && !r.Inside })
		})
		for k, side := range x.Sides {
			if on >= 0 && k != on && slices.ContainsFunc(side, func(r piece.Ref) bool {
				return !r.Inside && j.raised(r.Edge) && levelled(j.g.Pieces[r.Piece])
			}) {
				return true
			}
		}
	}
	return false
}

// raisedRuns are the edges of a piece that are to be moved, those that follow each
// other together: they move as one line. What a pleat takes in between two of them
// is of that line too; a dart's legs are cut off by it.
func (j *job) raisedRuns(p piece.Piece) [][]int {
	n := len(p.Edges)
	moves := make([]bool, n)
	for i, e := range p.Edges {
		moves[i] = j.raised(e.Name) && (levelled(p) || !j.facesRaised(p.Name, e.Name))
	}
	for i, e := range p.Edges {
		moves[i] = moves[i] || moves[(i+n-1)%n] && moves[(i+1)%n] && j.takenIn(p.Name, e.Name)
	}
	var runs [][]int
	for i := range p.Edges {
		if !moves[i] || moves[(i+n-1)%n] {
			continue
		}
		var run []int
		for k := i; moves[k%n]; k++ {
			run = append(run, k%n)
		}
		runs = append(runs, run)
	}
	return runs
}

// takenIn reports whether an edge is folded in by a pleat.
func (j *job) takenIn(name, edge string) bool {
	return slices.ContainsFunc(j.g.View.Joins, func(x pattern.Join) bool {
		return slices.ContainsFunc(x.Intake, func(r piece.Ref) bool { return r.Piece == name && r.Edge == edge })
	})
}

// raiseRun moves a run of edges of a piece. The first and the last are cut off, or
// run on, where they meet the edges beside the run.
func (j *job) raiseRun(name string, p *piece.Piece, run []int, by float64) bool {
	n := len(p.Edges)
	first, last := run[0], run[len(run)-1]
	before, after := (first+n-1)%n, (last+1)%n
	moved := make(map[int]geom.Curve, len(run))
	for _, i := range run {
		moved[i] = p.Edges[i].Curve.Transform(geom.Shift(geom.Pt{Y: by}))
	}
	down, ok1 := endAt(p.Edges[before].Curve, moved[first])
	up, ok2 := endAt(p.Edges[after].Curve.Reverse(), moved[last])
	if !ok1 || !ok2 {
		j.tell(edgePast, p.Edges[first].Name, name, p.Edges[before].Name, p.Edges[after].Name)
		return false
	}
	grown := up.Length() - p.Edges[after].Curve.Length()
	shift, _ := moved[first].Extend(farOff, farOff).Nearest(down.End())
	for _, i := range run {
		from, to := moved[i].Start(), moved[i].End()
		if i == first {
			from = down.End()
		}
		if i == last {
			to = up.End()
		}
		laid, ok := betweenEnds(moved[i], from, to)
		if !ok {
			j.tell(noCorner, name, p.Edges[before].Name)
			return false
		}
		moved[i] = laid
	}
	p.Edges[before].Curve, p.Edges[after].Curve = down, up.Reverse()
	for _, i := range run {
		p.Edges[i].Curve = moved[i]
		j.mark(&p.Edges[i])
	}
	j.mark(&p.Edges[before])
	j.mark(&p.Edges[after])
	j.keepNotches(p, before, 0)
	j.keepNotches(p, first, farOff-shift)
	for _, i := range run[1:] {
		j.keepNotches(p, i, 0)
	}
	j.keepNotches(p, after, grown)
	return true
}

// betweenEnds is the part of a line, run on straight at both ends, that reaches
// from a to b.
func betweenEnds(line geom.Curve, a, b geom.Pt) (geom.Curve, bool) {
	long := line.Extend(farOff, farOff)
	from, missA := long.Nearest(a)
	to, missB := long.Nearest(b)
	if missA > 0.01 || missB > 0.01 || to-from < 1 {
		return nil, false
	}
	part := long.Between(from, to)
	part[0].P[0], part[len(part)-1].P[3] = a, b
	return part, true
}

package change

import (
	"fmt"
	"slices"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// addPleat lays a pleat in: the piece is slashed from one edge to another and
// spread evenly by what the pleat takes in, twice its depth. The cloth between
// the two lines is folded in where the pleat opens to its edge; that edge keeps
// its length sewn, and at the other end the cloth falls free.
func addPleat(j *job) string {
	open, k, at, ok1 := j.spotOn(j.step.Spot)
	hinge, h, hingeAt, ok2 := j.spotOn(j.step.Hinge)
	if !ok1 || !ok2 {
		return ""
	}
	depth := j.step.By.MM()
	e := open.Edges[k]
	q, c := e.Curve.At(at), hinge.Edges[h].Curve.At(hingeAt)
	switch {
	case hinge.Name != open.Name || k == h || !clearLine(open, q, c):
		j.tell(noSlash, j.step.Spot.Edge, j.step.Hinge.Edge, "the pleat must run to another edge of the same piece, inside it")
		return ""
	case at < leastPart || at > e.Curve.Length()-leastPart:
		j.tell(undivided, open.Name+":"+e.Name, j.say(at), "it has a corner there")
		return ""
	}
	s := slash{j: j, p: open.Clone(), open: k, hinge: h, at: at, hingeAt: hingeAt, even: true}
	if why := s.spread(2 * depth); why != "" {
		j.tell(noSlash, j.step.Spot.Edge, j.step.Hinge.Edge, why)
		return ""
	}
	now := s.now
	i := now.Index(e.Name)
	// The edge is cut up again: before the pleat, across it, and after it.
	across := cutOut(&now, i, at, at+s.across, j.step.ID+"-top")
	var lines []string
	for n, end := range []geom.Pt{across.Curve.Start(), across.Curve.End()} {
		way := c.Sub(q)
		if stitched := j.step.Where.MM(); stitched > 0 && stitched < way.Len() {
			way = way.Unit().Mul(stitched)
		}
		name := j.step.ID + []string{"-fold", "-place"}[n]
		lines = append(lines, name)
		now.Lines = append(now.Lines, piece.Line{Kind: piece.Stitch, Name: name, Curve: geom.Polyline(end, end.Add(way)), Place: j.place()})
	}
	parts := map[string][]part{e.Name: {{e.Name, 0, at}, {now.After(now.Index(across.Name)).Name, at, e.Curve.Length()}}}
	j.rewire(open, now, parts)
	line := func(name string) []piece.Ref { return []piece.Ref{{Piece: now.Name, Edge: name, Inside: true}} }
	u, _ := j.g.Use(now.Name)
	j.g.View.Joins = append(j.g.View.Joins, pattern.Join{
		ID: j.step.ID, Title: "pleat in the " + strings.ToLower(open.Title), Each: len(u.CopyList()) > 1, Method: j.step.Method,
		Sides:  [][]piece.Ref{line(lines[0]), line(lines[1])},
		Intake: []piece.Ref{{Piece: now.Name, Edge: across.Name}}, Place: j.place(),
	})
	return fmt.Sprintf("a pleat %s deep in %s of %s", j.step.By, e.Name, open.Title)
}

// cutOut cuts edge i in three at two distances along it; the middle part gets the
// name given, the last one a name of its own.
func cutOut(p *piece.Piece, i int, from, to float64, name string) piece.Edge {
	first := cut(p, i, from)
	rest := first.after[0]
	p.Edges = slices.Replace(p.Edges, i, i+1, first.before[0], rest)
	middle, last := rest, rest
	middle.Curve, last.Curve = rest.Curve.Split(to - from)
	middle.Name = name
	middle.Steps = slices.Clone(rest.Steps)
	for k := range p.Marks {
		if m := &p.Marks[k]; m.Kind == piece.Notch && m.Edge == rest.Name {
			m.At -= to - from
		}
	}
	p.Edges = slices.Replace(p.Edges, i+1, i+2, middle, last)
	return middle
}

package change

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/source"
)

// mostOff is how far two edges may lie apart, laid on each other, and still be
// cut as one, in mm.
const mostOff = 0.5

// joinPieces cuts two pieces as one where a seam joins a single edge of each and
// the two lie on each other all along, as straight seams and divisions do: the
// seam is saved. The second piece is laid against the first, which keeps its
// name and its grain. Divided again along the same line, the two are as before.
func joinPieces(j *job) string {
	x, i := j.joinNamed(j.step.Item)
	if i < 0 {
		return ""
	}
	refuse := func(why string) string {
		j.tell(notJoined, x.ID, why)
		return ""
	}
	if len(x.Sides) != 2 || len(x.Sides[0]) != 1 || len(x.Sides[1]) != 1 {
		return refuse("it joins more than two edges")
	}
	a, b := x.Sides[0][0], x.Sides[1][0]
	ua, _ := j.g.Use(a.Piece)
	ub, _ := j.g.Use(b.Piece)
	_, fa := j.g.Pieces[a.Piece+"@"+string(piece.Right)]
	_, fb := j.g.Pieces[b.Piece+"@"+string(piece.Right)]
	switch {
	case a.Piece == b.Piece || a.Inside || b.Inside || a.From != "" || b.From != "":
		return refuse("it does not join one whole edge of each of two pieces")
	case ua.Copies != ub.Copies || ua.Copies == pattern.OnFold || ua.Number != ub.Number || a.Copy != b.Copy:
		return refuse("the two are not cut alike")
	case fa || fb:
		return refuse("the two hands differ")
	case !slices.Equal(ua.Cloths, ub.Cloths):
		return refuse("the two are cut from different cloths")
	}
	p, q := j.g.Pieces[a.Piece].Clone(), j.g.Pieces[b.Piece].Clone()
	ia, ib := p.Index(a.Edge), q.Index(b.Edge)
	seamline, other := p.Edges[ia].Curve, q.Edges[ib].Curve.Reverse()
	lay := geom.Turn(seamline.End().Sub(seamline.Start()).Angle()-other.End().Sub(other.Start()).Angle(), other.Start())
	lay = lay.Then(geom.Shift(seamline.Start().Sub(lay.Apply(other.Start()))))
	laid := other.Transform(lay)
	off := math.Max(laid.End().Dist(seamline.End()), laid.Start().Dist(seamline.Start()))
	for _, pt := range laid.Flatten(0.1) {
		_, d := seamline.Nearest(pt)
		off = math.Max(off, d)
	}
	if off > mostOff {
		return refuse("its edges lie " + j.say(off) + " apart when one is laid on the other")
	}
	rename := j.otherNames(p, q, a.Edge, b.Edge)
	ring := between(p, ia+1, ia)
	far := between(q, ib+1, ib)
	for k, e := range far {
		e.Name = rename[e.Name]
		e.Curve = e.Curve.Transform(lay)
		e.Steps = slices.Clone(e.Steps)
		if k == 0 || k == len(far)-1 {
			j.mark(&e)
		}
		far[k] = e
	}
	far[0].Curve = stretchTo(far[0].Curve.Reverse(), ring[len(ring)-1].Curve.End()).Reverse()
	far[len(far)-1].Curve = stretchTo(far[len(far)-1].Curve, ring[0].Curve.Start())
	now := p.Clone()
	now.Edges = append(ring, far...)
	now.Marks = slices.DeleteFunc(now.Marks, func(m piece.Mark) bool { return m.Edge == a.Edge && m.Kind == piece.Notch })
	for _, m := range q.Marks {
		if m.Kind == piece.Notch {
			if m.Edge == b.Edge {
				continue
			}
			m.Edge = rename[m.Edge]
		}
		m.P = lay.Apply(m.P)
		now.Marks = append(now.Marks, m)
	}
	for _, l := range q.Lines {
		l.Curve = l.Curve.Transform(lay)
		same, ok := now.LineNamed(l.Name)
		switch {
		case ok && same.Kind == l.Kind && l.Kind != piece.Placement:
			if l.Kind == piece.Fold || l.Kind == piece.Level {
				now.Lines = extended(now.Lines, l)
			}
			continue // one grain, one level
		case ok:
			l.Name += "-2"
		}
		now.Lines = append(now.Lines, l)
	}
	if geom.Area(now.Outline(0.1)) < 0 {
		return refuse("the two would lie on each other")
	}
	j.drop(x.ID)
	j.mergeRefs(p, q, now, rename)
	return fmt.Sprintf("%s and %s cut as one", p.Title, strings.ToLower(q.Title))
}

// joinNamed finds a join of the view.
func (j *job) joinNamed(id string) (pattern.Join, int) {
	var ids []string
	for i, x := range j.g.View.Joins {
		if x.ID == id {
			return x, i
		}
		ids = append(ids, x.ID)
	}
	j.tell(noSeam, id, strings.Join(ids, ", "))
	return pattern.Join{}, -1
}

// otherNames gives the edges of the second piece names that the first has not:
// their own where they can keep them. An edge that runs on from one of the same
// name gets a second name as well: both are kept.
func (j *job) otherNames(p, q piece.Piece, a, b string) map[string]string {
	taken := map[string]bool{}
	for _, e := range p.Edges {
		taken[e.Name] = e.Name != a
	}
	out := map[string]string{}
	for _, e := range q.Edges {
		name := e.Name
		for n := 2; taken[name]; n++ {
			name = e.Name + "-" + itoa(n)
		}
		out[e.Name] = name
		taken[name] = e.Name != b
	}
	return out
}

// extended runs a line of the first piece on over the second.
func extended(lines []piece.Line, l piece.Line) []piece.Line {
	for i, m := range lines {
		if m.Kind != l.Kind || m.Name != l.Name {
			continue
		}
		switch c, d := m.Curve, l.Curve; {
		case c.End().Dist(d.Start()) < 1:
			lines[i].Curve = joinedCurves(c, d)
		case d.End().Dist(c.Start()) < 1:
			lines[i].Curve = joinedCurves(d, c)
		}
	}
	return lines
}

// mergeRefs puts the one piece in the place of the two.
func (j *job) mergeRefs(p, q, now piece.Piece, rename map[string]string) {
	v := &j.g.View
	j.g.Pieces[p.Name] = now
	delete(j.g.Pieces, q.Name)
	v.Uses = slices.DeleteFunc(slices.Clone(v.Uses), func(u pattern.Use) bool { return u.Piece == q.Name })
	j.g.Order = slices.DeleteFunc(slices.Clone(j.g.Order), func(n string) bool { return n == q.Name })
	j.mapRefs(func(refs []piece.Ref, _ bool) []piece.Ref {
		var out []piece.Ref
		for _, r := range refs {
			was := p
			if r.Piece == q.Name {
				was = q
			} else if r.Piece != p.Name {
				out = append(out, r)
				continue
			}
			r2 := r
			r2.Piece = p.Name
			if !r.Inside {
				if was.Name == q.Name {
					r2.Edge = rename[r.Edge]
				}
				r2.From, r2.To = corners(r, was, now, r2.Edge)
			}
			out = append(out, r2)
		}
		return out
	})
	for i := range v.Parts {
		if v.Parts[i].Piece == q.Name {
			v.Parts[i].Piece = p.Name
		}
	}
}

// corners names the ends of a stretch on the joined piece: a notch as before, a
// corner after the edge that now meets there.
func corners(r piece.Ref, was, now piece.Piece, edge string) (string, string) {
	i, k := was.Index(r.Edge), now.Index(edge)
	if r.From == "" || i < 0 || k < 0 {
		return r.From, r.To
	}
	name := func(point string) string {
		if _, notch := was.Notch(r.Edge, point); notch {
			return point
		}
		if point == was.Before(i).Name {
			return now.Before(k).Name
		}
		return now.After(k).Name
	}
	return name(r.From), name(r.To)
}

func nearestOf(word string, names []string) string { return source.Nearest(word, names) }

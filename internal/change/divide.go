package change

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/source"
)

// Piecing: where the cloth is too short for a long piece that hardly shows, a
// waistband or a facing, the trade cuts it in two parts and joins them by a seam
// before anything else is done with them.

// leastPart is the least that a divided edge keeps on either side, in mm: less
// is not sewn well.
const leastPart = 15

// division is the edge along which the two parts are joined.
const division = "division"

// split is one dividing: the piece, the edge where the cut line enters it and
// the one where it leaves, with the places on them. Going round from the first
// place to the second, one walks round the part that lies beyond the cut.
type split struct {
	whole     piece.Piece
	a, b      int
	atA, atB  float64
	near, far piece.Piece // the part towards the foot or the left keeps the name
	step      string
}

// divide cuts a piece in two, square to its longer side, and joins the parts.
func divide(j *job) string {
	s := j.step
	u, ok := j.g.Use(s.Piece)
	if !ok {
		var names []string
		for _, u := range j.g.View.Uses {
			names = append(names, u.Piece)
		}
		j.tell(noPiece, s.Piece, source.Nearest(s.Piece, names))
		return ""
	}
	refuse := func(why string) string {
		j.tell(undivided, s.Piece, s.Where, why)
		return ""
	}
	_, forked := j.g.Pieces[s.Piece+"@"+string(piece.Right)]
	switch {
	case u.Copies == pattern.OnFold:
		return refuse("it is cut on the fold")
	case forked:
		return refuse("its two hands differ")
	}
	d, why := cutAcross(j.g.Pieces[s.Piece], s.Where.MM())
	if why == "" {
		d.step = s.ID
		why = d.part(j.farName())
	}
	if why == "" {
		why = j.rewrite(d)
	}
	if why != "" {
		return refuse(why)
	}
	j.g.Pieces[d.near.Name], j.g.Pieces[d.far.Name] = d.near, d.far
	j.addPart(u, d)
	return fmt.Sprintf("%s in two parts, joined %s from its end", d.whole.Title, s.Where)
}

// farName is a name that no piece has yet.
func (j *job) farName() string {
	for n := 2; ; n++ {
		name := j.step.Piece + "-" + strconv.Itoa(n)
		if _, taken := j.g.Pieces[name]; !taken {
			return name
		}
	}
}

// addPart adds the far part to the view, and the seam that joins the two.
func (j *job) addPart(u pattern.Use, d split) {
	v := &j.g.View
	i := slices.IndexFunc(v.Uses, func(x pattern.Use) bool { return x.Piece == u.Piece })
	u.Piece = d.far.Name
	v.Uses = slices.Insert(slices.Clone(v.Uses), i+1, u)
	if k := slices.Index(j.g.Order, d.whole.Name); k >= 0 {
		j.g.Order = slices.Insert(slices.Clone(j.g.Order), k+1, d.far.Name)
	}
	v.Joins = append(v.Joins, pattern.Join{
		ID: j.step.ID, Title: "division of the " + strings.ToLower(d.whole.Title), Each: len(u.CopyList()) > 1,
		Sides:  [][]piece.Ref{{{Piece: d.near.Name, Edge: division}}, {{Piece: d.far.Name, Edge: division}}},
		Method: j.step.Method, Place: j.place(),
	})
}

// cutAcross finds where a line square to the longer side of a piece crosses its
// outline; a reason when it cannot be cut there.
func cutAcross(p piece.Piece, where float64) (split, string) {
	along := grainOf(p)
	pts := p.Outline(0.1)
	lo, hi := span(pts, along)
	if l, h := span(pts, along.Left().Mul(-1)); h-l > hi-lo {
		along, lo, hi = along.Left().Mul(-1), l, h
	}
	if where >= hi-lo {
		return split{}, "it ends before"
	}
	type meet struct {
		edge int
		at   float64
	}
	var meets []meet
	foot := along.Mul(lo + where)
	far := along.Left().Mul(1e4)
	line := geom.Polyline(foot.Sub(far), foot.Add(far))
	for i, e := range p.Edges {
		for _, c := range geom.Crossings(e.Curve, line) {
			if c.A < leastPart || c.A > e.Curve.Length()-leastPart {
				return split{}, "it has a corner there"
			}
			meets = append(meets, meet{i, c.A})
		}
	}
	if len(meets) != 2 || meets[0].edge == meets[1].edge {
		return split{}, "the cut would make more than two parts"
	}
	d := split{whole: p, a: meets[0].edge, b: meets[1].edge, atA: meets[0].at, atB: meets[1].at}
	if p.Edges[d.a].Curve.TangentAt(d.atA).Dot(along) < 0 { // round the far part one walks from a to b
		d.a, d.b, d.atA, d.atB = d.b, d.a, d.atB, d.atA
	}
	return d, ""
}

// grainOf is the direction of a piece's grain, upwards.
func grainOf(p piece.Piece) geom.Pt {
	if l, ok := p.Line(piece.Grain, ""); ok && len(l.Curve) > 0 {
		if v := l.Curve.End().Sub(l.Curve.Start()).Unit(); v.Y < 0 {
			return v.Mul(-1)
		} else if v.Len() > 0 {
			return v
		}
	}
	return geom.Pt{Y: 1}
}

func span(pts []geom.Pt, along geom.Pt) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, p := range pts {
		lo, hi = min(lo, p.Dot(along)), max(hi, p.Dot(along))
	}
	return lo, hi
}

package exchange

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// marks takes the marks that every size has; notches without a name are matched
// by their order along the edge they lie on.
func (g *grader) marks(name string, in []Part, out []piece.Piece) {
	byID := make([]map[string]piece.Mark, len(in))
	for k := range in {
		byID[k] = g.marksOf(name, in[k], out[k])
	}
	for _, e := range out[0].Edges {
		numberedAlike(byID, e.Name)
	}
	for _, id := range sortedKeys(byID[0]) {
		every := true
		for k := range in {
			_, ok := byID[k][id]
			every = every && ok
		}
		if !every {
			g.tell(dropped, in[0].Place, strings.ReplaceAll(id, ".", " "), name)
			continue
		}
		for k := range in {
			out[k].Marks = append(out[k].Marks, byID[k][id])
		}
	}
	for k := 1; k < len(in); k++ {
		for _, id := range sortedKeys(byID[k]) {
			if _, ok := byID[0][id]; !ok {
				g.tell(dropped, in[0].Place, strings.ReplaceAll(id, ".", " "), name)
			}
		}
	}
}

// numberName is a name that only counts.
var numberName = regexp.MustCompile(`^n(otch-)?[0-9]+$`)

// numberedAlike numbers the notches of an edge by their order along it, where
// every size has as many and their names only count: sizes that were traced or
// drawn one by one count each in its own way.
func numberedAlike(byID []map[string]piece.Mark, edge string) {
	on := make([][]piece.Mark, len(byID))
	same := true
	for k, marks := range byID {
		for _, id := range sortedKeys(marks) {
			if m := marks[id]; m.Kind == piece.Notch && m.Edge == edge {
				if !numberName.MatchString(m.Name) {
					return
				}
				on[k] = append(on[k], m)
				_, there := byID[0][id]
				same = same && there
			}
		}
		if len(on[k]) != len(on[0]) {
			return
		}
	}
	if same {
		return
	}
	for k, list := range on {
		slices.SortStableFunc(list, func(a, b piece.Mark) int { return cmp.Compare(a.At, b.At) })
		for _, m := range list {
			delete(byID[k], notchID(m))
		}
		for i, m := range list {
			m.Name = fmt.Sprintf("n%d", i+1)
			byID[k][notchID(m)] = m
		}
	}
}

func notchID(m piece.Mark) string { return "notch." + m.Edge + "." + m.Name }

// notchReach is how far a notch may lie off the line it is put on, in mm: the
// widest allowance between a boundary and its stitching line.
const notchReach = 120

// marksOf puts the marks of one size on its piece.
func (g *grader) marksOf(name string, in Part, p piece.Piece) map[string]piece.Mark {
	out := map[string]piece.Mark{}
	byEdge := map[string][]piece.Mark{}
	for _, m := range in.Marks {
		m.Place = in.Place
		if m.Kind != piece.Notch {
			m.Name = slug(m.Name)
			out[string(m.Kind)+"."+m.Name] = m
			continue
		}
		edge := m.Edge
		if p.Index(slug(edge)) < 0 {
			edge = nearestEdge(p, m.P)
		}
		e, _ := p.Edge(slug(edge))
		at, off := e.Curve.Nearest(m.P)
		if off > notchReach || len(in.Sewn) == 0 && off > 2 {
			g.tell(noNotch, in.Place, m.Name, name, off)
			continue
		}
		named := m.Edge != ""
		m.Edge, m.At, m.P = e.Name, at, e.Curve.At(at)
		if named {
			m.Name = slug(m.Name)
			out[notchID(m)] = m
			continue
		}
		byEdge[m.Edge] = append(byEdge[m.Edge], m)
	}
	for _, list := range byEdge {
		slices.SortFunc(list, func(a, b piece.Mark) int { return cmp.Compare(a.At, b.At) })
		for i, m := range list {
			m.Name = fmt.Sprintf("n%d", i+1)
			out[notchID(m)] = m
		}
	}
	return out
}

func nearestEdge(p piece.Piece, q geom.Pt) string {
	best, dist := "", math.Inf(1)
	for _, e := range p.Edges {
		if _, d := e.Curve.Nearest(q); d < dist {
			best, dist = e.Name, d
		}
	}
	return best
}

package seam

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// Crossing is where an edge runs on across a seam, or a dart, once that is sewn:
// a waist across the side seam, a hem, an armhole across the shoulder, the crotch
// across the inseams. The inner angles of the two corners that meet there make a
// straight angle, or the edge breaks (common practice: the pieces are laid
// together on the seam and the edge is checked across it).
type Crossing struct {
	Seam  Seam
	AtEnd bool      // at the seam's end, not its beginning
	Edges [2]Corner // the edges that meet
	// Break is by how many degrees the two corners miss a straight angle: above
	// zero the edge has a point there, below zero a notch.
	Break float64
}

// Corner is the end of an edge beside a seam: the edge, and whether it is its
// beginning that lies at the seam.
type Corner struct {
	Piece string
	Copy  piece.Copy
	Edge  string
	Start bool
}

// Designed is the break in degrees from which a corner is one on purpose: the top
// of a vent, the point of a yoke.
const Designed = 45

// Smooth is how far an edge may break across a seam, in degrees, and still be
// taken for smooth. A rule laid over the seam, 2 cm to either side, stands off the
// edge there by 0.9 mm at 5 degrees: about the 1/32 in that seams are walked to on
// a screen, and well below the 1/16 in of a strict walk on paper (Threads no. 200).
// To draw it on over 4 cm moves either edge by a quarter of a millimetre.
const Smooth = 5

// Crossings lists where edges run on across the garment's seams, and across the
// folds that pieces are cut on. Edges run on into each other when one side of a
// join, or one finish, takes both, or when both are centre seams, as fork and
// seat are.
func Crossings(g pattern.Garment, seams []Seam) []Crossing {
	g = g.Handed()
	groups := groupsOf(g, seams)
	var out []Crossing
	for _, s := range seams {
		if s.Copy == piece.Right {
			continue
		}
		for k := 1; k < len(s.Sides); k++ {
			for _, atEnd := range []bool{false, true} {
				a, alpha, ok1 := cornerAt(g, s.Sides[0], atEnd)
				b, beta, ok2 := cornerAt(g, s.Sides[k], atEnd)
				if c := (Crossing{s, atEnd, [2]Corner{a, b}, degrees(alpha + beta - math.Pi)}); ok1 && ok2 && groups.share(a, b) && math.Abs(c.Break) < Designed {
					out = append(out, c)
				}
			}
		}
	}
	return append(out, foldCrossings(g, groups)...)
}

// foldCrossings are those across the folds on which pieces are cut: both halves
// have the same corner.
func foldCrossings(g pattern.Garment, groups groups) []Crossing {
	var out []Crossing
	for _, u := range g.View.Uses {
		p, ok := g.Copy(u.Piece, u.CopyList()[0])
		i := p.Index(u.FoldEdge)
		if u.Copies != pattern.OnFold || u.Folded || !ok || i < 0 {
			continue
		}
		n := len(p.Edges)
		for _, k := range []int{i, (i + 1) % n} { // the corner where edge k begins
			c := Corner{u.Piece, piece.Left, p.Edges[k].Name, true}
			if k == i {
				c = Corner{u.Piece, piece.Left, p.Before(i).Name, false}
			}
			s := Seam{ID: "fold of " + u.Piece, Title: "the fold of " + u.Piece, Place: u.Place}
			if x := (Crossing{s, k != i, [2]Corner{c, c}, degrees(2*inner(p, k) - math.Pi)}); groups.share(c, c) && math.Abs(x.Break) < Designed {
				out = append(out, x)
			}
		}
	}
	return out
}

// cornerAt is the corner in which a side of a seam begins or ends, when it does in
// one: the edge beside it there, and the inner angle.
func cornerAt(g pattern.Garment, chain []Stretch, atEnd bool) (Corner, float64, bool) {
	st := chain[0]
	if atEnd {
		st = chain[len(chain)-1]
	}
	p, ok := g.Copy(st.Piece, st.Copy)
	i := p.Index(st.Edge)
	if !ok || i < 0 || st.Inside {
		return Corner{}, 0, false
	}
	n := len(p.Edges)
	if st.Forward == atEnd { // the edge's own end
		if st.To < p.Edges[i].Curve.Length()-0.01 {
			return Corner{}, 0, false
		}
		k := (i + 1) % n
		return Corner{st.Piece, st.Copy, p.Edges[k].Name, true}, inner(p, k), true
	}
	if st.From > 0.01 {
		return Corner{}, 0, false
	}
	return Corner{st.Piece, st.Copy, p.Before(i).Name, false}, inner(p, i), true
}

// inner is the inner angle, in radians, of the corner where edge k begins.
func inner(p piece.Piece, k int) float64 {
	in, out := p.Before(k).Curve.EndTangent(), p.Edges[k].Curve.StartTangent()
	return math.Pi - turned(in, out)
}

func degrees(radians float64) float64 { return radians * 180 / math.Pi }

func turned(a, b geom.Pt) float64 { return math.Atan2(a.Cross(b), a.Dot(b)) }

// groups tells which edges are one line when the garment is sewn.
type groups map[string]map[string]bool // "piece@copy:edge" -> names of groups

func (q groups) add(name string, c piece.Copy, edge, group string) {
	key := name + "@" + string(c) + ":" + edge
	if q[key] == nil {
		q[key] = map[string]bool{}
	}
	q[key][group] = true
}

func (q groups) share(a, b Corner) bool {
	key := func(c Corner) string { return c.Piece + "@" + string(c.Copy) + ":" + c.Edge }
	for group := range q[key(a)] {
		if q[key(b)][group] {
			return true
		}
	}
	return false
}

func groupsOf(g pattern.Garment, seams []Seam) groups {
	q := groups{}
	for _, s := range seams {
		for k, chain := range s.Sides {
			for _, st := range chain {
				if !st.Inside {
					q.add(st.Piece, st.Copy, st.Edge, s.ID+string(rune('a'+k)))
				}
			}
		}
		if centre(s) {
			for _, chain := range s.Sides {
				for _, st := range chain {
					q.add(st.Piece, st.Copy, st.Edge, "centre seams "+string(st.Copy))
				}
			}
		}
	}
	for _, f := range g.View.Finishes {
		for _, r := range f.Edges {
			copies := []piece.Copy{r.Copy}
			if u, ok := g.Use(r.Piece); ok && r.Copy == piece.Both {
				copies = u.CopyList()
			}
			for _, c := range copies {
				q.add(r.Piece, c, r.Edge, "finish "+f.ID)
			}
		}
	}
	return q
}

// centre reports whether a seam joins the left and right copies of the same edges.
func centre(s Seam) bool {
	if len(s.Sides) != 2 || len(s.Sides[0]) != len(s.Sides[1]) {
		return false
	}
	for i, a := range s.Sides[0] {
		b := s.Sides[1][i]
		if a.Inside || a.Piece != b.Piece || a.Edge != b.Edge || a.Copy == b.Copy {
			return false
		}
	}
	return true
}

// asDrawn is how near a break may be to that before the changes, in degrees, and
// still count as drawn so: it cannot be seen on paper.
const asDrawn = 0.5

// CheckCrossings reports every edge that breaks where it crosses a seam: as advice
// where it is drawn so, as a warning where a change has made it so. drawn are the
// crossings of the garment before its changes.
func CheckCrossings(g pattern.Garment, seams []Seam, drawn []Crossing) finding.List {
	var out finding.List
	g = g.Handed()
	before := map[string]float64{}
	for _, c := range drawn {
		before[c.key()] = c.Break
	}
	for _, c := range Crossings(g, seams) {
		if math.Abs(c.Break) < Smooth {
			continue
		}
		shape := "a point"
		if c.Break < 0 {
			shape = "a notch"
		}
		steps := c.steps(g)
		if was, ok := before[c.key()]; ok && math.Abs(was-c.Break) <= asDrawn {
			steps = nil
		}
		k, args := breaks, []any{c.Edges[0].name(), c.Edges[1].name(), c.Seam.Title, math.Abs(c.Break), shape, c.across()}
		if len(steps) > 0 {
			k, args = broken, append(args, strings.Join(steps, ", "))
			if c.straightHem(g) {
				k = hemPoint
			}
		}
		f := k.At(c.Seam.Place, args...)
		for _, e := range c.Edges {
			f = f.Note(finding.Place{}.OnPiece(e.Piece, string(e.Copy), e.Edge), "this edge")
		}
		out = append(out, f)
	}
	return out
}

// key tells one crossing of a garment from another.
func (c Crossing) key() string { return fmt.Sprint(c.Seam.ID, c.AtEnd, c.Edges) }

// across is what a run-on names: the join, or the piece that lies on the fold.
func (c Crossing) across() string {
	if c.Seam.Join == "" {
		return c.Edges[0].Piece
	}
	return c.Seam.Join
}

func (c Corner) name() string { return c.Edge + " of " + c.Piece }

// straightHem reports whether both edges are straight and one finish takes them:
// such an edge is folded on its line, and a curved one would not lie flat (common
// practice), so a point there is no fault by itself.
func (c Crossing) straightHem(g pattern.Garment) bool {
	for _, corner := range c.Edges {
		p, _ := g.Copy(corner.Piece, corner.Copy)
		if e, ok := p.Edge(corner.Edge); !ok || !e.Curve.Straight(hemStraight) {
			return false
		}
	}
	return slices.ContainsFunc(g.View.Finishes, func(f pattern.Finish) bool {
		takes := func(corner Corner) bool {
			return slices.ContainsFunc(f.Edges, func(r piece.Ref) bool { return r.Piece == corner.Piece && r.Edge == corner.Edge })
		}
		return takes(c.Edges[0]) && takes(c.Edges[1])
	})
}

// hemStraight is how far a hem may lie from a straight line, mm, and still be
// folded on one.
const hemStraight = 0.2

// steps lists the changes that have moved an edge of a crossing.
func (c Crossing) steps(g pattern.Garment) []string {
	var out []string
	for _, corner := range c.Edges {
		p, _ := g.Copy(corner.Piece, corner.Copy)
		e, _ := p.Edge(corner.Edge)
		for _, s := range e.Steps {
			if !slices.Contains(out, s) {
				out = append(out, s)
			}
		}
	}
	return out
}

package trace

import (
	"fmt"
	"math"
	"slices"

	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/piece"
	"gusset/internal/trace/outline"
)

// Naming is what the user says about a traced piece. Numbers are those of the
// preview, from 1.
type Naming struct {
	Piece string
	Size  string
	Edges []string // in the order of the preview; missing ones are called edge-3
	Grain int      // the line that is the grain; 0 takes one by the cards' arrows
	// Lines says what other lines are: piece.LineKind and name.
	Lines map[int][2]string
	Drop  []int // notches that are none
}

// margin is the blank border of a piece file, mm.
const margin = 20.0

// Piece makes the piece of what was traced, grain upright.
func (t Traced) Piece(n Naming) (piece.Piece, finding.List) {
	grain, found := t.grain(n.Grain)
	if found.Stops() > 0 {
		return piece.Piece{}, found
	}
	return t.pieceUnder(t.upright(grain, margin), n), found
}

// pieceUnder is the piece under a map that puts its grain upright.
func (t Traced) pieceUnder(m geom.Affine, n Naming) piece.Piece {
	p := piece.Piece{Name: n.Piece, Title: n.Piece}
	for i, e := range t.ordered(m) {
		name := fmt.Sprintf("edge-%d", i+1)
		if i < len(n.Edges) && n.Edges[i] != "" {
			name = n.Edges[i]
		}
		p.Edges = append(p.Edges, piece.Edge{Name: name, Curve: e})
	}
	for i, k := range t.Shape.Notches {
		if slices.Contains(n.Drop, i+1) {
			continue
		}
		at, edge := onEdge(p.Edges, m.Apply(k.At))
		p.Marks = append(p.Marks, piece.Mark{Kind: piece.Notch, Edge: p.Edges[edge].Name, Name: fmt.Sprintf("n%d", i+1), At: at, P: p.Edges[edge].Curve.At(at)})
	}
	p.Lines = t.lines(n, m, p)
	return p
}

// grain returns the direction of the grain in the frame of the solver.
func (t Traced) grain(chosen int) (geom.Pt, finding.List) {
	if chosen < 0 || chosen > len(t.Lines) {
		return geom.Pt{}, finding.List{noLine.At(finding.Place{}, chosen)}
	}
	if len(t.Lines) == 0 {
		return t.arrows(), finding.List{noGrain.At(finding.Place{})}
	}
	l := t.Lines[t.grainLine(chosen)-1]
	if chosen == 0 {
		return l.B.Sub(l.A), finding.List{grainGuess.At(finding.Place{}, t.grainLine(0))}
	}
	return l.B.Sub(l.A), nil
}

// arrows is the way the cards' arrows point, in the frame of the solver.
func (t Traced) arrows() geom.Pt {
	b := inverse(t.Table.fromCards())
	return b.Apply(geom.Pt{Y: 1}).Sub(b.Apply(geom.Pt{}))
}

// nearArrows is how far the grain may lean from the cards' arrows to be taken
// for it unasked: 15 degrees.
const nearArrows = 15 * math.Pi / 180

// grainLine is the number of the line that is the grain: the one chosen, or the
// longest that runs about as the cards' arrows, or the longest of all.
func (t Traced) grainLine(chosen int) int {
	if chosen > 0 {
		return chosen
	}
	up := t.arrows()
	for i, l := range t.Lines {
		d := l.B.Sub(l.A)
		if math.Abs(math.Atan2(up.Cross(d), math.Abs(up.Dot(d)))) < nearArrows {
			return i + 1
		}
	}
	return 1
}

// ordered are the edges under m, beginning at the corner nearest to the lower
// left of the piece.
func (t Traced) ordered(m geom.Affine) []geom.Curve {
	edges := make([]geom.Curve, len(t.Shape.Edges))
	first, least := 0, math.Inf(1)
	for i, e := range t.Shape.Edges {
		edges[i] = e.Transform(m)
		if s := edges[i].Start(); s.X+s.Y < least {
			first, least = i, s.X+s.Y
		}
	}
	return append(slices.Clone(edges[first:]), edges[:first]...)
}

func onEdge(edges []piece.Edge, p geom.Pt) (at float64, edge int) {
	best := math.Inf(1)
	for i, e := range edges {
		if a, d := e.Curve.Nearest(p); d < best {
			best, at, edge = d, a, i
		}
	}
	return at, edge
}

// lines are the grain and the lines that the user has named.
func (t Traced) lines(n Naming, m geom.Affine, p piece.Piece) []piece.Line {
	var out []piece.Line
	put := func(kind piece.LineKind, name string, l outline.Ruled) {
		a, b := m.Apply(l.A), m.Apply(l.B)
		if b.Y < a.Y-1e-9 || b.Y < a.Y+1e-9 && b.X < a.X {
			a, b = b, a
		}
		out = append(out, piece.Line{Kind: kind, Name: name, Curve: geom.Curve{geom.Line(a, b)}})
	}
	grain := t.grainLine(n.Grain)
	for i, l := range t.Lines {
		if as, ok := n.Lines[i+1]; ok {
			put(piece.LineKind(as[0]), as[1], l)
		} else if i+1 == grain {
			put(piece.Grain, "grain", l)
		}
	}
	if len(t.Lines) == 0 { // by the cards: upright through the middle
		lo, hi := geom.BoundsOf(p.Outline(0.5))
		mid := lo.Lerp(hi, 0.5)
		h := (hi.Y - lo.Y) / 4
		out = append(out, piece.Line{Kind: piece.Grain, Name: "grain", Curve: geom.Curve{geom.Line(geom.Pt{X: mid.X, Y: mid.Y - h}, geom.Pt{X: mid.X, Y: mid.Y + h})}})
	}
	return out
}

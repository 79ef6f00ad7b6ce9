// Package piece holds pattern pieces: an outline of named edges between
// corners, always on the stitching line, with lines and marks inside.
//
// A piece goes through three states. A graded piece is drawn in every printed
// size (Graded); a sized piece is the one this body needs; a cut piece has
// allowances (package finish). The middle one is Piece, and every stage from
// fit to seam speaks of it.
//
// Pieces are drawn face up as the wearer's left copy, grain upright, and their
// outline runs counter-clockwise. The right copy is the mirror image, again
// counter-clockwise. Seen so, two edges that are sewn together run against each
// other: that is what makes a garment out of flat pieces, and the walking of
// seams rests on it.
package piece

import (
	"fmt"
	"slices"

	"gusset/internal/finding"
	"gusset/internal/geom"
)

// Edge is one side of a piece between two corners, on the stitching line. It
// keeps its name for good.
type Edge struct {
	Name  string
	Curve geom.Curve
	// Printed is how far outside this line the paper's own cut line runs, in
	// millimetres; 0 where the paper prints the stitching line.
	Printed float64
	Place   finding.Place
	// Steps names the docket's change steps that have moved this edge.
	Steps []string
}

// LineKind says what a line inside a piece is for.
type LineKind string

// The kinds of inside lines.
const (
	Grain     LineKind = "grain"     // runs with the warp
	Fold      LineKind = "fold"      // folded when made up (a crease, a band's fold)
	Level     LineKind = "level"     // a height on the body: hip, thigh, knee
	Placement LineKind = "placement" // another piece is set on it
	Lengthen  LineKind = "lengthen"  // lengthen or shorten here
	Stitch    LineKind = "stitch"    // a line of stitching inside the piece
)

// LineKinds lists every kind a pattern may use.
var LineKinds = []LineKind{Grain, Fold, Level, Placement, Lengthen, Stitch}

// Line is a named line inside a piece.
type Line struct {
	Kind  LineKind
	Name  string
	Curve geom.Curve
	Place finding.Place
}

// MarkKind says what a mark is.
type MarkKind string

// The kinds of marks.
const (
	Notch      MarkKind = "notch"
	Drill      MarkKind = "drill"
	Button     MarkKind = "button"
	Buttonhole MarkKind = "buttonhole"
)

// MarkKinds lists every kind a pattern may use.
var MarkKinds = []MarkKind{Notch, Drill, Button, Buttonhole}

// Mark is a notch on an edge or a point inside the piece.
type Mark struct {
	Kind MarkKind
	Name string
	// Edge is the edge a notch sits on, empty for a mark inside.
	Edge string
	// At is the notch's distance in mm along the edge from its start.
	At float64
	// P is where the mark lies.
	P     geom.Pt
	Place finding.Place
}

// Piece is one pattern piece in one size.
type Piece struct {
	Name  string
	Title string
	Edges []Edge
	Lines []Line
	Marks []Mark
	Place finding.Place
}

// Clone returns a copy that shares no slice with p.
func (p Piece) Clone() Piece {
	edges := make([]Edge, len(p.Edges))
	for i, e := range p.Edges {
		e.Curve = append(geom.Curve(nil), e.Curve...)
		e.Steps = append([]string(nil), e.Steps...)
		edges[i] = e
	}
	lines := make([]Line, len(p.Lines))
	for i, l := range p.Lines {
		l.Curve = append(geom.Curve(nil), l.Curve...)
		lines[i] = l
	}
	p.Edges, p.Lines = edges, lines
	p.Marks = append([]Mark(nil), p.Marks...)
	return p
}

// Index returns the position of the named edge in the outline, or -1.
func (p Piece) Index(edge string) int {
	for i, e := range p.Edges {
		if e.Name == edge {
			return i
		}
	}
	return -1
}

// Edge returns the named edge.
func (p Piece) Edge(name string) (Edge, bool) {
	if i := p.Index(name); i >= 0 {
		return p.Edges[i], true
	}
	return Edge{}, false
}

// Before and After return the neighbours of edge i round the outline.
func (p Piece) Before(i int) Edge { return p.Edges[(i+len(p.Edges)-1)%len(p.Edges)] }

// After returns the edge that follows edge i round the outline.
func (p Piece) After(i int) Edge { return p.Edges[(i+1)%len(p.Edges)] }

// EdgeNames returns the names of the edges in outline order.
func (p Piece) EdgeNames() []string {
	names := make([]string, len(p.Edges))
	for i, e := range p.Edges {
		names[i] = e.Name
	}
	return names
}

// Line returns the first line of the kind with the name; an empty name takes
// the first of the kind.
func (p Piece) Line(kind LineKind, name string) (Line, bool) {
	for _, l := range p.Lines {
		if l.Kind == kind && (name == "" || l.Name == name) {
			return l, true
		}
	}
	return Line{}, false
}

// LineNamed returns the line with the name, whatever its kind.
func (p Piece) LineNamed(name string) (Line, bool) {
	for _, l := range p.Lines {
		if l.Name == name {
			return l, true
		}
	}
	return Line{}, false
}

// Notch returns the named notch on the named edge.
func (p Piece) Notch(edge, name string) (Mark, bool) {
	for _, m := range p.Marks {
		if m.Kind == Notch && m.Edge == edge && m.Name == name {
			return m, true
		}
	}
	return Mark{}, false
}

// Outline returns the closed stitching line as points within tol mm of it,
// counter-clockwise, the first point not repeated.
func (p Piece) Outline(tol float64) []geom.Pt {
	var out []geom.Pt
	for _, e := range p.Edges {
		pts := e.Curve.Flatten(tol)
		if len(pts) > 0 {
			out = append(out, pts[:len(pts)-1]...)
		}
	}
	return out
}

// Mirror returns the other hand of the piece, mirrored left to right about
// x = 0. The outline is turned round so that it runs counter-clockwise again,
// and notches are measured from the new start of their edges.
func (p Piece) Mirror() Piece {
	m := geom.Affine{A: -1, D: 1}
	q := p
	n := len(p.Edges)
	q.Edges, q.Lines, q.Marks = make([]Edge, n), make([]Line, len(p.Lines)), slices.Clone(p.Marks)
	for i, e := range p.Edges {
		e.Curve = e.Curve.Transform(m).Reverse()
		e.Steps = slices.Clone(e.Steps)
		q.Edges[n-1-i] = e
	}
	for i, l := range p.Lines {
		l.Curve = l.Curve.Transform(m)
		q.Lines[i] = l
	}
	for i, k := range p.Marks {
		k.P = m.Apply(k.P)
		if e, ok := p.Edge(k.Edge); ok {
			k.At = e.Curve.Length() - k.At
		}
		q.Marks[i] = k
	}
	return q
}

// Transform returns the piece under a map that does not turn it over.
func (p Piece) Transform(m geom.Affine) Piece {
	q := p.Clone()
	for i := range q.Edges {
		q.Edges[i].Curve = q.Edges[i].Curve.Transform(m)
	}
	for i := range q.Lines {
		q.Lines[i].Curve = q.Lines[i].Curve.Transform(m)
	}
	for i := range q.Marks {
		q.Marks[i].P = m.Apply(q.Marks[i].P)
	}
	return q
}

// Corner returns the distance along the named edge of one of its named points:
// a notch on it, or a corner, called by the name of the neighbouring edge it
// shares the corner with.
func (p Piece) Corner(edge, point string) (float64, error) {
	i := p.Index(edge)
	if i < 0 {
		return 0, fmt.Errorf("%s has no edge %q", p.Name, edge)
	}
	if m, ok := p.Notch(edge, point); ok {
		return m.At, nil
	}
	switch point {
	case p.Before(i).Name:
		return 0, nil
	case p.After(i).Name:
		return p.Edges[i].Curve.Length(), nil
	}
	return 0, fmt.Errorf("%s:%s has no notch and no corner called %q", p.Name, edge, point)
}

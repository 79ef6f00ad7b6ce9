// Package compare lays two versions of a garment over each other and says in
// millimetres where they differ: what each girth measures, how wide each piece
// is at its levels, how long its edges are, and where the two outlines lie
// furthest apart. The versions may be a printed size, the blend of a body, the
// same with some or all of the docket's changes, or another docket's.
//
// Pieces are compared by name, as drawn. All sizes of a pattern are drawn about
// one point, so two versions of one pattern lie on each other as a nest does; with
// a level named, they are laid on each other there, grain on grain.
package compare

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gusset/internal/fit"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// Version is one of the two, with what it is called.
type Version struct {
	Name    string // "size 42", "changed"
	Garment pattern.Garment
}

// Row is one measure of both, in mm; a measure that one of them lacks is NaN
// there.
type Row struct {
	What string // "hip", "side"
	A, B float64
}

// By is how much more B measures, in mm; NaN where one of them lacks it.
func (r Row) By() float64 { return r.B - r.A }

// Piece is one piece of both.
type Piece struct {
	Name, Title string
	A, B        piece.Piece // laid on each other; one without edges is not there
	Levels      []Row       // the width across at each level that does not lie along an end
	Heights     []Row       // how high each level lies over the lowest point
	Edges       []Row       // the length of each edge, its parts together
	Area        Row         // in mm²
	// Apart is how far the outlines lie from each other at most, in mm, At the
	// place on B, and Edge B's edge there.
	Apart float64
	At    geom.Pt
	Edge  string
	// Allowances are those of edges that have another in B, in mm, and Cut how the
	// piece is cut in A and in B, where that differs: "on the fold", "as a pair".
	Allowances []Row
	Cut        [2]string
	// Whole is the title of the piece of A that B's was cut from by a division; A is
	// then that piece. Nothing lies apart.
	Whole string
}

// Same reports whether both versions of the piece are the same: drawn alike within so
// many mm, and cut alike.
func (p Piece) Same(least float64) bool {
	return p.Only() == "" && p.Whole == "" && p.Apart < least && len(p.Allowances) == 0 && p.Cut[0] == p.Cut[1]
}

// Otherwise says in words what differs besides the stitching line.
func (p Piece) Otherwise() []string {
	var out []string
	if p.Cut[0] != p.Cut[1] {
		out = append(out, "cut "+p.Cut[1]+", not "+p.Cut[0])
	}
	for _, r := range p.Allowances {
		out = append(out, fmt.Sprintf("allowance at %s %.1f mm, not %.1f mm", r.What, r.B, r.A))
	}
	return out
}

// Only says which version alone has the piece: "A", "B", or "" for both.
func (p Piece) Only() string {
	switch {
	case len(p.B.Edges) == 0:
		return "A"
	case len(p.A.Edges) == 0:
		return "B"
	}
	return ""
}

// Report is the comparison of two versions.
type Report struct {
	A, B   string
	Girths []Row
	Pieces []Piece
}

const (
	fine   = 0.02 // how closely outlines are followed, in mm
	inside = 0.1  // how far inside an end of a piece a level is measured, in mm
	ends   = 1.0  // how near to an end of a piece a level lies along it, in mm
)

// Compare compares two versions. level, when it is not empty, is the level at
// which pieces are laid on each other.
func Compare(a, b Version, level string) Report {
	r := Report{A: a.Name, B: b.Name, Girths: girths(a.Garment, b.Garment)}
	for _, name := range names(a.Garment, b.Garment) {
		p, inA := a.Garment.Pieces[name]
		q, inB := b.Garment.Pieces[name]
		switch {
		case inA && inB:
			x := both(p, q, level)
			if x.Apart > onWhole && isPart(q, p) {
				x.Whole, x.Apart = p.Title, 0
			}
			if as := [2]string{cutAs(a.Garment, name), cutAs(b.Garment, name)}; as[0] != as[1] && as[0] != "" && as[1] != "" {
				x.Cut = as
			}
			r.Pieces = append(r.Pieces, x)
		case inA:
			r.Pieces = append(r.Pieces, Piece{Name: name, Title: p.Title, A: p})
		default:
			x := Piece{Name: name, Title: q.Title, B: q}
			if whole, ok := partOf(q, a.Garment); ok {
				x.A, x.Whole = whole, whole.Title
			}
			r.Pieces = append(r.Pieces, x)
		}
	}
	return r
}

// names lists the pieces of both in the order of the views.
func names(a, b pattern.Garment) []string {
	var out []string
	for _, g := range []pattern.Garment{a, b} {
		for _, u := range g.View.Uses {
			for _, name := range []string{u.Piece, u.Piece + "@" + string(piece.Right)} {
				if _, ok := g.Pieces[name]; ok && !slices.Contains(out, name) {
					out = append(out, name)
				}
			}
		}
	}
	return out
}

func girths(a, b pattern.Garment) []Row {
	var out []Row
	at := map[string]int{}
	for k, g := range []pattern.Garment{a, b} {
		for _, girth := range g.View.Girths {
			i, known := at[girth.Zone]
			if !known {
				i, at[girth.Zone] = len(out), len(out)
				out = append(out, Row{girth.Zone, math.NaN(), math.NaN()})
			}
			if mm, err := fit.Girth(g, girth); err == nil {
				*[]*float64{&out[i].A, &out[i].B}[k] = mm
			}
		}
	}
	return out
}

func both(a, b piece.Piece, level string) Piece {
	b = laid(a, b, level)
	p := Piece{Name: b.Name, Title: b.Title, A: a, B: b, Area: Row{"area", geom.Area(a.Outline(fine)), geom.Area(b.Outline(fine))}}
	lowA, lowB := lowest(a), lowest(b)
	for _, name := range lineNames(a, b) {
		la, okA := a.Line(piece.Level, name)
		lb, okB := b.Line(piece.Level, name)
		w, h := Row{name, math.NaN(), math.NaN()}, Row{name, math.NaN(), math.NaN()}
		if okA {
			w.A, h.A = across(a, middle(la)), middle(la)-lowA
		}
		if okB {
			w.B, h.B = across(b, middle(lb)), middle(lb)-lowB
		}
		p.Heights = append(p.Heights, h)
		if !(okA && atEnd(a, middle(la)) || okB && atEnd(b, middle(lb))) {
			p.Levels = append(p.Levels, w)
		}
	}
	p.Edges, p.Allowances = edges(a, b), allowances(a, b)
	p.Apart, p.At, p.Edge = apart(a, b)
	return p
}

// atEnd reports whether a level lies along an end of a piece, as a hem's does. How
// wide the piece is there its edge says: a curved hem leaves the level at once.
func atEnd(p piece.Piece, y float64) bool {
	lo, hi := geom.BoundsOf(p.Outline(fine))
	return y < lo.Y+ends || y > hi.Y-ends
}

// laid moves b so that its level lies on a's, and its grain on a's. A piece without
// levels that has only been moved on the paper, as a facing is with its edge, is
// laid on what it was.
func laid(a, b piece.Piece, level string) piece.Piece {
	if len(lineNames(a, b)) == 0 {
		la, _ := geom.BoundsOf(a.Outline(fine))
		lb, _ := geom.BoundsOf(b.Outline(fine))
		moved := b.Transform(geom.Shift(la.Sub(lb)))
		if far, _, _ := apart(a, moved); far <= onWhole {
			return moved
		}
	}
	if level == "" {
		return b
	}
	la, okA := a.Line(piece.Level, level)
	lb, okB := b.Line(piece.Level, level)
	if !okA || !okB {
		return b
	}
	by := geom.Pt{Y: middle(la) - middle(lb)}
	if ga, ok := a.Line(piece.Grain, ""); ok {
		if gb, ok := b.Line(piece.Grain, ""); ok {
			by.X = ga.Curve.Start().X - gb.Curve.Start().X
		}
	}
	return b.Transform(geom.Shift(by))
}

func middle(l piece.Line) float64 {
	lo, hi := l.Curve.Bounds()
	return (lo.Y + hi.Y) / 2
}

func lowest(p piece.Piece) float64 {
	lo, _ := geom.BoundsOf(p.Outline(fine))
	return lo.Y
}

func lineNames(a, b piece.Piece) []string {
	var out []string
	for _, p := range []piece.Piece{a, b} {
		for _, l := range p.Lines {
			if l.Kind == piece.Level && !slices.Contains(out, l.Name) {
				out = append(out, l.Name)
			}
		}
	}
	return out
}

// across is the width of a piece at a height, the openings of darts not counted.
func across(p piece.Piece, y float64) float64 {
	var xs []float64
	pts := p.Outline(fine)
	// A level drawn along an end of the piece, as a hem's is, is measured just
	// inside it.
	lo, hi := geom.BoundsOf(pts)
	y = math.Min(math.Max(y, lo.Y+inside), hi.Y-inside)
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		if (a.Y > y) != (b.Y > y) {
			xs = append(xs, a.Lerp(b, (y-a.Y)/(b.Y-a.Y)).X)
		}
	}
	slices.Sort(xs)
	var sum float64
	for i := 0; i+1 < len(xs); i += 2 {
		sum += xs[i+1] - xs[i]
	}
	return sum
}

// edges compares edges by name. An edge that a change has cut up counts with all
// its parts, which are called after it: side, side-2.
func edges(a, b piece.Piece) []Row {
	var out []Row
	at := map[string]int{}
	for k, p := range []piece.Piece{a, b} {
		for _, e := range p.Edges {
			name := stem(e.Name, a, b)
			i, known := at[name]
			if !known {
				i, at[name] = len(out), len(out)
				out = append(out, Row{name, math.NaN(), math.NaN()})
			}
			v := []*float64{&out[i].A, &out[i].B}[k]
			if math.IsNaN(*v) {
				*v = 0
			}
			*v += e.Curve.Length()
		}
	}
	return out
}

// stem is the name of the edge that an edge is a part of.
func stem(name string, a, b piece.Piece) string {
	i := strings.LastIndexByte(name, '-')
	if i < 0 || strings.Trim(name[i+1:], "0123456789") != "" || a.Index(name) >= 0 && b.Index(name) >= 0 {
		return name
	}
	if whole := name[:i]; a.Index(whole) >= 0 && b.Index(whole) >= 0 {
		return whole
	}
	return name
}

// apart finds where two outlines lie furthest from each other.
func apart(a, b piece.Piece) (far float64, at geom.Pt, edge string) {
	look := func(from, to piece.Piece, onB bool) {
		for _, e := range from.Edges {
			l := e.Curve.Length()
			n := int(math.Max(2, l/3))
			for k := 0; k <= n; k++ {
				q := e.Curve.At(l * float64(k) / float64(n))
				best, p, name := math.Inf(1), geom.Pt{}, ""
				for _, f := range to.Edges {
					if s, off := f.Curve.Nearest(q); off < best {
						best, p, name = off, f.Curve.At(s), f.Name
					}
				}
				if best <= far {
					continue
				}
				far, at, edge = best, q, e.Name
				if !onB {
					at, edge = p, name
				}
			}
		}
	}
	look(b, a, true)
	look(a, b, false)
	return far, at, edge
}

// Line says a row in words: "hip 276.5 mm, 4.0 mm more".
func (r Row) Line(unit string) string {
	switch {
	case math.IsNaN(r.A):
		return fmt.Sprintf("%s %.1f %s, new", r.What, r.B, unit)
	case math.IsNaN(r.B):
		return fmt.Sprintf("%s gone", r.What)
	case r.By() >= 0:
		return fmt.Sprintf("%s %.1f %s, %.1f %s more", r.What, r.B, unit, r.By(), unit)
	}
	return fmt.Sprintf("%s %.1f %s, %.1f %s less", r.What, r.B, unit, -r.By(), unit)
}

// Differs reports whether a row differs by so many mm or more, or is there in
// one version alone.
func (r Row) Differs(by float64) bool {
	return math.IsNaN(r.A) != math.IsNaN(r.B) || math.Abs(r.By()) >= by
}

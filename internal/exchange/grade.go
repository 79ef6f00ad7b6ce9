package exchange

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/piece"
)

// oneSize is what a size is called that the file does not name.
const oneSize = "one"

// Graded is a piece in every size, ready to be drawn as a pattern's piece.
type Graded struct {
	Name  string
	Title string
	In    []piece.Piece // in the order of the sizes
	// Own says which edges have names of their own: the file's or the user's.
	Own []bool
	// Sewn says that the outline is the stitching line; otherwise what it is has to
	// be said.
	Sewn bool
	// FoldEdge is the edge that lies on the fold of the cloth; "" for none.
	FoldEdge    string
	Left, Right int
	Material    string
	Place       finding.Place
}

// Grade brings the parts of a style together: pieces in the order of the file,
// their sizes matched corner for corner and drawn with the same segments, grain
// upright, edges named. names are the user's: piece:edge to its new name.
func Grade(s Style, sizes []string, names map[string]string) ([]Graded, []string, finding.List) {
	g := &grader{names: names, used: map[string]bool{}}
	g.sizes(s, sizes)
	var order []string
	by := map[string][]Part{}
	for _, p := range s.Parts {
		name := slug(p.Name)
		if p.Size == "" {
			p.Size = oneSize
		}
		if !slices.Contains(g.labels, p.Size) {
			continue
		}
		if by[name] == nil {
			order = append(order, name)
		}
		by[name] = append(by[name], p)
	}
	var out []Graded
	for _, name := range order {
		if p, ok := g.piece(name, by[name]); ok {
			out = append(out, p)
		}
	}
	for _, n := range sortedKeys(names) {
		if !g.used[n] {
			g.tell(badEdge, finding.Place{}, "there is no "+n+" to be given a name", "write --name piece:edge=name with an edge that was proposed")
		}
	}
	if len(out) == 0 && g.out.Stops() == 0 {
		g.tell(noPieces, finding.Place{})
	}
	return out, g.labels, g.out
}

type grader struct {
	out    finding.List
	labels []string
	names  map[string]string
	used   map[string]bool
}

func (g *grader) tell(k finding.Kind, at finding.Place, args ...any) {
	g.out = append(g.out, k.At(at, args...))
}

// sizes lists the sizes taken in: those asked for, or those of the file in its
// order.
func (g *grader) sizes(s Style, asked []string) {
	named := false
	for _, p := range s.Parts {
		label := p.Size
		if label == "" {
			label = oneSize
		} else {
			named = true
		}
		if !slices.Contains(g.labels, label) {
			g.labels = append(g.labels, label)
		}
	}
	switch {
	case len(asked) > 0 && named:
		g.labels = asked
	case len(asked) == 1:
		g.labels = asked
		for i := range s.Parts {
			s.Parts[i].Size = asked[0]
		}
	case !named && len(s.Parts) > 0:
		g.tell(noSize, s.Parts[0].Place, oneSize)
	default:
		g.smallestFirst(s)
	}
}

// smallestFirst puts sizes in order by how long their outlines are together: a
// file may begin with the size that the others are graded from.
func (g *grader) smallestFirst(s Style) {
	round := map[string]float64{}
	for _, p := range s.Parts {
		round[p.Size] += whole(p.outline()).Length()
	}
	order := slices.Clone(g.labels)
	slices.SortStableFunc(order, func(a, b string) int { return cmp.Compare(round[a], round[b]) })
	if !slices.Equal(order, g.labels) {
		g.labels = order
		g.tell(sizeOrder, s.Parts[0].Place, strings.Join(order, ", "))
	}
}

// mostInside bounds the lines, and the marks, inside a piece.
const mostInside = 500

// piece matches one piece's sizes.
func (g *grader) piece(name string, parts []Part) (Graded, bool) {
	out := Graded{Name: name, Title: parts[0].Title, Left: parts[0].Left, Right: parts[0].Right, Material: parts[0].Material, Place: parts[0].Place, Sewn: true}
	if out.Title == "" {
		out.Title = strings.ReplaceAll(name, "-", " ")
	}
	in := make([]Part, len(g.labels))
	for k, label := range g.labels {
		i := slices.IndexFunc(parts, func(p Part) bool { return p.Size == label })
		if i < 0 {
			g.tell(sizeGap, parts[0].Place, name, parts[0].Size, label)
			return out, false
		}
		in[k] = parts[i]
		if n := max(len(in[k].Lines), len(in[k].Marks)); n > mostInside {
			g.tell(tooMuch, parts[i].Place, mostInside, "lines or marks in one piece")
			return out, false
		}
		out.Sewn = out.Sewn && len(in[k].Sewn) > 0
	}
	if !out.Sewn {
		for k := range in {
			in[k].Sewn = nil
		}
	}
	g.stand(name, in)
	g.stack(name, in)
	edges, ok := g.match(name, in)
	if !ok {
		return out, false
	}
	out.In, out.Own = g.draw(name, in, edges)
	g.lines(name, in, out.In)
	g.marks(name, in, out.In)
	out.FoldEdge = foldEdge(in[0], out.In[0])
	return out, true
}

// draw makes the pieces: edges named and drawn alike.
func (g *grader) draw(name string, in []Part, edges [][]Edge) ([]piece.Piece, []bool) {
	out := make([]piece.Piece, len(in))
	for k := range out {
		out[k] = piece.Piece{Name: name, Title: in[k].Title, Place: in[k].Place}
	}
	labels, own := g.edgeNames(name, edges[0])
	faceted := slices.ContainsFunc(in, func(p Part) bool { return p.Faceted })
	var worst float64
	for i := range edges[0] {
		set := make([]Edge, len(in))
		for k := range in {
			set[k] = edges[k][i]
		}
		curves, room := alike(set, faceted)
		worst = math.Max(worst, room)
		for k := range in {
			out[k].Edges = append(out[k].Edges, piece.Edge{Name: labels[i], Curve: curves[k], Place: in[k].Place})
		}
	}
	if worst > coarseTol {
		g.tell(coarse, in[0].Place, name, worst)
	}
	return out, own
}

// coarseTol is how far facets may lie off their curve before it is told, in mm.
const coarseTol = 0.2

// lines takes the lines that every size has.
func (g *grader) lines(name string, in []Part, out []piece.Piece) {
	for i, l := range in[0].Lines {
		if len(l.Curve) == 0 {
			continue
		}
		id := string(l.Kind) + "." + slug(l.Name)
		set := []Edge{{Curve: l.Curve, Breaks: in[0].breaksOf(l.Curve)}}
		for k := 1; k < len(in); k++ {
			j := slices.IndexFunc(in[k].Lines, func(m piece.Line) bool {
				return string(m.Kind)+"."+slug(m.Name) == id && len(m.Curve) > 0
			})
			if j < 0 {
				break
			}
			c := in[k].Lines[j].Curve
			if c.End().Sub(c.Start()).Dot(l.Curve.End().Sub(l.Curve.Start())) < 0 {
				c = c.Reverse()
			}
			set = append(set, Edge{Curve: c, Breaks: in[k].breaksOf(c)})
		}
		if len(set) < len(in) || slices.ContainsFunc(in[0].Lines[:i], func(m piece.Line) bool { return string(m.Kind)+"."+slug(m.Name) == id }) {
			g.tell(dropped, in[0].Place, strings.Replace(id, ".", " ", 1), name)
			continue
		}
		curves, _ := alike(set, in[0].Faceted)
		for k := range out {
			out[k].Lines = append(out[k].Lines, piece.Line{Kind: l.Kind, Name: slug(l.Name), Curve: curves[k], Place: l.Place})
		}
	}
}

// breaksOf are the places inside a line at which it turns sharply: those that
// the file marks, or the corners between straight lines.
func (p Part) breaksOf(c geom.Curve) []geom.Pt {
	if !p.Faceted || len(p.Turns) == 0 {
		var out []geom.Pt
		for i := 1; i < len(c); i++ {
			if a, b := c[i-1].Tangent(1), c[i].Tangent(0); math.Abs(math.Atan2(a.Cross(b), a.Dot(b))) > facetCorner {
				out = append(out, c[i].P[0])
			}
		}
		return out
	}
	return p.Turns
}

package pattern

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/piece"
	"gusset/internal/source"
)

// drawing reads one piece's SVG: the piece as printed in every size.
type drawing struct {
	*loader
	name, title, file string
	place             finding.Place
	usual             printed
	edges             map[string]printed
	outwards          bool // draw cutting lines instead of recovering stitching lines
}

// print says how the named edge is printed.
func (d *drawing) print(edge string) printed {
	if p, ok := d.edges[edge]; ok {
		return p
	}
	return d.usual
}

// read reads the drawing and recovers the stitching lines.
func (d *drawing) read() (piece.Graded, bool) {
	g := piece.Graded{Name: d.name, Title: d.title, Place: d.place}
	f, err := d.svg(d.file)
	if err != nil {
		d.tell(finding.Kind{
			Code: "pattern.no-drawing", Severity: finding.Stop,
			Text: "the drawing %[1]s cannot be opened", Mend: "put it into the pattern's folder",
		}, d.place, d.file)
		return g, false
	}
	if len(d.p.Sizes) == 0 {
		return g, false // told already
	}
	before := d.out.Stops()
	svg, found := source.ReadSVG(f)
	*d.out = append(*d.out, found...)
	g.In = d.bySize(svg)
	if d.out.Stops() > before {
		return g, false
	}
	d.checkPrinted(g.In)
	if d.out.Stops() > before {
		return g, false
	}
	d.checkNames(g.In[0])
	d.recover(g.In)
	if d.out.Stops() > before {
		return g, false
	}
	d.checkRecovered(g.In)
	return g, d.out.Stops() == before
}

// bySize sorts the drawn elements into one piece for each size, in the order
// of the pattern's sizes.
func (d *drawing) bySize(svg source.SVG) []piece.Piece {
	in := make([]piece.Piece, len(d.p.Sizes))
	for i := range in {
		in[i] = piece.Piece{Name: d.name, Title: d.title, Place: d.place}
	}
	unknown := map[string]bool{}
	for _, e := range svg.Elements {
		if e.ID == "" || e.Kind == "text" || len(e.Groups) == 0 {
			continue
		}
		size, rest, ok := strings.Cut(strings.TrimPrefix(e.ID, "S"), ".")
		k := d.p.SizeIndex(size)
		if !strings.HasPrefix(e.ID, "S") || !ok || k < 0 {
			if group := e.Groups[len(e.Groups)-1]; strings.HasPrefix(group, "S") && !unknown[group] {
				unknown[group] = true
				d.tell(otherSize, e.Place, group)
			}
			continue
		}
		d.take(&in[k], e, strings.Split(rest, "."))
	}
	return in
}

// take puts one element into a piece by its id: an edge, a line or a mark.
func (d *drawing) take(p *piece.Piece, e source.Element, id []string) {
	curve := curveOf(e)
	switch {
	case len(id) == 1 && nameForm.MatchString(id[0]) && len(curve) > 0:
		p.Edges = append(p.Edges, piece.Edge{Name: id[0], Curve: curve, Printed: d.print(id[0]).allowance, Place: e.Place})
	case len(id) == 2 && slices.Contains(piece.LineKinds, piece.LineKind(id[0])) && len(curve) > 0:
		p.Lines = append(p.Lines, piece.Line{Kind: piece.LineKind(id[0]), Name: id[1], Curve: curve, Place: e.Place})
	case len(id) == 3 && id[0] == "notch" && e.Kind == "circle":
		p.Marks = append(p.Marks, piece.Mark{Kind: piece.Notch, Edge: id[1], Name: id[2], P: centre(e), Place: e.Place})
	case len(id) == 2 && id[0] != "notch" && slices.Contains(piece.MarkKinds, piece.MarkKind(id[0])) && e.Kind == "circle":
		p.Marks = append(p.Marks, piece.Mark{Kind: piece.MarkKind(id[0]), Name: id[1], P: centre(e), Place: e.Place})
	default:
		d.tell(badID, e.Place, e.ID)
	}
}

func centre(e source.Element) geom.Pt { return geom.Pt{X: e.Center[0], Y: e.Center[1]} }

// curveOf is an element's single run of the pen; runs of no length are left
// out.
func curveOf(e source.Element) geom.Curve {
	if len(e.Subpaths) != 1 {
		return nil
	}
	var c geom.Curve
	for _, s := range e.Subpaths[0].Segs {
		var seg geom.Seg
		for i, q := range s.P {
			seg.P[i] = geom.Pt{X: q[0], Y: q[1]}
		}
		if !s.Cubic {
			seg = geom.Line(seg.P[0], seg.P[3])
		}
		if seg.Length() > 1e-6 {
			c = append(c, seg)
		}
	}
	return c
}

// mostSegments bounds one outline: a hand-drawn piece has some dozens.
const mostSegments = 400

func segments(p piece.Piece) int {
	n := 0
	for _, e := range p.Edges {
		n += len(e.Curve)
	}
	return n
}

// checkNames wants an edge for every print that the pattern file tells.
func (d *drawing) checkNames(p piece.Piece) {
	for _, name := range slices.Sorted(maps.Keys(d.edges)) {
		if p.Index(name) < 0 {
			d.tell(noEdge, d.edges[name].place, d.name, name, meant(name, p.EdgeNames()))
		}
	}
}

// checkPrinted looks at the piece as printed: there in every size, drawn alike,
// closed, counter-clockwise and simple.
func (d *drawing) checkPrinted(in []piece.Piece) {
	for k, p := range in {
		size := d.p.Sizes[k]
		if len(p.Edges) == 0 && len(p.Lines) == 0 {
			d.tell(noSize, d.place, d.name, size)
			continue
		}
		if len(p.Edges) < 2 {
			d.tell(noOutline, d.place, d.name, size)
			continue
		}
		if n := segments(p); n > mostSegments {
			d.tell(manyNodes, p.Edges[0].Place, d.name, size, n, mostSegments)
			continue
		}
		if why := unlike(in[0], p); why != "" {
			d.tell(differs, p.Edges[0].Place, d.name, size, d.p.Sizes[0], why)
			continue
		}
		closed := true
		for i, e := range p.Edges {
			if gap := e.Curve.End().Dist(p.After(i).Curve.Start()); gap > meetTol {
				closed = false
				d.tell(openCorner, e.Place, e.Name, p.After(i).Name, d.name, gap, size)
			}
		}
		if !closed {
			continue
		}
		outline := p.Outline(0.05)
		if _, _, _, crosses := geom.SelfCrossing(outline); crosses {
			d.tell(crossing, p.Edges[0].Place, d.name, size)
		} else if geom.Area(outline) < 0 {
			d.tell(clockwise, p.Edges[0].Place, d.name, size)
		}
	}
}

// unlike says how two sizes of a piece differ in structure; "" when they do
// not.
func unlike(a, b piece.Piece) string {
	if !slices.Equal(a.EdgeNames(), b.EdgeNames()) {
		return fmt.Sprintf("edges %s, not %s", strings.Join(b.EdgeNames(), ", "), strings.Join(a.EdgeNames(), ", "))
	}
	for i, e := range a.Edges {
		c, d := e.Curve, b.Edges[i].Curve
		if len(c) != len(d) {
			return fmt.Sprintf("edge %s has %d segments, not %d", e.Name, len(d), len(c))
		}
		for j := range c {
			if c[j].Straight != d[j].Straight {
				return fmt.Sprintf("segment %d of edge %s is a line in one and a curve in the other", j+1, e.Name)
			}
		}
	}
	if x, y := lineIDs(a), lineIDs(b); x != y {
		return fmt.Sprintf("lines %s, not %s", y, x)
	}
	if x, y := markIDs(a), markIDs(b); x != y {
		return fmt.Sprintf("marks %s, not %s", y, x)
	}
	return ""
}

// kinds writes a curve's segments as l (line) and c (curve).
func kinds(c geom.Curve) string {
	var b strings.Builder
	for _, s := range c {
		if s.Straight {
			b.WriteByte('l')
		} else {
			b.WriteByte('c')
		}
	}
	return b.String()
}

func lineIDs(p piece.Piece) string {
	var ids []string
	for _, l := range p.Lines {
		ids = append(ids, fmt.Sprintf("%s.%s.%s", l.Kind, l.Name, kinds(l.Curve)))
	}
	return strings.Join(ids, " ")
}

func markIDs(p piece.Piece) string {
	var ids []string
	for _, m := range p.Marks {
		ids = append(ids, strings.Trim(fmt.Sprintf("%s.%s.%s", m.Kind, m.Edge, m.Name), "."))
	}
	return strings.Join(ids, " ")
}

// leans is how far a line may lean from the grain, in radians (half a degree,
// 3 mm on a short leg: common practice).
const leans = 0.5 * math.Pi / 180

// checkRecovered looks at the stitching lines: simple outline, upright grain,
// upright folds, levels complete, growing with size.
func (d *drawing) checkRecovered(in []piece.Piece) {
	for k, p := range in {
		size := d.p.Sizes[k]
		if _, _, _, crosses := geom.SelfCrossing(p.Outline(0.02)); crosses {
			d.tell(crossing, p.Edges[0].Place, d.name+" (stitching line)", size)
		}
		g, ok := p.Line(piece.Grain, "")
		if !ok {
			if k == 0 {
				d.tell(noGrain, d.place, d.name)
			}
		} else if lean := upright(g.Curve); lean > leans {
			d.tell(leanGrain, g.Place, d.name, lean*180/math.Pi, size)
		}
		for _, e := range p.Edges {
			if d.print(e.Name).fold && (!e.Curve.Straight(0.05) || upright(e.Curve) > leans) {
				d.tell(foldLeans, e.Place, e.Name, d.name, size)
			}
		}
	}
	d.checkLevels(in)
}

// upright is how far a line between its ends leans from the vertical.
func upright(c geom.Curve) float64 {
	v := c.End().Sub(c.Start())
	return math.Atan2(math.Abs(v.X), math.Abs(v.Y))
}

// nearEnd is how near the end of a piece, in mm, a level is not measured.
const nearEnd = 20

// checkLevels wants every zone between the first and the last that a piece
// shows, and widths that grow with the size.
func (d *drawing) checkLevels(in []piece.Piece) {
	first, last := -1, -1
	for i, z := range d.p.Zones {
		if _, ok := in[0].Line(piece.Level, z.Name); ok {
			if first < 0 {
				first = i
			}
			last = i
		}
	}
	for i := first; i >= 0 && i <= last; i++ {
		z := d.p.Zones[i].Name
		l, ok := in[0].Line(piece.Level, z)
		if !ok {
			d.tell(noLevel, d.place, d.name, z)
			continue
		}
		was := 0.0
		for k, p := range in {
			l, _ = p.Line(piece.Level, z)
			y := (l.Curve.Start().Y + l.Curve.End().Y) / 2
			if lo, hi := geom.BoundsOf(p.Outline(1)); y < lo.Y+nearEnd || y > hi.Y-nearEnd {
				break // at a curved waist or a slanting hem the width says nothing
			}
			w := across(p, y)
			if k > 0 && w < was-0.5 {
				d.tell(backwards, l.Place, d.name, z, d.p.Sizes[k-1], d.p.Sizes[k])
			}
			was = w
		}
	}
}

// across is the width of a piece at a height.
func across(p piece.Piece, y float64) float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	pts := p.Outline(0.1)
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		if (a.Y > y) != (b.Y > y) {
			x := a.X + (b.X-a.X)*(y-a.Y)/(b.Y-a.Y)
			lo, hi = math.Min(lo, x), math.Max(hi, x)
		}
	}
	return math.Max(0, hi-lo)
}

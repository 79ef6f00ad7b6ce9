package fit

import (
	"math"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// fitted is a piece between sizes, still to be trued.
type fitted struct {
	d      *drawn
	shape  *shape
	curves []geom.Curve // by edge
	lines  []piece.Line
	marks  []piece.Mark
	// notch holds, for each mark, where a notch sits on its edge: the segment
	// and the parameter on it in one number.
	notch []float64
	whole int // the printed size the piece takes throughout, or -1
	moved bool
}

// lengthwise is the size that heights follow.
type lengthwise struct {
	at  float64
	set bool
}

func (l lengthwise) size(s float64) size {
	if l.set {
		return size{s, l.at}
	}
	return size{s, s}
}

// fitPiece blends a piece over its field of sizes.
func fitPiece(d *drawn, l lengthwise) *fitted {
	p := d.outline()
	sizes := d.nodeSizes(p, l)
	f := &fitted{d: d, whole: wholeSize(sizes)}
	f.shape = blend(p, sizes, func(seg int, end bool) size {
		arc := p.arc[seg]
		if end {
			arc += p.length[seg]
		}
		by := d.sizeSlope(p.edge[seg], arc)
		if l.set {
			return size{by, 0}
		}
		return size{by, by}
	})
	f.redraw()
	f.notch = make([]float64, len(d.base.Marks))
	for j, m := range d.base.Marks {
		if m.Kind == piece.Notch {
			f.notch[j] = f.notchPlace(j)
		}
	}
	f.marks = d.fitMarks(l)
	f.setNotches()
	f.lines = d.fitLines(l, &f.whole)
	return f
}

// sizeSlope is how fast the size changes along an edge, per mm.
func (d *drawn) sizeSlope(edge int, arc float64) float64 {
	const step = 1.0
	a, b := max(arc-step, 0), min(arc+step, d.edges[edge].length())
	if b-a < step/2 {
		return 0
	}
	return (d.edgeSize(edge, b) - d.edgeSize(edge, a)) / (b - a)
}

// nodeSizes returns the size at every node of the outline.
func (d *drawn) nodeSizes(p *path, l lengthwise) []size {
	out := make([]size, p.nodes())
	for n := range out {
		seg := p.from(n)
		e := p.edge[seg]
		s := d.edgeSize(e, p.arc[seg])
		if p.first[e] == n {
			s = d.cornerSize(e)
		}
		out[n] = l.size(s)
	}
	d.foldUpright(p, out)
	return out
}

// cornerSize is the size at the start of an edge. Where the two edges that meet
// there disagree, one that takes its size from a zone or a join goes before one
// that does not, and of two such the one nearer to the levels.
func (d *drawn) cornerSize(edge int) float64 {
	before := (edge + len(d.edges) - 1) % len(d.edges)
	l := d.edges[before].length()
	a, b := d.patchRank(before, l), d.patchRank(edge, 0)
	if a < b {
		return d.edgeSize(before, l)
	}
	return d.edgeSize(edge, 0)
}

func (d *drawn) patchRank(edge int, arc float64) int {
	for _, p := range d.field.over[edge] {
		if arc >= p.from-1e-6 && arc <= p.to+1e-6 {
			return p.rank
		}
	}
	return unknown
}

// foldUpright gives both ends of an edge cut on the fold one size across, so
// that the fold stays along the grain.
func (d *drawn) foldUpright(p *path, sizes []size) {
	e := d.base.Index(d.use.FoldEdge)
	if e < 0 {
		return
	}
	a, b := p.first[e], p.first[e+1]%p.nodes()
	x := (sizes[a].x + sizes[b].x) / 2
	for n := a; n <= p.first[e+1]; n++ {
		sizes[n%p.nodes()].x = x
	}
}

// wholeSize returns the printed size that every node has, or -1.
func wholeSize(sizes []size) int {
	i := math.Round(sizes[0].x)
	for _, s := range sizes {
		if math.Abs(s.x-i) > 1e-12 || math.Abs(s.y-i) > 1e-12 {
			return -1
		}
	}
	return int(i)
}

// redraw makes the edges' curves from the shape.
func (f *fitted) redraw() {
	f.curves = f.curves[:0]
	for e := range f.d.edges {
		f.curves = append(f.curves, f.shape.segments(f.shape.path.first[e], f.shape.path.first[e+1]))
	}
}

// notchPlace returns where a notch sits on its edge at its own size.
func (f *fitted) notchPlace(mark int) float64 {
	d, p := f.d, f.shape.path
	m := d.base.Marks[mark]
	e := d.base.Index(m.Edge)
	if e < 0 {
		return 0
	}
	return between(p.over(func(i int) float64 {
		return placeOn(p.sizes[i][p.first[e]:p.first[e+1]], d.sizes[i].Marks[mark].At)
	}), d.edgeSize(e, m.At))
}

// placeOn turns a distance along a curve into segment and parameter.
func placeOn(c geom.Curve, at float64) float64 {
	for k, s := range c {
		l := s.Length()
		if at < l || k == len(c)-1 {
			return float64(k) + s.ParamAt(at)
		}
		at -= l
	}
	return 0
}

// distanceOn is the inverse of placeOn.
func distanceOn(c geom.Curve, place float64) float64 {
	var at float64
	for k, s := range c {
		if place < float64(k+1) || k == len(c)-1 {
			return at + s.LengthTo(min(max(place-float64(k), 0), 1))
		}
		at += s.Length()
	}
	return at
}

// setNotches puts the notches on the edges as they are now.
func (f *fitted) setNotches() {
	for j, m := range f.d.base.Marks {
		e := f.d.base.Index(m.Edge)
		if m.Kind != piece.Notch || e < 0 {
			continue
		}
		at := distanceOn(f.curves[e], f.notch[j])
		f.marks[j].At, f.marks[j].P = at, f.curves[e].At(at)
	}
}

// piece returns the piece as it is now.
func (f *fitted) piece() piece.Piece {
	if f.whole >= 0 && !f.moved {
		return f.d.sizes[f.whole].Clone()
	}
	p := f.d.base.Clone()
	for e := range p.Edges {
		p.Edges[e].Curve = f.curves[e]
	}
	p.Lines, p.Marks = f.lines, f.marks
	return p
}

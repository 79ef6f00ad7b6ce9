package fit

import (
	"math"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// fitLines blends the lines inside a piece. Lines that are rigid take the size
// at their middle as a whole; others take at each node the size there, but a
// line upright or level in every size stays so. whole is set to -1 when a line
// takes another size than the outline does throughout.
func (d *drawn) fitLines(l lengthwise, whole *int) []piece.Line {
	out := make([]piece.Line, len(d.base.Lines))
	for j, line := range d.base.Lines {
		p := &path{sizes: make([][]geom.Seg, len(d.sizes))}
		for i := range p.sizes {
			p.sizes[i] = d.sizes[i].Lines[j].Curve
		}
		sizes := d.lineSizes(p, line, l)
		if wholeSize(sizes) != *whole {
			*whole = -1
		}
		s := blend(p, sizes, func(int, bool) size { return size{} })
		line.Curve = s.segments(0, len(p.sizes[0]))
		out[j] = line
	}
	return out
}

func (d *drawn) lineSizes(p *path, line piece.Line, l lengthwise) []size {
	out := make([]size, p.nodes())
	mid := l.size(d.pointSize(middle(line.Curve)))
	upright, level := p.steady()
	for n := range out {
		out[n] = mid
		if rigid(line.Kind) {
			continue
		}
		s := l.size(d.pointSize(p.node(len(p.sizes)/2, n)))
		if !upright {
			out[n].x = s.x
		}
		if !level {
			out[n].y = s.y
		}
	}
	return out
}

// steady reports whether a line is upright, or level, in every size.
func (p *path) steady() (upright, level bool) {
	upright, level = true, true
	for i := range p.sizes {
		a := p.node(i, 0)
		for _, s := range p.sizes[i] {
			for _, q := range s.P {
				upright = upright && math.Abs(q.X-a.X) <= flatTol
				level = level && math.Abs(q.Y-a.Y) <= flatTol
			}
		}
	}
	return upright, level
}

// fitMarks blends the marks inside a piece; notches are set on the edges.
func (d *drawn) fitMarks(l lengthwise) []piece.Mark {
	out := make([]piece.Mark, len(d.base.Marks))
	for j, m := range d.base.Marks {
		if m.Kind != piece.Notch {
			s := l.size(d.pointSize(m.P))
			x, y := make([]float64, len(d.sizes)), make([]float64, len(d.sizes))
			for i := range d.sizes {
				x[i], y[i] = d.sizes[i].Marks[j].P.X, d.sizes[i].Marks[j].P.Y
			}
			m.P = geom.Pt{X: between(x, s.x), Y: between(y, s.y)}
		}
		out[j] = m
	}
	return out
}

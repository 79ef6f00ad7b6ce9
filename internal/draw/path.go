package draw

import "gusset/internal/geom"

// Op is one kind of step along a path.
type Op uint8

// A step either lifts the pen to a new point, draws to one, or goes straight
// back to where the pen was last set down.
const (
	Move Op = iota
	LineTo
	CubicTo
	Close
)

// Step is one step of a path. Move and LineTo use P[0]; CubicTo has its two
// handles in P[0], P[1] and its end in P[2]; Close uses none.
type Step struct {
	Op Op
	P  [3]geom.Pt
}

// Path is a drawn shape: runs of straight lines and cubic curves, each begun by
// a Move. Curves are kept as they are.
type Path struct{ Steps []Step }

// Move begins a new run at p.
func (p *Path) Move(a geom.Pt) { p.add(Move, a, geom.Pt{}, geom.Pt{}) }

// Line draws a straight line to p.
func (p *Path) Line(a geom.Pt) { p.add(LineTo, a, geom.Pt{}, geom.Pt{}) }

// Cubic draws a cubic curve to c with the handles a and b.
func (p *Path) Cubic(a, b, c geom.Pt) { p.add(CubicTo, a, b, c) }

// Close goes straight back to where the run began.
func (p *Path) Close() { p.add(Close, geom.Pt{}, geom.Pt{}, geom.Pt{}) }

func (p *Path) add(op Op, a, b, c geom.Pt) {
	p.Steps = append(p.Steps, Step{op, [3]geom.Pt{a, b, c}})
}

// Append adds the runs of q.
func (p *Path) Append(q Path) { p.Steps = append(p.Steps, q.Steps...) }

// Curve adds an open run along c.
func (p *Path) Curve(c geom.Curve) {
	if len(c) == 0 {
		return
	}
	p.Move(c.Start())
	p.follow(c)
}

// follow draws on along c from where the pen is.
func (p *Path) follow(c geom.Curve) {
	for _, s := range c {
		if s.Straight {
			p.Line(s.P[3])
		} else {
			p.Cubic(s.P[1], s.P[2], s.P[3])
		}
	}
}

// Open returns the path along curves, each an open run.
func Open(curves ...geom.Curve) Path {
	var p Path
	for _, c := range curves {
		p.Curve(c)
	}
	return p
}

// Closed returns the closed path along curves that follow each other, such as
// the edges of a piece.
func Closed(curves ...geom.Curve) Path {
	var p Path
	for _, c := range curves {
		switch {
		case len(c) == 0:
		case len(p.Steps) == 0:
			p.Curve(c)
		default:
			p.follow(c)
		}
	}
	if len(p.Steps) > 0 {
		p.Close()
	}
	return p
}

// Polyline returns the open path through pts.
func Polyline(pts ...geom.Pt) Path {
	var p Path
	for i, a := range pts {
		if i == 0 {
			p.Move(a)
		} else {
			p.Line(a)
		}
	}
	return p
}

// Polygon returns the closed path through pts.
func Polygon(pts ...geom.Pt) Path {
	p := Polyline(pts...)
	if len(pts) > 0 {
		p.Close()
	}
	return p
}

// path returns the border of the box.
func (r Rect) path() Path { c := r.corners(); return Polygon(c[:]...) }

// Circle returns a circle of four cubic arcs. The handle length
// 4/3·(√2−1)·radius makes each arc meet the circle at its middle; in between
// it is at most 0.027 % of the radius outside (common practice in drawing
// programs; the error is checked in the tests).
func Circle(c geom.Pt, radius float64) Path {
	const handle = 0.5522847498307936
	at := func(x, y float64) geom.Pt { return geom.Pt{X: c.X + x*radius, Y: c.Y + y*radius} }
	var p Path
	p.Move(at(1, 0))
	p.Cubic(at(1, handle), at(handle, 1), at(0, 1))
	p.Cubic(at(-handle, 1), at(-1, handle), at(-1, 0))
	p.Cubic(at(-1, -handle), at(-handle, -1), at(0, -1))
	p.Cubic(at(handle, -1), at(1, -handle), at(1, 0))
	p.Close()
	return p
}

// Transform returns the path under the map m.
func (p Path) Transform(m geom.Affine) Path {
	out := make([]Step, len(p.Steps))
	for i, s := range p.Steps {
		for k := range s.P {
			s.P[k] = m.Apply(s.P[k])
		}
		out[i] = s
	}
	return Path{out}
}

package exchange

import (
	"math"

	"gusset/internal/geom"
)

// joinTol is how far the ends of two lines may lie apart and still be one
// corner, in mm: what formats round off.
const joinTol = 0.02

// chains joins curves end to end into as few runs as there are, turning some
// round if need be, and tells which of them close. A point where three or more
// ends meet is a fork: what to follow there is not for us to say.
type chains struct {
	closed []geom.Curve
	open   []geom.Curve
	fork   *geom.Pt
}

// end is one end of a curve.
type end struct {
	curve int
	last  bool
}

func chain(curves []geom.Curve) chains {
	var out chains
	var loose []geom.Curve
	for _, c := range curves {
		c = tidied(c)
		switch {
		case len(c) == 0:
		case c.Start().Dist(c.End()) <= joinTol && c.Length() > 4*joinTol:
			out.closed = append(out.closed, shut(c))
		default:
			loose = append(loose, c)
		}
	}
	near := newGrid(joinTol)
	for i, c := range loose {
		near.add(c.Start(), end{i, false})
		near.add(c.End(), end{i, true})
	}
	used := make([]bool, len(loose))
	for i := range loose {
		if used[i] {
			continue
		}
		used[i] = true
		run := append(geom.Curve(nil), loose[i]...)
		run = out.follow(run, loose, used, near)
		if run.Start().Dist(run.End()) > joinTol {
			run = out.follow(run.Reverse(), loose, used, near)
		}
		if run.Start().Dist(run.End()) <= joinTol && len(run) > 1 {
			out.closed = append(out.closed, shut(run))
		} else {
			out.open = append(out.open, run)
		}
	}
	return out
}

// follow appends the curves that go on from the end of a run.
func (out *chains) follow(run geom.Curve, loose []geom.Curve, used []bool, near *grid) geom.Curve {
	for {
		var next []end
		at := run.End()
		for _, e := range near.at(at) {
			if !used[e.curve] {
				next = append(next, e)
			}
		}
		if run.Start().Dist(at) <= joinTol && len(run) > 1 {
			return run
		}
		if len(next) == 0 {
			return run
		}
		if len(next) > 1 && out.fork == nil {
			out.fork = &at
		}
		c := loose[next[0].curve]
		if next[0].last {
			c = c.Reverse()
		}
		used[next[0].curve] = true
		run = append(run, startingAt(c, at)...)
	}
}

// startingAt moves the first point of a curve by a rounding.
func startingAt(c geom.Curve, p geom.Pt) geom.Curve {
	c = append(geom.Curve(nil), c...)
	if c[0].Straight {
		c[0] = geom.Line(p, c[0].P[3])
	} else {
		c[0].P[0] = p
	}
	return c
}

// shut lets a closed run end exactly where it begins.
func shut(c geom.Curve) geom.Curve {
	c = append(geom.Curve(nil), c...)
	last := len(c) - 1
	if c[last].Straight {
		c[last] = geom.Line(c[last].P[0], c.Start())
	} else {
		c[last].P[3] = c.Start()
	}
	return tidied(c)
}

// tidied leaves out segments of no length.
func tidied(c geom.Curve) geom.Curve {
	var out geom.Curve
	for _, s := range c {
		if s.Straight && s.P[0].Dist(s.P[3]) < 1e-5 || !s.Straight && s.Length() < 1e-5 {
			continue
		}
		if len(out) > 0 && out.End() != s.P[0] {
			s = startingAt(geom.Curve{s}, out.End())[0]
		}
		out = append(out, s)
	}
	return out
}

// counterClockwise turns a closed curve round if it runs clockwise.
func counterClockwise(c geom.Curve) geom.Curve {
	if geom.Area(loopPoints(c)) < 0 {
		return c.Reverse()
	}
	return c
}

// grid finds points near a point.
type grid struct {
	side  float64
	cells map[[2]int64][]spot
}

type spot struct {
	p geom.Pt
	e end
}

func newGrid(tol float64) *grid { return &grid{side: tol, cells: map[[2]int64][]spot{}} }

func (g *grid) cell(p geom.Pt) [2]int64 {
	return [2]int64{int64(math.Floor(p.X / g.side)), int64(math.Floor(p.Y / g.side))}
}

// mostAtOnce bounds how many ends are kept that lie at one place: three are a
// fork already.
const mostAtOnce = 32

func (g *grid) add(p geom.Pt, e end) {
	c := g.cell(p)
	if len(g.cells[c]) < mostAtOnce {
		g.cells[c] = append(g.cells[c], spot{p, e})
	}
}

// near reports whether a point kept lies within the grid's side of p.
func (g *grid) near(p geom.Pt) bool { return len(g.at(p)) > 0 }

// gridOf is a grid of points.
func gridOf(pts []geom.Pt, tol float64) *grid {
	g := newGrid(tol)
	for i, p := range pts {
		g.add(p, end{curve: i})
	}
	return g
}

func (g *grid) at(p geom.Pt) []end {
	c := g.cell(p)
	var out []end
	for dx := int64(-1); dx <= 1; dx++ {
		for dy := int64(-1); dy <= 1; dy++ {
			for _, s := range g.cells[[2]int64{c[0] + dx, c[1] + dy}] {
				if s.p.Dist(p) <= g.side {
					out = append(out, s.e)
				}
			}
		}
	}
	return out
}

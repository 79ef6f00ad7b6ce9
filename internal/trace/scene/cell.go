package scene

import (
	"math"

	"gusset/internal/geom"
)

// cellSize is the width in mm of the cells that lines are sorted into.
const cellSize = 2.0

// cells answers for many points whether they lie in a polygon, and how near to
// a set of lines, by looking only at what is in the point's own cell.
type cells struct {
	lo     geom.Pt
	nx, ny int
	inside []bool         // of the middle of each cell
	sides  [][][2]geom.Pt // sides of the polygon through each cell
	inks   [][]ink        // lines near each cell
}

type ink struct {
	a, b geom.Pt
	half float64 // width
}

func newCells(polygon []geom.Pt, lines []Line) *cells {
	lo, hi := geom.BoundsOf(polygon)
	c := &cells{lo: lo.Sub(geom.Pt{X: 4, Y: 4})}
	c.nx, c.ny = int((hi.X-lo.X+8)/cellSize)+1, int((hi.Y-lo.Y+8)/cellSize)+1
	n := c.nx * c.ny
	c.inside, c.sides, c.inks = make([]bool, n), make([][][2]geom.Pt, n), make([][]ink, n)
	for i, a := range polygon {
		b := polygon[(i+1)%len(polygon)]
		c.along(a, b, cellSize, func(k int) { c.sides[k] = append(c.sides[k], [2]geom.Pt{a, b}) })
	}
	c.fill(polygon)
	for _, l := range lines {
		for i := 1; i < len(l.Points); i++ {
			s := ink{l.Points[i-1], l.Points[i], l.Width / 2}
			c.along(s.a, s.b, cellSize+s.half, func(k int) { c.inks[k] = append(c.inks[k], s) })
		}
	}
	return c
}

// along calls f once for every cell that may come nearer than reach to a-b.
func (c *cells) along(a, b geom.Pt, reach float64, f func(int)) {
	lo, hi := geom.BoundsOf([]geom.Pt{a, b})
	for y := c.row(lo.Y - reach); y <= c.row(hi.Y+reach); y++ {
		for x := c.column(lo.X - reach); x <= c.column(hi.X+reach); x++ {
			if distance(c.middle(x, y), a, b) <= reach+cellSize*math.Sqrt2/2 {
				f(y*c.nx + x)
			}
		}
	}
}

func (c *cells) column(x float64) int { return min(max(int((x-c.lo.X)/cellSize), 0), c.nx-1) }
func (c *cells) row(y float64) int    { return min(max(int((y-c.lo.Y)/cellSize), 0), c.ny-1) }

func (c *cells) middle(x, y int) geom.Pt {
	return c.lo.Add(geom.Pt{X: (float64(x) + 0.5) * cellSize, Y: (float64(y) + 0.5) * cellSize})
}

// fill finds for each row of cells where its middle line crosses the polygon.
func (c *cells) fill(polygon []geom.Pt) {
	for y := range c.ny {
		for x := range c.nx {
			c.inside[y*c.nx+x] = false
		}
		level := c.middle(0, y).Y
		for i, a := range polygon {
			b := polygon[(i+1)%len(polygon)]
			if (a.Y > level) == (b.Y > level) {
				continue
			}
			at := a.X + (b.X-a.X)*(level-a.Y)/(b.Y-a.Y)
			for x := range c.nx {
				if c.middle(x, y).X > at {
					c.inside[y*c.nx+x] = !c.inside[y*c.nx+x]
				}
			}
		}
	}
}

// in reports whether p lies in the polygon.
func (c *cells) in(p geom.Pt) bool {
	k, ok := c.at(p)
	if !ok {
		return false
	}
	in := c.inside[k]
	m := c.middle(k%c.nx, k/c.nx)
	for _, s := range c.sides[k] {
		if crosses(m, p, s[0], s[1]) {
			in = !in
		}
	}
	return in
}

// inked reports whether p lies on a line, or so near to one that a pixel round
// it may show it.
func (c *cells) inked(p geom.Pt) (on, near bool) {
	k, ok := c.at(p)
	if !ok {
		return false, false
	}
	for _, s := range c.inks[k] {
		d := distance(p, s.a, s.b)
		on, near = on || d <= s.half, near || d <= s.half+0.7
	}
	return on, near
}

func (c *cells) at(p geom.Pt) (int, bool) {
	x, y := int(math.Floor((p.X-c.lo.X)/cellSize)), int(math.Floor((p.Y-c.lo.Y)/cellSize))
	return y*c.nx + x, x >= 0 && y >= 0 && x < c.nx && y < c.ny
}

func crosses(a, b, c, d geom.Pt) bool {
	s, t := b.Sub(a).Cross(c.Sub(a)) > 0, b.Sub(a).Cross(d.Sub(a)) > 0
	u, v := d.Sub(c).Cross(a.Sub(c)) > 0, d.Sub(c).Cross(b.Sub(c)) > 0
	return s != t && u != v
}

func distance(p, a, b geom.Pt) float64 {
	d := b.Sub(a)
	t := 0.0
	if n := d.Dot(d); n > 0 {
		t = min(max(p.Sub(a).Dot(d)/n, 0), 1)
	}
	return a.Add(d.Mul(t)).Dist(p)
}

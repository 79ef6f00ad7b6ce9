package nest

import (
	"cmp"
	"math"
	"slices"
)

// fence is where one solid may not stand beside another: the set of offsets
// at which the second would come nearer than the clearance to the first (the
// no-fit polygon of the literature, widened). Both are cut into convex parts;
// for two convex parts that set is convex, so the whole is a union of convex
// cells, one for each pair of parts, and to ask whether two solids collide is
// to ask whether a point lies in one of them.
type fence struct {
	cells []cell
	lines []line
	tiles *tiles // nil where there are few cells
}

// cell is a convex piece of a fence: its bounding box, and its sides that are
// not upright or level as a stretch of the fence's lines. (Those that are lie on
// the box, and a side of the box on which none lies is no nearer to a point
// inside than the side it meets in a corner.)
type cell struct {
	box
	from, to uint32
	weight   float64 // of its depth: the root of the smaller part's area, mm
}

// line bounds a half plane: points with nx*x + ny*y < off lie in it. The
// normal has length 1, so the difference is a distance in mm.
type line struct{ nx, ny, off float64 }

// newFence is the fence round the parts of a for the parts of b, kept c away.
func newFence(a, b [][]Pt, c float64) *fence {
	f := &fence{}
	for _, p := range a {
		for _, q := range b {
			f.add(p, q, c)
		}
	}
	slices.SortStableFunc(f.cells, func(a, b cell) int { return cmp.Compare(b.area(), a.area()) })
	f.tiles = f.tiled()
	return f
}

func (b box) area() float64 { return (b.x1 - b.x0) * (b.y1 - b.y0) }

// add makes the cell of two convex parts, the Minkowski sum of p and the
// mirror image of q: it has the sides of both. Each side stands as far out as
// p reaches in its direction and q reaches the other way.
func (f *fence) add(p, q []Pt, c float64) {
	from := uint32(len(f.lines))
	for i, a := range p {
		b := p[(i+1)%len(p)]
		f.side(from, p, q, b.Y-a.Y, a.X-b.X, c)
	}
	for i, a := range q {
		b := q[(i+1)%len(q)]
		f.side(from, p, q, a.Y-b.Y, b.X-a.X, c)
	}
	bp, bq := bounds(p), bounds(q)
	b := box{bp.x0 - bq.x1 - c, bp.y0 - bq.y1 - c, bp.x1 - bq.x0 + c, bp.y1 - bq.y0 + c}
	slices.SortStableFunc(f.lines[from:], func(l, m line) int { return cmp.Compare(m.cutOff(b), l.cutOff(b)) })
	f.cells = append(f.cells, cell{
		box:    b,
		from:   from,
		to:     uint32(len(f.lines)),
		weight: math.Sqrt(min(signedArea(p), signedArea(q))),
	})
}

// side adds the side that faces (x, y), unless one with the same direction is
// there.
func (f *fence) side(from uint32, p, q []Pt, x, y, c float64) {
	long := math.Hypot(x, y)
	if x == 0 || y == 0 {
		return // upright or level: a side of the cell's box
	}
	x, y = x/long, y/long
	for _, l := range f.lines[from:] {
		if math.Abs(l.nx-x)+math.Abs(l.ny-y) < 1e-12 {
			return
		}
	}
	f.lines = append(f.lines, line{x, y, reachTo(p, x, y) + reachTo(q, -x, -y) + c})
}

// cutOff is how far beyond a line a box reaches: a point of the box that is not
// in the cell is likelier beyond a line that cuts much off.
func (l line) cutOff(b box) float64 {
	return reachTo([]Pt{{b.x0, b.y0}, {b.x1, b.y0}, {b.x1, b.y1}, {b.x0, b.y1}}, l.nx, l.ny) - l.off
}

// reachTo is how far a polygon reaches in a direction.
func reachTo(p []Pt, x, y float64) float64 {
	far := math.Inf(-1)
	for _, q := range p {
		far = max(far, float64(q.X*x)+float64(q.Y*y))
	}
	return far
}

// depth is 0 outside, and inside how deep, summed over cells. A sum above most
// may come out as any value above most.
func (f *fence) depth(x, y, most float64) float64 {
	var sum float64
	if f.tiles == nil {
		for i := range f.cells {
			if c := &f.cells[i]; x > c.x0 && x < c.x1 && y > c.y0 && y < c.y1 {
				if sum += f.within(c, x, y); sum > most {
					break
				}
			}
		}
		return sum
	}
	for _, i := range f.tiles.at(x, y) {
		if c := &f.cells[i]; x > c.x0 && x < c.x1 && y > c.y0 && y < c.y1 {
			if sum += f.within(c, x, y); sum > most {
				break
			}
		}
	}
	return sum
}

// within is how far a point in a cell's box lies from the cell's nearest side,
// weighted; 0 outside the cell.
func (f *fence) within(c *cell, x, y float64) float64 {
	least := x - c.x0
	if d := c.x1 - x; d < least {
		least = d
	}
	if d := y - c.y0; d < least {
		least = d
	}
	if d := c.y1 - y; d < least {
		least = d
	}
	lines := f.lines[c.from:c.to]
	for k := range lines {
		l := &lines[k]
		d := l.off - (float64(l.nx*x) + float64(l.ny*y))
		if d <= 0 {
			return 0
		}
		if d < least {
			least = d
		}
	}
	return float64(least * c.weight)
}

package nest

// tiles divide the box round a fence evenly and say of each part which cells
// reach into it, so that a question about one of many cells looks at few.
type tiles struct {
	box
	sx, sy float64  // tiles a millimetre
	first  []uint32 // per tile, row by row, where its list begins; one more at the end
	list   []uint32 // cells, in the fence's order
}

const (
	tileSides = 16 // rows, and columns
	tileFrom  = 12 // cells from which a fence is divided: fewer are looked at sooner than tiles
	// tileEdge is how far tiles reach over their edges, mm: more than rounding
	// puts a point into the tile beside its own.
	tileEdge = 1e-6
)

// tiled divides a fence.
func (f *fence) tiled() *tiles {
	if len(f.cells) < tileFrom {
		return nil
	}
	t := &tiles{box: f.cells[0].box}
	for _, c := range f.cells {
		t.box = box{min(t.x0, c.x0), min(t.y0, c.y0), max(t.x1, c.x1), max(t.y1, c.y1)}
	}
	wide, high := (t.x1-t.x0)/tileSides, (t.y1-t.y0)/tileSides
	t.sx, t.sy = 1/wide, 1/high
	t.first = make([]uint32, 1, tileSides*tileSides+1)
	for row := range tileSides {
		for col := range tileSides {
			x, y := t.x0+float64(float64(col)*wide), t.y0+float64(float64(row)*high)
			part := box{x - tileEdge, y - tileEdge, x + wide + tileEdge, y + high + tileEdge}
			for i := range f.cells {
				if f.reaches(&f.cells[i], part) {
					t.list = append(t.list, uint32(i))
				}
			}
			t.first = append(t.first, uint32(len(t.list)))
		}
	}
	return t
}

// reaches tells whether a cell may have points in a box; it may say so wrongly
// near a corner of the cell.
func (f *fence) reaches(c *cell, b box) bool {
	if c.apart(b, 0) {
		return false
	}
	for _, l := range f.lines[c.from:c.to] {
		x, y := b.x0, b.y0 // the corner farthest inside
		if l.nx < 0 {
			x = b.x1
		}
		if l.ny < 0 {
			y = b.y1
		}
		if float64(l.nx*x)+float64(l.ny*y) >= l.off {
			return false
		}
	}
	return true
}

// at lists the cells that may hold a point.
func (t *tiles) at(x, y float64) []uint32 {
	if !(x > t.x0 && x < t.x1 && y > t.y0 && y < t.y1) {
		return nil
	}
	k := min(int((y-t.y0)*t.sy), tileSides-1)*tileSides + min(int((x-t.x0)*t.sx), tileSides-1)
	return t.list[t.first[k]:t.first[k+1]]
}

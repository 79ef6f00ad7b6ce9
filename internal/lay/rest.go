package lay

import (
	"math"

	"gusset/internal/geom"
)

// Rest is a rectangle of cloth that nothing is cut from and that has no flaw.
type Rest struct {
	From, Low  float64 // its corner: mm from the cut end, and from the inner border of the near selvedge
	Long, Wide float64 // along the cloth and across it, mm
}

// Area is its area in mm².
func (r Rest) Area() float64 { return r.Long * r.Wide }

// restCell is the fineness with which rests are found, mm: a rest is at most
// two cells longer and wider than is told, never shorter.
const restCell = 4

// Rest is the largest rectangle left over of the flat cloth, between two places
// along it, with its sides along warp and weft; zero when there is none. The
// cloth is unfolded for it: what is cut through two layers is cut of it twice.
func (l Lay) Rest(from, to float64) Rest {
	from, to = max(from, Squaring), min(to, l.Cloth.UsableLength())
	nx, ny := int((to-from)/restCell), int(l.Cloth.UsableWidth()/restCell)
	if nx < 1 || ny < 1 {
		return Rest{}
	}
	g := grid{nx: nx, ny: ny, taken: make([]bool, nx*ny)}
	mark := func(ring []geom.Pt) {
		own := make([]geom.Pt, len(ring))
		for i, p := range ring {
			own[i] = geom.Pt{X: (p.X - from) / restCell, Y: p.Y / restCell}
		}
		g.mark(own)
	}
	for _, p := range l.Placed {
		for _, ring := range l.flat(p) {
			mark(ring)
		}
	}
	for _, h := range hazards(l.Cloth) {
		mark(h)
	}
	x, y, w, h := g.largest()
	return Rest{From: from + float64(x)*restCell, Low: float64(y) * restCell, Long: float64(w) * restCell, Wide: float64(h) * restCell}
}

// flat is what a placed piece cuts of the flat cloth, once for each layer.
func (l Lay) flat(p Placed) [][]geom.Pt {
	s := l.Sections[p.Section]
	put := func(f func(geom.Pt) geom.Pt) []geom.Pt {
		ring := p.Outline()
		for i := range ring {
			ring[i] = f(ring[i])
		}
		return ring
	}
	out := [][]geom.Pt{put(func(q geom.Pt) geom.Pt { return geom.Pt{X: q.X, Y: q.Y + s.Depth} })}
	if p.Layers < 2 {
		return out
	}
	switch s.Fold {
	case Along:
		out = append(out, put(func(q geom.Pt) geom.Pt { return geom.Pt{X: q.X, Y: s.Depth - q.Y} }))
	case Across:
		out = append(out, put(func(q geom.Pt) geom.Pt { return geom.Pt{X: 2*s.To - q.X, Y: q.Y} }))
	case Swung:
		out = append(out, put(func(q geom.Pt) geom.Pt {
			return geom.Pt{X: q.X + s.To - s.From, Y: l.Cloth.UsableWidth() - q.Y}
		}))
	}
	return out
}

// grid is the flat cloth in cells; one is taken when any of it is.
type grid struct {
	nx, ny int
	taken  []bool
}

// mark takes every cell that an outline meets, and those inside it.
func (g *grid) mark(ring []geom.Pt) {
	for i, p := range ring {
		g.line(p, ring[(i+1)%len(ring)])
	}
	for y := range g.ny {
		g.fill(y, ring)
	}
}

// line takes the cells along an edge, row by row.
func (g *grid) line(p, q geom.Pt) {
	if p.Y > q.Y {
		p, q = q, p
	}
	for y := max(0, int(math.Floor(p.Y))); y < g.ny && float64(y) <= q.Y; y++ {
		a, b := p, q
		if q.Y > p.Y {
			at := func(v float64) geom.Pt { return p.Lerp(q, min(max((v-p.Y)/(q.Y-p.Y), 0), 1)) }
			a, b = at(float64(y)), at(float64(y+1))
		}
		lo, hi := math.Floor(min(a.X, b.X)), math.Floor(max(a.X, b.X))
		for x := max(0, int(lo)); x < g.nx && float64(x) <= hi; x++ {
			g.taken[y*g.nx+x] = true
		}
	}
}

// fill takes the cells of a row whose middles lie inside an outline: those that
// no edge runs through lie inside as a whole.
func (g *grid) fill(y int, ring []geom.Pt) {
	mid := float64(y) + 0.5
	in := make([]bool, 0, g.nx)
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		if (p.Y <= mid) == (q.Y <= mid) {
			continue
		}
		if len(in) == 0 {
			in = in[:g.nx]
		}
		at := p.Lerp(q, (mid-p.Y)/(q.Y-p.Y)).X
		for x := max(0, int(math.Ceil(at-0.5))); x < g.nx; x++ {
			in[x] = !in[x]
		}
	}
	for x, inside := range in {
		if inside {
			g.taken[y*g.nx+x] = true
		}
	}
}

// largest is the largest rectangle of cells that are free, by the well-known
// walk over a histogram row by row.
func (g *grid) largest() (x, y, w, h int) {
	heights := make([]int, g.nx+1) // one more, always 0, ends every bar
	type bar struct{ from, height int }
	for row := range g.ny {
		var open []bar
		for k := range g.nx + 1 {
			if k < g.nx {
				if heights[k]++; g.taken[row*g.nx+k] {
					heights[k] = 0
				}
			}
			from := k
			for len(open) > 0 && open[len(open)-1].height >= heights[k] {
				b := open[len(open)-1]
				open = open[:len(open)-1]
				if b.height*(k-b.from) > w*h {
					x, y, w, h = b.from, row-b.height+1, k-b.from, b.height
				}
				from = b.from
			}
			open = append(open, bar{from, heights[k]})
		}
	}
	return x, y, w, h
}

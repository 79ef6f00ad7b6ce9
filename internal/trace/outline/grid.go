package outline

import (
	"math"

	"gusset/internal/geom"
)

// Region is how far outside the middles of the cards, in mm, a piece is looked
// for: beyond, nothing holds the map to the table.
const Region = 130.0

// What a cell of the grid may be, besides the number of the photo it is seen in.
const (
	outsideCell int8 = -1 // not looked at, or in no photo
	cardCell    int8 = -2
)

// grid is the table in cells of step mm, each with what it looks like.
type grid struct {
	lo     geom.Pt
	step   float64
	nx, ny int
	shot   []int8 // the photo that sees the cell most squarely
	look   [][3]float32
}

// mostCells bounds the grid; larger tables get larger cells.
const mostCells = 2.5e6

// newGrid lays the grid round the cards and looks at every cell.
func newGrid(shots []Shot, cards []Card) *grid {
	hull := hullOf(cards)
	lo, hi := geom.BoundsOf(hull)
	lo, hi = lo.Sub(geom.Pt{X: Region, Y: Region}), hi.Add(geom.Pt{X: Region, Y: Region})
	size := hi.Sub(lo)
	g := &grid{lo: lo, step: max(1, math.Sqrt(size.X*size.Y/mostCells))}
	g.nx, g.ny = int(size.X/g.step)+1, int(size.Y/g.step)+1
	g.shot = make([]int8, g.nx*g.ny)
	g.look = make([][3]float32, g.nx*g.ny)
	for y := range g.ny {
		for x := range g.nx {
			g.see(shots, cards, hull, x, y)
		}
	}
	g.smooth()
	return g
}

func (g *grid) middle(x, y int) geom.Pt {
	return g.lo.Add(geom.Pt{X: (float64(x) + 0.5) * g.step, Y: (float64(y) + 0.5) * g.step})
}

// edgePixels is how near the edge of a picture nothing is looked at.
const edgePixels = 6

// see looks at one cell.
func (g *grid) see(shots []Shot, cards []Card, hull []geom.Pt, x, y int) {
	p, k := g.middle(x, y), y*g.nx+x
	g.shot[k] = outsideCell
	if !near(hull, p, Region) {
		return
	}
	for _, c := range cards {
		if c.covers(p, 4) {
			g.shot[k] = cardCell
			return
		}
	}
	best := BestShot(shots, p)
	if best < 0 {
		return
	}
	g.shot[k] = int8(best)
	s := shots[best]
	q := g.step / 4
	var sum [3]float32
	for _, d := range [4]geom.Pt{{X: q, Y: q}, {X: q, Y: -q}, {X: -q, Y: q}, {X: -q, Y: -q}} {
		c := s.Photo.Near(s.View.Pixel(p.Add(d)))
		for i := range sum {
			sum[i] += c[i] / 4
		}
	}
	g.look[k] = lookOf(sum)
}

// BestShot is the number of the photo that sees p most squarely; -1 when none does.
func BestShot(shots []Shot, p geom.Pt) int {
	best, slant := -1, math.Inf(1)
	for i, s := range shots {
		px, ok := s.View.Project(p, 0)
		if !ok || !s.Photo.Inside(px, edgePixels) {
			continue
		}
		if len(shots) == 1 {
			return 0
		}
		if a := s.View.Slant(p); a < slant {
			best, slant = i, a
		}
	}
	return best
}

// dark keeps the logarithm of dark places from running away where it would show
// nothing but noise.
const dark = 0.02

// lookOf is what tells paper from table: how light, how red against green, how
// blue against green, as logarithms, so that a shadow is a shift of the first.
func lookOf(c [3]float32) [3]float32 {
	r, g, b := float64(c[0])+dark, float64(c[1])+dark, float64(c[2])+dark
	return [3]float32{float32(math.Log((r + g + b) / 3)), float32(math.Log(r / g)), float32(math.Log(b / g))}
}

// smooth averages each cell with its neighbours by 1 2 1, along and across, twice.
func (g *grid) smooth() {
	out := make([][3]float32, len(g.look))
	for _, step := range [4]int{1, g.nx, 1, g.nx} {
		copy(out, g.look)
		for k := step; k < len(g.look)-step; k++ {
			if g.shot[k] < 0 || g.shot[k-step] < 0 || g.shot[k+step] < 0 {
				continue
			}
			for i := range out[k] {
				out[k][i] = (g.look[k-step][i] + 2*g.look[k][i] + g.look[k+step][i]) / 4
			}
		}
		g.look, out = out, g.look
	}
}

// hullOf is the convex hull of the cards' middles, counter-clockwise (Andrew's
// monotone chain, Information Processing Letters 9(5), 1979).
func hullOf(cards []Card) []geom.Pt {
	pts := make([]geom.Pt, len(cards))
	for i, c := range cards {
		pts[i] = c.At
	}
	sortPoints(pts)
	var hull []geom.Pt
	for range 2 {
		from := len(hull)
		for _, p := range pts {
			for len(hull) >= from+2 && hull[len(hull)-1].Sub(hull[len(hull)-2]).Cross(p.Sub(hull[len(hull)-1])) <= 0 {
				hull = hull[:len(hull)-1]
			}
			hull = append(hull, p)
		}
		hull = hull[:len(hull)-1]
		reversePoints(pts)
	}
	return hull
}

// near reports whether p lies in a convex hull or within reach of it.
func near(hull []geom.Pt, p geom.Pt, reach float64) bool {
	return outside(hull, p) <= reach
}

// outside is how far p lies outside a convex hull; 0 inside.
func outside(hull []geom.Pt, p geom.Pt) float64 {
	in := true
	for i, a := range hull {
		in = in && hull[(i+1)%len(hull)].Sub(a).Cross(p.Sub(a)) >= 0
	}
	if in {
		return 0
	}
	least := math.Inf(1)
	for i, a := range hull {
		d := hull[(i+1)%len(hull)].Sub(a)
		t := min(max(p.Sub(a).Dot(d)/d.Dot(d), 0), 1)
		off := a.Add(d.Mul(t)).Sub(p)
		least = min(least, off.Dot(off))
	}
	return math.Sqrt(least)
}

// Package follow follows a printed line on a sheet of which photos show where
// everything lies: from one place that the user has pointed at to the next, by
// the way that costs least over ink. Dashes are gaps that cost a little, other
// lines that cross are passed straight over, and a neighbouring size's line is
// out of reach as long as getting there over blank paper costs more than the
// gaps on the way.
package follow

import (
	"container/heap"
	"math"

	"gusset/internal/geom"
	"gusset/internal/trace/outline"
)

// Measures in mm, and costs for each mm.
const (
	step  = 0.4 // of the map of ink
	aside = 45  // how far beside the straight way between two places is looked
	snap  = 2.4 // how far a place may lie beside the line
	blank = 15  // cost of blank paper; that of full ink is 1
	block = 5.0 // within which the paper's own lightness is taken
)

// Leg is the way from one place to the next.
type Leg struct {
	Points []geom.Pt // along the middle of the line, where there is ink
	// Ink is the part of the way that lies on ink: 1 for a full line, about two
	// thirds for usual dashes.
	Ink float64
	// Beside is the longest stretch in mm over which another line runs within 5 mm
	// of the way: there one may be taken for the other.
	Beside float64
}

// Between follows the line from one place to another.
func Between(shots []outline.Shot, from, to geom.Pt) Leg {
	m := newInkMap(shots, from, to)
	a, b := m.snapped(from), m.snapped(to)
	cells := m.cheapest(a, b)
	l := Leg{}
	on := 0
	for i, k := range cells {
		if m.ink[k] > 0.35 {
			on++
			if p, ok := m.centred(cells, i); ok {
				l.Points = append(l.Points, p)
			}
		}
	}
	if len(cells) > 0 {
		l.Ink = float64(on) / float64(len(cells))
	}
	l.Beside = m.beside(cells)
	return l
}

// beside looks for another line along a way, 1.6 to 5 mm to either side.
func (m *inkMap) beside(way []int) float64 {
	longest, run, miss := 0, 0, 0
	for i := range way {
		p, dir := m.heading(way, i)
		left, seen := dir.Left(), false
		for off := 1.6; off <= 5; off += step {
			seen = seen || m.between(p.Add(left.Mul(off))) > 0.5 || m.between(p.Sub(left.Mul(off))) > 0.5
		}
		if seen {
			run, miss = run+miss+1, 0
			longest = max(longest, run)
		} else if miss++; float64(miss)*step > 5 { // longer than the gap of a dash
			run, miss = 0, 0
		}
	}
	return float64(longest) * step
}

// heading is the place of the i-th cell of a way and its direction there.
func (m *inkMap) heading(way []int, i int) (at, dir geom.Pt) {
	const span = 6
	a, b := way[max(i-span, 0)], way[min(i+span, len(way)-1)]
	return m.at(way[i]%m.nx, way[i]/m.nx), m.at(b%m.nx, b/m.nx).Sub(m.at(a%m.nx, a/m.nx)).Unit()
}

// inkMap is how dark each place near the way is, against the paper round it: 0
// blank, 1 full ink.
type inkMap struct {
	lo     geom.Pt
	nx, ny int
	ink    []float32
	line   []float32 // ink with the gaps of dashes closed
}

func newInkMap(shots []outline.Shot, from, to geom.Pt) *inkMap {
	lo, hi := geom.BoundsOf([]geom.Pt{from, to})
	pad := aside + 0.25*from.Dist(to)
	lo, hi = lo.Sub(geom.Pt{X: pad, Y: pad}), hi.Add(geom.Pt{X: pad, Y: pad})
	m := &inkMap{lo: lo, nx: int((hi.X-lo.X)/step) + 1, ny: int((hi.Y-lo.Y)/step) + 1}
	light := make([]float32, m.nx*m.ny)
	for y := range m.ny {
		for x := range m.nx {
			p := m.at(x, y)
			if i := outline.BestShot(shots, p); i >= 0 {
				light[y*m.nx+x] = float32(shots[i].Photo.Lit(shots[i].View.Pixel(p)))
			}
		}
	}
	m.ink = m.against(light)
	m.scale(from, to)
	m.close(from, to)
	return m
}

func (m *inkMap) at(x, y int) geom.Pt {
	return m.lo.Add(geom.Pt{X: float64(x) * step, Y: float64(y) * step})
}

// against turns lightness into ink: how much darker than the lightest tenth of
// the block round it, as a part of that.
func (m *inkMap) against(light []float32) []float32 {
	n := int(math.Round(block / step))
	bx, by := m.nx/n+1, m.ny/n+1
	paper := make([]float32, bx*by)
	for j := range by {
		for i := range bx {
			paper[j*bx+i] = m.lightest(light, i*n, j*n, n)
		}
	}
	out := make([]float32, len(light))
	for y := range m.ny {
		for x := range m.nx {
			k := y*m.nx + x
			// The lightest of the blocks round it: a block may be all ink.
			var p float32
			for dj := -1; dj <= 1; dj++ {
				for di := -1; di <= 1; di++ {
					i, j := min(max(x/n+di, 0), bx-1), min(max(y/n+dj, 0), by-1)
					p = max(p, paper[j*bx+i])
				}
			}
			if p > 20 && light[k] > 0 {
				out[k] = max(0, 1-light[k]/p-0.06)
			}
		}
	}
	return out
}

// scale makes the ink of the line at both ends full ink: other things nearby are
// darker, such as the cards.
func (m *inkMap) scale(from, to geom.Pt) {
	full := float32(0.08) // fainter lines are not told from the paper's own spots
	for _, p := range []geom.Pt{from, to} {
		full = max(full, 0.7*m.ink[m.snapped(p)])
	}
	for k := range m.ink {
		m.ink[k] = min(m.ink[k]/full, 1)
	}
}

// lightest is the lightness that a tenth of a block exceeds.
func (m *inkMap) lightest(light []float32, x0, y0, n int) float32 {
	var count [256]int
	total := 0
	for y := y0; y < min(y0+n, m.ny); y++ {
		for x := x0; x < min(x0+n, m.nx); x++ {
			count[uint8(light[y*m.nx+x])]++
			total++
		}
	}
	left := total / 10
	for v := 255; v > 0; v-- {
		if left -= count[v]; left < 0 {
			return float32(v)
		}
	}
	return 0
}

// snapped is the darkest cell near a place.
func (m *inkMap) snapped(p geom.Pt) int {
	cx, cy := int((p.X-m.lo.X)/step+0.5), int((p.Y-m.lo.Y)/step+0.5)
	n := int(math.Ceil(snap / step))
	best, score := cy*m.nx+cx, -1.0
	for y := max(cy-n, 0); y <= min(cy+n, m.ny-1); y++ {
		for x := max(cx-n, 0); x <= min(cx+n, m.nx-1); x++ {
			d := math.Hypot(float64(x-cx), float64(y-cy)) * step
			if d > snap {
				continue
			}
			if s := float64(m.ink[y*m.nx+x]) - 0.12*d; s > score {
				best, score = y*m.nx+x, s
			}
		}
	}
	return best
}

// cheapest is the way from a to b with the least cost (Dijkstra, A Note on Two
// Problems in Connexion with Graphs, Numerische Mathematik 1, 1959), over the
// eight neighbours of each cell.
func (m *inkMap) cheapest(a, b int) []int {
	cost := make([]float32, len(m.ink))
	from := make([]int32, len(m.ink))
	for k := range cost {
		cost[k] = math.MaxFloat32
	}
	cost[a], from[a] = 0, -1
	open := &frontier{{0, int32(a)}}
	for open.Len() > 0 {
		at := heap.Pop(open).(reach)
		k := int(at.cell)
		if k == b {
			break
		}
		if at.cost > cost[k] {
			continue
		}
		x, y := k%m.nx, k/m.nx
		for _, d := range neighbours {
			i, j := x+d.x, y+d.y
			if i < 0 || j < 0 || i >= m.nx || j >= m.ny {
				continue
			}
			n := j*m.nx + i
			price := d.far * (blank - (blank-1)*(m.line[k]+m.line[n])/2)
			if c := at.cost + price; c < cost[n] {
				cost[n], from[n] = c, int32(k)
				heap.Push(open, reach{c, int32(n)})
			}
		}
	}
	var way []int
	if cost[b] == math.MaxFloat32 {
		return nil
	}
	for k := b; k >= 0; k = int(from[k]) {
		way = append(way, k)
		if k == a {
			break
		}
	}
	for i, j := 0, len(way)-1; i < j; i, j = i+1, j-1 {
		way[i], way[j] = way[j], way[i]
	}
	return way
}

var neighbours = [8]struct {
	x, y int
	far  float32
}{{1, 0, 1}, {-1, 0, 1}, {0, 1, 1}, {0, -1, 1}, {1, 1, math.Sqrt2}, {1, -1, math.Sqrt2}, {-1, 1, math.Sqrt2}, {-1, -1, math.Sqrt2}}

type reach struct {
	cost float32
	cell int32
}

// frontier is a heap of cells by cost.
type frontier []reach

func (f frontier) Len() int           { return len(f) }
func (f frontier) Less(i, j int) bool { return f[i].cost < f[j].cost }
func (f frontier) Swap(i, j int)      { f[i], f[j] = f[j], f[i] }
func (f *frontier) Push(v any)        { *f = append(*f, v.(reach)) }
func (f *frontier) Pop() any {
	last := (*f)[len(*f)-1]
	*f = (*f)[:len(*f)-1]
	return last
}

// centred is the weighted middle of the ink across the way at its i-th cell;
// false where another line crosses and there is no clear middle.
func (m *inkMap) centred(way []int, i int) (geom.Pt, bool) {
	p, dir := m.heading(way, i)
	left := dir.Left()
	var sum, mid, ends float64
	for k := -10; k <= 10; k++ {
		off := float64(k) * 0.1
		v := m.between(p.Add(left.Mul(off)))
		sum, mid = sum+v, mid+v*off
		if k == -10 || k == 10 {
			ends = max(ends, v)
		}
	}
	if sum == 0 || ends > 0.6 {
		return geom.Pt{}, false
	}
	return p.Add(left.Mul(mid / sum)), true
}

// between is the ink at a place, between four cells.
func (m *inkMap) between(p geom.Pt) float64 {
	x, y := (p.X-m.lo.X)/step, (p.Y-m.lo.Y)/step
	i, j := int(x), int(y)
	if i < 0 || j < 0 || i >= m.nx-1 || j >= m.ny-1 {
		return 0
	}
	fx, fy := x-float64(i), y-float64(j)
	k := j*m.nx + i
	a := float64(m.ink[k]) + fx*float64(m.ink[k+1]-m.ink[k])
	b := float64(m.ink[k+m.nx]) + fx*float64(m.ink[k+m.nx+1]-m.ink[k+m.nx])
	return a + fy*(b-a)
}

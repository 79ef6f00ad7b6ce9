package outline

import "gusset/internal/geom"

// blob is a connected patch of paper.
type blob struct {
	cells      []int
	touchesEnd int // cells beside what is not looked at
	touchCard  int // cells beside a card
}

// largest returns the largest patch, by its part between the cards.
func (g *grid) largest(paper []bool, hull []geom.Pt) blob {
	seen := make([]bool, len(paper))
	var best blob
	bestInside := 0
	for k := range paper {
		if !paper[k] || seen[k] {
			continue
		}
		b, inside := g.flood(paper, seen, k, hull)
		if inside > bestInside {
			best, bestInside = b, inside
		}
	}
	return best
}

func (g *grid) flood(paper, seen []bool, from int, hull []geom.Pt) (blob, int) {
	var b blob
	inside := 0
	stack := []int{from}
	seen[from] = true
	for len(stack) > 0 {
		k := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		b.cells = append(b.cells, k)
		x, y := k%g.nx, k/g.nx
		if outside(hull, g.middle(x, y)) == 0 {
			inside++
		}
		end, card := x == 0 || y == 0 || x == g.nx-1 || y == g.ny-1, false
		for _, d := range [4][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			i, j := x+d[0], y+d[1]
			if i < 0 || j < 0 || i >= g.nx || j >= g.ny {
				continue
			}
			n := j*g.nx + i
			end = end || g.shot[n] == outsideCell
			card = card || g.shot[n] == cardCell
			if paper[n] && !seen[n] && g.shot[n] >= 0 {
				seen[n] = true
				stack = append(stack, n)
			}
		}
		if end {
			b.touchesEnd++
		}
		if card {
			b.touchCard++
		}
	}
	return b, inside
}

// opened takes off what is narrower than three cells: specks, and bridges to
// the next thing.
func (g *grid) opened(paper []bool) []bool {
	pass := func(in []bool, want bool) []bool {
		out := make([]bool, len(in))
		for y := 1; y < g.ny-1; y++ {
			for x := 1; x < g.nx-1; x++ {
				k := y*g.nx + x
				hit := in[k] == want && in[k-1] == want && in[k+1] == want && in[k-g.nx] == want && in[k+g.nx] == want
				out[k] = hit == want
			}
		}
		return out
	}
	return pass(pass(paper, true), false)
}

// filled marks the blob with its holes filled: everything that cannot be
// reached from the grid's border without crossing it.
func (g *grid) filled(b blob) []bool {
	in := make([]bool, len(g.shot))
	for _, k := range b.cells {
		in[k] = true
	}
	open := make([]bool, len(in))
	var stack []int
	push := func(k int) {
		if !in[k] && !open[k] {
			open[k] = true
			stack = append(stack, k)
		}
	}
	for x := range g.nx {
		push(x)
		push((g.ny-1)*g.nx + x)
	}
	for y := range g.ny {
		push(y * g.nx)
		push(y*g.nx + g.nx - 1)
	}
	for len(stack) > 0 {
		k := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		x, y := k%g.nx, k/g.nx
		if x > 0 {
			push(k - 1)
		}
		if x < g.nx-1 {
			push(k + 1)
		}
		if y > 0 {
			push(k - g.nx)
		}
		if y < g.ny-1 {
			push(k + g.nx)
		}
	}
	for k := range in {
		in[k] = !open[k]
	}
	return in
}

// border follows the sides of the marked cells round the outside, paper on the
// left, and returns the middles of the sides.
func (g *grid) border(in []bool) []geom.Pt {
	at := func(x, y int) bool { return x >= 0 && y >= 0 && x < g.nx && y < g.ny && in[y*g.nx+x] }
	sx, sy := -1, -1
	for k := range in {
		if in[k] {
			sx, sy = k%g.nx, k/g.nx
			break
		}
	}
	if sx < 0 {
		return nil
	}
	// Walk on the corners of cells. The first cell in reading order has nothing
	// below it: its lower side is walked to the right.
	x, y, d := sx, sy, 0
	dirs := [4][2]int{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}
	// leftCell is the cell to the left of a step from (x, y) in direction d.
	leftCell := [4][2]int{{0, 0}, {-1, 0}, {-1, -1}, {0, -1}}
	var out []geom.Pt
	for range 4 * len(in) {
		out = append(out, g.lo.Add(geom.Pt{X: (float64(x) + 0.5*float64(dirs[d][0])) * g.step, Y: (float64(y) + 0.5*float64(dirs[d][1])) * g.step}))
		x, y = x+dirs[d][0], y+dirs[d][1]
		// Turn right where the cell there is marked as well, else go on, else left.
		for _, turn := range [4]int{3, 0, 1, 2} {
			n := (d + turn) % 4
			l := leftCell[n]
			r := leftCell[(n+3)%4] // the cell to the right of direction n
			if at(x+l[0], y+l[1]) && !at(x+r[0], y+r[1]) {
				d = n
				break
			}
		}
		if x == sx && y == sy && d == 0 {
			return out
		}
	}
	return out
}

package outline

import (
	"math"

	"gusset/internal/geom"
)

// cornerTurn is the least angle of a corner, in radians: 22 degrees.
const cornerTurn = 22 * math.Pi / 180

// chain is the edge with the places of notches taken out.
type chain struct {
	pts    []geom.Pt
	hidden []bool
}

func newChain(pts []geom.Pt, notches []Notch) chain {
	c := chain{pts, make([]bool, len(pts))}
	n := len(pts)
	for _, k := range notches {
		for i := -20; i <= 20; i++ {
			j := ((k.index+i)%n + n) % n
			if pts[j].Dist(k.At) <= k.half {
				c.hidden[j] = true
			}
		}
	}
	return c
}

// corners returns the indexes at which the edge turns: between lines fitted to
// what lies 2 to 12 mm before and after.
func (c chain) corners() []int {
	n := len(c.pts)
	turn := make([]float64, n)
	for i := range c.pts {
		a, ok := c.direction(i, -1)
		b, okB := c.direction(i, 1)
		if ok && okB {
			turn[i] = math.Abs(math.Atan2(a.Cross(b), a.Dot(b)))
		}
	}
	var out []int
	for i, t := range turn {
		if t < cornerTurn {
			continue
		}
		most := true
		for k := 1; k <= 8; k++ { // two corners are 6 mm apart or more
			if turn[(i+k)%n] > t || turn[((i-k)%n+n)%n] >= t {
				most = false
				break
			}
		}
		if most {
			out = append(out, i)
		}
	}
	return out
}

// direction is that of the line through the points 2 to 12 mm to one side, in
// the order of the edge.
func (c chain) direction(i, side int) (geom.Pt, bool) {
	pts := c.beside(i, side, 2, 12)
	if len(pts) < 6 {
		return geom.Pt{}, false
	}
	_, d := lineThrough(pts)
	if pts[len(pts)-1].Sub(pts[0]).Dot(d) < 0 {
		d = d.Mul(-1)
	}
	return d.Mul(float64(side)), true
}

// beside lists the visible points whose distance along the edge from point i,
// to one side, lies between two lengths, nearest first.
func (c chain) beside(i, side int, from, to float64) []geom.Pt {
	n := len(c.pts)
	var out []geom.Pt
	gone := 0.0
	for k := 1; k < n; k++ {
		j := ((i+side*k)%n + n) % n
		gone += c.pts[j].Dist(c.pts[((i+side*(k-1))%n+n)%n])
		if gone > to {
			break
		}
		if gone >= from && !c.hidden[j] {
			out = append(out, c.pts[j])
		}
	}
	return out
}

// lineThrough returns the middle of points and the direction of their best line.
func lineThrough(pts []geom.Pt) (mid, dir geom.Pt) {
	for _, p := range pts {
		mid = mid.Add(p.Mul(1 / float64(len(pts))))
	}
	var xx, xy, yy float64
	for _, p := range pts {
		d := p.Sub(mid)
		xx, xy, yy = xx+d.X*d.X, xy+d.X*d.Y, yy+d.Y*d.Y
	}
	a := math.Atan2(2*xy, xx-yy) / 2
	return mid, geom.Pt{X: 1}.Rot(a)
}

// sharpened returns where the corner at point i really is: where parabolas meet
// that are fitted to the edge 2.5 to 22 mm before and after, or half-way to the
// next corner where that is nearer. The picture itself shows every corner
// rounded.
func (c chain) sharpened(i int, before, after float64) geom.Pt {
	p := c.pts[i]
	a := c.beside(i, -1, 2.5, min(22, max(before/2, 6)))
	b := c.beside(i, 1, 2.5, min(22, max(after/2, 6)))
	if len(a) < 4 || len(b) < 4 {
		return p
	}
	if q, ok := meeting(bendOf(a), bendOf(b), p); ok && q.Dist(p) < 6 {
		return q
	}
	return p
}

// meeting is where two parabolas meet near p, by Newton's method on the
// distances along them.
func meeting(f, g bend, p geom.Pt) (geom.Pt, bool) {
	s, t := f.along(p), g.along(p)
	for range 30 {
		d := g.at(t).Sub(f.at(s))
		u, v := f.slope(s), g.slope(t)
		det := u.Cross(v)
		if math.Abs(det) < 1e-6 {
			return p, false
		}
		s += d.Cross(v) / det
		t += d.Cross(u) / det
		if d.Len() < 1e-9 {
			break
		}
	}
	q := f.at(s)
	return q, q.Dist(g.at(t)) < 1e-3
}

// bend is a parabola in a frame of its own.
type bend struct {
	o, dir geom.Pt
	c      [3]float64
}

func bendOf(pts []geom.Pt) bend {
	mid, dir := lineThrough(pts)
	b := bend{o: mid, dir: dir}
	left := dir.Left()
	var s [5]float64
	var r [3]float64
	for _, p := range pts {
		x, y := p.Sub(mid).Dot(dir), p.Sub(mid).Dot(left)
		for j, f := 0, 1.0; j < 5; j, f = j+1, f*x {
			s[j] += f
		}
		r[0], r[1], r[2] = r[0]+y, r[1]+x*y, r[2]+x*x*y
	}
	if c, ok := parabola(s, r); ok {
		b.c = c
	}
	return b
}

func (b bend) along(p geom.Pt) float64 { return p.Sub(b.o).Dot(b.dir) }

func (b bend) at(x float64) geom.Pt {
	return b.o.Add(b.dir.Mul(x)).Add(b.dir.Left().Mul(b.c[0] + b.c[1]*x + b.c[2]*x*x))
}

func (b bend) slope(x float64) geom.Pt {
	return b.dir.Add(b.dir.Left().Mul(b.c[1] + 2*b.c[2]*x))
}

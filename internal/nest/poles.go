package nest

import "math"

// pole is a circle that lies inside a shape.
type pole struct{ x, y, r float64 }

// How many poles describe a shape: more while they cover little of it.
const (
	polesMost   = 24
	polesEnough = 16
	polesFew    = 8
	coverEnough = 0.80 // at polesEnough
	coverFew    = 0.90 // at polesFew
	poleCells   = 400  // cells looked at for one pole
)

// newPoles covers a ring with circles: the largest inside first (its centre is
// the ring's pole of inaccessibility), then the largest inside that overlaps
// none before it.
func newPoles(ring []Pt) []pole {
	area := signedArea(ring)
	var covered float64
	var out []pole
	for len(out) < polesMost {
		if n := len(out); n >= polesEnough && covered >= coverEnough*area || n >= polesFew && covered >= coverFew*area {
			break
		}
		p := nextPole(ring, out)
		if p.r <= 0 || len(out) > 0 && p.r < 0.01*out[0].r {
			break
		}
		covered += float64(math.Pi * p.r * p.r)
		out = append(out, p)
	}
	return out
}

// cell is a square of half side h; reach bounds the radius of any pole in it.
type cell struct{ x, y, h, r, reach float64 }

// nextPole looks into the square that promises most, quarters it, and stops
// when no square promises one per cent more than the best found.
func nextPole(ring []Pt, before []pole) pole {
	s := bounds(ring)
	h := math.Max(s.x1-s.x0, s.y1-s.y0) / 2
	open := []cell{look(ring, before, (s.x0+s.x1)/2, (s.y0+s.y1)/2, h)}
	best := open[0]
	for range poleCells {
		k := -1
		for i := range open {
			if open[i].reach > best.r*1.01 && (k < 0 || open[i].reach > open[k].reach) {
				k = i
			}
		}
		if k < 0 {
			break
		}
		c := open[k]
		open[k] = open[len(open)-1]
		open = open[:len(open)-1]
		for q := range 4 {
			h := c.h / 2
			d := look(ring, before, c.x+float64(h*float64(2*(q&1)-1)), c.y+float64(h*float64(q&2-1)), h)
			if d.r > best.r {
				best = d
			}
			if d.reach > 0 {
				open = append(open, d)
			}
		}
	}
	// A hair smaller, so that rounding never puts the circle outside.
	return pole{best.x, best.y, best.r * (1 - 1e-9)}
}

func look(ring []Pt, before []pole, x, y, h float64) cell {
	r := depth(ring, x, y)
	for _, p := range before {
		r = math.Min(r, math.Hypot(x-p.x, y-p.y)-p.r)
	}
	return cell{x, y, h, r, r + float64(h*math.Sqrt2)}
}

// depth is the distance to the ring's boundary, negative outside.
func depth(ring []Pt, x, y float64) float64 {
	least := math.Inf(1)
	in := false
	a := ring[len(ring)-1]
	for _, b := range ring {
		if (a.Y > y) != (b.Y > y) && x < a.X+float64((y-a.Y)/(b.Y-a.Y)*(b.X-a.X)) {
			in = !in
		}
		ux, uy := b.X-a.X, b.Y-a.Y
		px, py := x-a.X, y-a.Y
		if uu := float64(ux*ux) + float64(uy*uy); uu > 0 {
			t := math.Min(1, math.Max(0, (float64(px*ux)+float64(py*uy))/uu))
			px, py = px-float64(t*ux), py-float64(t*uy)
		}
		least = math.Min(least, float64(px*px)+float64(py*py))
		a = b
	}
	if !in {
		return -math.Sqrt(least)
	}
	return math.Sqrt(least)
}

func bounds(ring []Pt) box {
	b := box{ring[0].X, ring[0].Y, ring[0].X, ring[0].Y}
	for _, p := range ring {
		b = box{math.Min(b.x0, p.X), math.Min(b.y0, p.Y), math.Max(b.x1, p.X), math.Max(b.y1, p.Y)}
	}
	return b
}

package geom

import (
	"math"
	"math/rand/v2"

	"pgregory.net/rapid"
)

// arc returns a circular arc as n cubics with handles of 4/3·tan(θ/4) of the
// radius, the usual construction; its radius is off by less than 2θ⁶/27/4¹⁰ of
// it, 1e-11 for n = 64 round the circle.
func arc(c Pt, r, from, to float64, n int) Curve {
	var out Curve
	step := (to - from) / float64(n)
	k := 4.0 / 3 * math.Tan(step/4) * r
	at := func(a float64) (Pt, Pt) {
		s, co := math.Sincos(a)
		return Pt{c.X + r*co, c.Y + r*s}, Pt{-s, co}
	}
	for i := range n {
		p, t := at(from + step*float64(i))
		q, u := at(from + step*float64(i+1))
		if n > 1 && i == n-1 && math.Abs(to-from) > 6.28 {
			q = out[0].P[0]
		}
		out = append(out, Cubic(p, p.Add(t.Mul(k)), q.Sub(u.Mul(k)), q))
	}
	return out
}

func circle(r float64) Curve { return arc(Pt{}, r, 0, 2*math.Pi, 64) }

// parabola returns y = a·x² between x0 and x1, exactly: a quadratic raised to
// a cubic.
func parabola(a, x0, x1 float64) Curve {
	p, q := Pt{x0, a * x0 * x0}, Pt{x1, a * x1 * x1}
	m := Pt{(x0 + x1) / 2, a * x0 * x1}
	return Curve{Cubic(p, p.Lerp(m, 2.0/3), q.Lerp(m, 2.0/3), q)}
}

// parabolaLength is the arc length of y = a·x² from 0 to x (integral of
// √(1+4a²x²); Abramowitz and Stegun 3.3.41, from memory).
func parabolaLength(a, x float64) float64 {
	return x/2*math.Sqrt(1+4*a*a*x*x) + math.Asinh(2*a*x)/(4*a)
}

func square(side float64) []Pt { return []Pt{{0, 0}, {side, 0}, {side, side}, {0, side}} }

// dice draws a source of evenly spread numbers. Drawn floats themselves crowd
// at zero, where every edge is straight and every distance nothing.
func dice(t *rapid.T) *rand.Rand {
	return rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 7))
}

func between(r *rand.Rand, lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }

// edgeLike makes a cubic as edges of pieces are: chord 20..500 mm, handles a
// third of it or so, turned up to 1.2 rad from the chord at each end.
func edgeLike(r *rand.Rand) Seg {
	l := between(r, 20, 500)
	p := Pt{between(r, -300, 300), between(r, -300, 300)}
	turn, a, b := between(r, -3, 3), between(r, -1.2, 1.2), between(r, -1.2, 1.2)
	q := p.Add(Pt{l, 0}.Rot(turn))
	return Cubic(p, p.Add(Pt{between(r, 0.2, 0.45) * l, 0}.Rot(turn+a)), q.Sub(Pt{between(r, 0.2, 0.45) * l, 0}.Rot(turn+b)), q)
}

// smoothEdge makes one to three edge-like segments joined without corners,
// some of them straight.
func smoothEdge(r *rand.Rand) Curve {
	c := Curve{edgeLike(r)}
	for range r.IntN(3) {
		p, d := c.End(), c.EndTangent()
		if r.IntN(2) == 0 {
			c = append(c, Line(p, p.Add(d.Mul(60))))
			continue
		}
		b := between(r, -1, 1)
		e := d.Rot(b)
		q := p.Add(d.Rot(b / 2).Mul(120))
		c = append(c, Cubic(p, p.Add(d.Mul(40)), q.Sub(e.Mul(40)), q))
	}
	return c
}

// blob returns a star-shaped simple loop with n corners.
func blob(rng *rand.Rand, n int, r float64) []Pt {
	out := make([]Pt, n)
	for i := range out {
		a := 2 * math.Pi * (float64(i) + 0.6*rng.Float64()) / float64(n)
		out[i] = Pt{r * (0.5 + rng.Float64()), 0}.Rot(a)
	}
	return out
}

// sampled returns points of the curve with their arc-length-free parameters at
// n equal steps per segment.
func sampled(c Curve, n int) []Pt {
	var out []Pt
	for _, s := range c {
		for k := range n {
			out = append(out, s.At(float64(k)/float64(n)))
		}
	}
	return append(out, c.End())
}

// bruteDistance is the distance from p to a polyline.
func bruteDistance(pts []Pt, p Pt) float64 {
	best := math.Inf(1)
	for i := 1; i < len(pts); i++ {
		best = min(best, pts[i-1].Lerp(pts[i], along(pts[i-1], pts[i], p)).Dist(p))
	}
	return best
}

func finite(c Curve) bool {
	for _, s := range c {
		for _, p := range s.P {
			if !p.Finite() {
				return false
			}
		}
	}
	return true
}

package detect

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"gusset/internal/cards"
	"gusset/internal/geom"
	"gusset/internal/trace/camera"
	"gusset/internal/trace/photo"
)

// measure finds the corner marks of a card: where the three finder patterns say
// they are, and once more where the first four say it.
func (t triple) measure(p *photo.Photo) (px [4]geom.Pt, ok bool) {
	on := func(q geom.Pt) geom.Pt {
		return t.on(cards.Modules/2.0+q.X/cards.Module, cards.Modules/2.0-q.Y/cards.Module)
	}
	reach := max(4, 0.9*cards.Square*t.narrow()/cards.Module)
	for i, c := range cards.Corners() {
		start, ok := search(p, on, c, reach)
		if !ok {
			return px, false
		}
		if px[i], ok = saddle(p, start, on, c); !ok {
			return px, false
		}
	}
	card := cards.Corners()
	h, ok := camera.FindHomography(card[:], px[:])
	if !ok || !t.agrees(h) {
		return px, false
	}
	for i, c := range card {
		q, ok := saddle(p, h.Apply(c), h.Apply, c)
		if !ok || !(q.Dist(px[i]) <= 1.5) {
			return px, false
		}
		px[i] = q
	}
	return px, true
}

// narrow is the shorter side of a module in pixels.
func (t triple) narrow() float64 {
	const apart = cards.Modules - 7
	right, down := t.tr.at.Sub(t.tl.at), t.bl.at.Sub(t.tl.at)
	// Height over the longer side, for a symbol seen as a rhomb.
	return math.Abs(right.Cross(down)) / max(right.Len(), down.Len()) / apart
}

// agrees reports whether the corner marks put the finder patterns where they
// were found: marks of another card, or something that looks like one, do not.
func (t triple) agrees(h camera.Homography) bool {
	for i, c := range [3]centre{t.tl, t.tr, t.bl} {
		if !(h.Apply(cards.Finders()[i]).Dist(c.at) < max(1.2, 0.35*c.module)) {
			return false
		}
	}
	return true
}

// search returns the place near where a corner mark is expected that looks most
// like one: light and dark quarters, well apart.
func search(p *photo.Photo, on func(geom.Pt) geom.Pt, c geom.Pt, reach float64) (geom.Pt, bool) {
	middle := on(c)
	var quarter [4][3]geom.Pt // offsets of sample places, light quarters first
	for i, s := range [4]geom.Pt{{X: -1, Y: 1}, {X: 1, Y: -1}, {X: 1, Y: 1}, {X: -1, Y: -1}} {
		for k, r := range [3]geom.Pt{{X: 1.5, Y: 1.5}, {X: 4.5, Y: 1.5}, {X: 1.5, Y: 4.5}} {
			quarter[i][k] = on(c.Add(geom.Pt{X: s.X * r.X, Y: s.Y * r.Y})).Sub(middle)
		}
	}
	type look struct {
		at    geom.Pt
		score float64
	}
	var looks []look
	best := look{middle, 0}
	for dy := -reach; dy <= reach; dy++ {
		for dx := -reach; dx <= reach; dx++ {
			at := middle.Add(geom.Pt{X: dx, Y: dy})
			if !p.Inside(at, 8) {
				continue
			}
			if s := checkered(p, at, quarter); s > 0 {
				looks = append(looks, look{at, s})
				if s > best.score {
					best = looks[len(looks)-1]
				}
			}
		}
	}
	// Many places look nearly as good as the best: the middle of them is nearer.
	var sum geom.Pt
	n := 0.0
	for _, l := range looks {
		if l.score > 0.8*best.score && l.at.Dist(best.at) < reach {
			sum, n = sum.Add(l.at), n+1
		}
	}
	return sum.Mul(1 / max(n, 1)), best.score > 12
}

// checkered is how much lighter the darkest place of the light quarters is than
// the lightest of the dark ones.
func checkered(p *photo.Photo, at geom.Pt, quarter [4][3]geom.Pt) float64 {
	light, dark := 255.0, 0.0
	for i, places := range quarter {
		for _, d := range places {
			v := p.Lit(at.Add(d))
			if i < 2 {
				light = min(light, v)
			} else {
				dark = max(dark, v)
			}
		}
		if light <= dark {
			return 0
		}
	}
	return light - dark
}

// saddle returns the saddle point of the lightness near start: of the quadric
// fitted to the picture, smoothed with a standard deviation of one pixel, over a
// window that stays well within the four quarters (after the comparison of
// corner operators in the notes on accuracy: 0.02 to 0.03 pixels).
func saddle(p *photo.Photo, start geom.Pt, on func(geom.Pt) geom.Pt, c geom.Pt) (geom.Pt, bool) {
	side := min(on(c.Add(geom.Pt{X: cards.Square})).Dist(on(c)), on(c.Add(geom.Pt{Y: cards.Square})).Dist(on(c)))
	half := int(min(max(math.Floor(0.4*side), 2), 4))
	at := start
	for range 8 {
		if !p.Inside(at, float64(half)+4) {
			return at, false
		}
		d, ok := saddleStep(p, at, half)
		if !ok || !(d.Len() <= 4) {
			return at, false
		}
		at = at.Add(d)
		if d.Len() < 0.002 {
			break
		}
	}
	return at, at.Dist(start) <= 4
}

// saddleStep fits a quadric round at and returns the way to its saddle.
func saddleStep(p *photo.Photo, at geom.Pt, half int) (geom.Pt, bool) {
	n := 2*half + 1
	a := mat.NewDense(n*n, 6, nil)
	b := mat.NewVecDense(n*n, nil)
	for j := -half; j <= half; j++ {
		for i := -half; i <= half; i++ {
			x, y, k := float64(i), float64(j), (j+half)*n+i+half
			a.SetRow(k, []float64{x * x, x * y, y * y, x, y, 1})
			b.SetVec(k, smoothed(p, at.Add(geom.Pt{X: x, Y: y})))
		}
	}
	var q mat.VecDense
	if err := q.SolveVec(a, b); err != nil {
		return geom.Pt{}, false
	}
	xx, xy, yy, x, y := q.AtVec(0), q.AtVec(1), q.AtVec(2), q.AtVec(3), q.AtVec(4)
	det := 4*xx*yy - xy*xy
	if !(det < -1e-9) { // a hill or a hollow
		return geom.Pt{}, false
	}
	return geom.Pt{X: (xy*y - 2*yy*x) / det, Y: (xy*x - 2*xx*y) / det}, true
}

// gauss are the weights of a Gaussian with a standard deviation of one pixel.
var gauss = [7]float64{0.0044, 0.0540, 0.2420, 0.3992, 0.2420, 0.0540, 0.0044}

// smoothed is the lightness at a place, smoothed.
func smoothed(p *photo.Photo, at geom.Pt) float64 {
	var sum float64
	for j, wy := range gauss {
		for i, wx := range gauss {
			sum += wx * wy * p.Lit(at.Add(geom.Pt{X: float64(i - 3), Y: float64(j - 3)}))
		}
	}
	return sum
}

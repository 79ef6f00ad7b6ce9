package scene

import (
	"math"
	"math/rand/v2"

	"gusset/internal/cards"
	"gusset/internal/geom"
	"gusset/internal/trace/camera"
)

// Condition says what is varied in a standard scene.
type Condition struct {
	Panel     int
	Tilt      float64 // degrees from looking straight down
	Azimuth   float64 // degrees, from where the camera looks on
	K1        float64
	MorePixel float64 // pixels of the longer side; 4032 is 12 megapixels
	Table     Light
	Wood      float64
	Shadow    float64
	Unlike    bool // a lens that the solver's model does not have
}

// Oak, Cloth and Grey are tables that contrast with paper.
var (
	Oak   = Light{0.24, 0.14, 0.08}
	Cloth = Light{0.035, 0.04, 0.06}
	Grey  = Light{0.30, 0.30, 0.31}
	Paper = Light{0.66, 0.60, 0.47}
)

// Standard is a scene with everything in its usual place: the panel in the
// middle, a card near each corner and, for a long piece, at the middle of each
// long side; for a very long one at both thirds of it.
func Standard(seed uint64, c Condition) (*Scene, Truth) {
	r := rand.New(rand.NewPCG(seed, 4242))
	s := &Scene{
		Seed: seed, Paper: Paper, Table: c.Table, Wood: c.Wood, Shadow: c.Shadow,
		Falloff: 0.1 + 0.2*r.Float64(), Noise: 2.5, Blur: 0.9, Quality: 85,
		Scale: 1 + 0.003*(2*r.Float64()-1), Stretch: 0.002 * (2*r.Float64() - 1),
	}
	t := s.Put(c.Panel, r, 0.03*r.NormFloat64(), geom.Pt{X: 5 * r.NormFloat64(), Y: 5 * r.NormFloat64()})
	w, h := s.lay(r)
	s.aim(c, r, w, h)
	return s, t
}

// lay puts cards round the outline and returns half the width and height of it
// all.
func (s *Scene) lay(r *rand.Rand) (w, h float64) {
	lo, hi := geom.BoundsOf(s.Outline)
	const out = 100 // mm from the outline's box to a card's middle
	l, b, rt, t := lo.X-out, lo.Y, hi.X+out, hi.Y
	at := []geom.Pt{{X: l, Y: t}, {X: rt, Y: b}, {X: rt, Y: t}, {X: l, Y: b}}
	if long := hi.Y - lo.Y; long > 1300 {
		for _, y := range []float64{b + long/3, b + 2*long/3} {
			at = append(at, geom.Pt{X: l, Y: y}, geom.Pt{X: rt, Y: y})
		}
	} else if long > 700 {
		at = append(at, geom.Pt{X: l, Y: (b + t) / 2}, geom.Pt{X: rt, Y: (b + t) / 2})
	}
	for i, p := range at {
		s.Cards = append(s.Cards, Card{ID: cards.ID(i), At: p.Add(geom.Pt{X: 6 * r.NormFloat64(), Y: 6 * r.NormFloat64()}), Angle: 0.05 * r.NormFloat64()})
	}
	return (rt-l)/2 + 85, (t-b)/2 + 85
}

// aim sets up the camera: from the condition's side, at the distance at which
// everything is in the picture, its longer side along the piece's.
func (s *Scene) aim(c Condition, r *rand.Rand, w, h float64) {
	size := c.MorePixel
	s.W, s.H = int(size), int(size*0.75)
	k := size / 4032
	f := 2950 * k
	l := camera.Lens{F: f, CX: float64(s.W-1)/2 + 9*k*r.NormFloat64(), CY: float64(s.H-1)/2 + 6*k*r.NormFloat64(), K1: c.K1, K2: 0.008}
	if c.Unlike {
		s.K3, s.Decentre = 0.02, [2]float64{3e-4, -2e-4}
	}
	for far := 300.0; far < 6000; far *= 1.02 {
		s.View = camera.Looking(l, geom.Pt{}, far, c.Tilt*math.Pi/180, c.Azimuth*math.Pi/180, h > w)
		if s.fits(geom.Pt{}, w, h) {
			return
		}
	}
}

// Part is the same table seen by the same camera from another side, as far as w
// and h mm to the sides of a place of it; tilt and azimuth are in degrees.
func (s *Scene) Part(at geom.Pt, w, h, tilt, azimuth float64) *Scene {
	o := *s
	o.Seed++
	for far := 300.0; far < 6000; far *= 1.02 {
		o.View = camera.Looking(s.View.Lens, at, far, tilt*math.Pi/180, azimuth*math.Pi/180, h > w)
		if o.fits(at, w, h) {
			break
		}
	}
	return &o
}

// fits reports whether the table round a place is whole in the picture.
func (s *Scene) fits(at geom.Pt, w, h float64) bool {
	for _, p := range []geom.Pt{{X: -w, Y: -h}, {X: w, Y: -h}, {X: w, Y: h}, {X: -w, Y: h}} {
		q, ok := s.View.Project(at.Add(p), 0)
		if !ok || q.X < 10 || q.Y < 10 || q.X > float64(s.W-10) || q.Y > float64(s.H-10) {
			return false
		}
	}
	return true
}

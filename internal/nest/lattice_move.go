package nest

import (
	"math"
	"math/rand/v2"
	"slices"
)

// narrow brings the ends of a tied item's room onto its combs.
func (m *mess) narrow(r *room, i, p, k int) {
	x, y := m.f.grid(i, p, k, X, m.phase), m.f.grid(i, p, k, Y, m.phase)
	r.x0, r.x1 = x.up(r.x0), x.down(r.x1)
	r.y0, r.y1 = y.up(r.y0), y.down(r.y1)
}

// onGrid moves a spot to the nearest one that keeps the item's ties.
func (m *mess) onGrid(i int, s spot) spot {
	if m.f.items[i].tied {
		s.x = m.f.grid(i, s.pose, s.strip, X, m.phase).near(s.x)
		s.y = m.f.grid(i, s.pose, s.strip, Y, m.phase).near(s.y)
	}
	return s
}

// leastStride is the part of a period from which a step becomes a whole one.
const leastStride = 0.125

// stride turns a step of item i from s into whole periods where it is tied.
func (m *mess) stride(i int, s spot, by Pt) Pt {
	if !m.f.items[i].tied {
		return by
	}
	return Pt{
		m.f.grid(i, s.pose, s.strip, X, m.phase).stride(by.X),
		m.f.grid(i, s.pose, s.strip, Y, m.phase).stride(by.Y),
	}
}

func (g grid) stride(d float64) float64 {
	if g.step == 0 {
		return d
	}
	n := math.Round(d / g.step)
	if n == 0 && math.Abs(d) >= leastStride*g.step {
		n = math.Copysign(1, d)
	}
	return n * g.step
}

// rephase gives one lattice another phase and takes its items along: by off,
// when that is not 0, else anywhere. Items that would leave their rooms go to
// the next place of the comb inside; when one has none, nothing changes.
func (m *mess) rephase(g int, off float64, rng *rand.Rand) {
	c := &m.f.comb[g]
	was := m.phase[g]
	switch {
	case len(c.Phases) > 0:
		m.phase[g] = wrapped(c.Phases[rng.IntN(len(c.Phases))], c.Period)
	case off != 0:
		m.phase[g] = wrapped(was+off, c.Period)
	default:
		m.phase[g] = float64(rng.Float64() * c.Period)
	}
	for _, i := range c.members {
		if s := m.spots[i]; s.strip >= 0 && m.room(i, s.pose, s.strip).empty() {
			m.phase[g] = was
			return
		}
	}
	for _, i := range c.members {
		if s := m.spots[i]; s.strip >= 0 {
			m.put(i, m.clamp(i, s))
		}
	}
}

// shaken gives a lattice drawn by chance another phase in one of n calls: half
// of the time one close by.
func (m *mess) shaken(rng *rand.Rand, n int) {
	if len(m.f.comb) == 0 || rng.IntN(n) > 0 {
		return
	}
	g := rng.IntN(len(m.f.comb))
	off := 0.0
	if rng.IntN(2) == 0 {
		off = rng.NormFloat64() * 0.05 * m.f.comb[g].Period
	}
	m.rephase(g, off, rng)
}

// settle moves all items tied to a lattice along X as one and reports whether
// that gained anything: back as far as they go, or, when some lie backwards and
// would go the other way, by what shortens the layout.
func (b *builder) settle(g int) bool {
	c := &b.f.comb[g]
	if c.Axis != X || len(c.Phases) > 0 {
		return false
	}
	by := math.Inf(1)
	for _, i := range c.members {
		s := b.spots[i]
		if s.strip < 0 {
			continue
		}
		if b.f.items[i].poses[s.pose].hold[X].back {
			return b.shift(g)
		}
		by = min(by, b.way(i, s, c.members))
	}
	if !(by > 1e-3) || math.IsInf(by, 1) {
		return false
	}
	for _, i := range c.members {
		if b.spots[i].strip >= 0 {
			b.spots[i].x -= by
		}
	}
	b.phase = b.f.phases(b.spots)
	return true
}

// shift looks for a phase close by that makes the layout shorter, by steps that
// get smaller.
func (b *builder) shift(g int) bool {
	gained := false
	for step := b.f.comb[g].Period / 8; step > 1e-3; {
		if b.shifted(g, step) || b.shifted(g, -step) {
			gained = true
			continue
		}
		step /= 2
	}
	return gained
}

// shifted moves a lattice's phase and its items, if the layout stays sound and
// gets shorter by that.
func (b *builder) shifted(g int, by float64) bool {
	f, members := b.f, b.f.comb[g].members
	was := slices.Clone(b.spots)
	for _, i := range members {
		s := &b.spots[i]
		if s.strip < 0 {
			continue
		}
		ps := f.items[i].poses[s.pose]
		if ps.hold[X].back {
			s.x -= by
		} else {
			s.x += by
		}
		if r := ps.rooms[s.strip]; s.x < r.x0 || s.x > r.x1 {
			b.spots = was
			return false
		}
	}
	sound := f.score(b.spots).length < f.score(was).length-1e-3
	for _, i := range members {
		sound = sound && (b.spots[i].strip < 0 || f.clearAt(&b.probe, b.spots, i, b.spots[i]))
	}
	if !sound {
		b.spots = was
		return false
	}
	b.phase = f.phases(b.spots)
	return true
}

// way is how far item i can go back along its strip if those of with go too.
func (b *builder) way(i int, s spot, with []int) float64 {
	b.gather(i, s, false, with)
	way := s.x - b.f.items[i].poses[s.pose].rooms[s.strip].x0
	for _, o := range b.slide.all {
		if o.lo < s.x {
			way = min(way, s.x-o.hi)
		}
	}
	return max(0, way)
}

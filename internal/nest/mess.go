package nest

import (
	"math"
	"math/bits"
	"math/rand/v2"
	"slices"
)

// mess is a layout that may overlap, with what is needed to say how badly and
// to change one item cheaply. Bodies 0 to n-1 are the items being searched;
// the bodies after them are walls and never move.
type mess struct {
	f       *field
	n, all  int
	spots   []spot // per item
	limit   []float64
	strip   []int // per body
	x, y    []float64
	solid   []*solid
	box     []box
	quarrel []float64 // severity of each pair, all x all, symmetric
	mates   []uint64  // per body, the set of those it quarrels with
	sieve   sieve
	phase   []float64 // per lattice
}

// newMess starts from spots in which every item of ids lies somewhere. Items
// not in ids take no part.
func newMess(f *field, spots []spot) *mess {
	m := &mess{f: f, n: len(spots), spots: append([]spot(nil), spots...)}
	for k := range f.strips {
		m.limit = append(m.limit, f.lengthOf(k, spots))
	}
	for range spots {
		m.add(-1, nil)
	}
	for k, s := range f.strips {
		for _, w := range s.walls {
			m.add(k, w)
		}
	}
	m.phase = f.phases(spots)
	m.all = len(m.strip)
	m.quarrel = make([]float64, m.all*m.all)
	m.sieve = newSieve(m.all, m.whole(), f.clear+margin)
	for i, b := range m.box[m.n:] {
		m.sieve.put(m.n+i, b)
	}
	m.mates = make([]uint64, m.all*m.sieve.words)
	for i, s := range spots {
		m.put(i, s)
	}
	return m
}

// whole is the box of all strips as far as they are used.
func (m *mess) whole() box {
	all := m.f.strips[0].box
	all.x1 = all.x0
	for k, s := range m.f.strips {
		all = box{min(all.x0, s.x0), min(all.y0, s.y0), max(all.x1, m.limit[k]), max(all.y1, s.y1)}
	}
	return all
}

func (m *mess) add(strip int, s *solid) {
	m.strip = append(m.strip, strip)
	m.x, m.y = append(m.x, 0), append(m.y, 0)
	m.solid = append(m.solid, s)
	b := box{}
	if s != nil {
		b = s.box
	}
	m.box = append(m.box, b)
}

// put moves item i without looking at quarrels.
func (m *mess) put(i int, s spot) {
	m.spots[i] = s
	m.strip[i] = s.strip
	m.x[i], m.y[i] = s.x, s.y
	if s.strip >= 0 {
		m.solid[i] = m.f.solidAt(i, s)
		m.box[i] = m.solid[i].box.moved(s.x, s.y)
		m.sieve.put(i, m.box[i])
	}
}

// copyFrom makes m equal to o, which is a mess of the same field.
func (m *mess) copyFrom(o *mess) {
	copy(m.spots, o.spots)
	copy(m.limit, o.limit)
	copy(m.strip, o.strip)
	copy(m.x, o.x)
	copy(m.y, o.y)
	copy(m.solid, o.solid)
	copy(m.box, o.box)
	copy(m.quarrel, o.quarrel)
	copy(m.mates, o.mates)
	m.sieve.copyFrom(&o.sieve)
	copy(m.phase, o.phase)
}

func (m *mess) clone() *mess {
	c := newMess(m.f, m.spots)
	c.copyFrom(m)
	return c
}

// room is where pose p of item i may stand in strip k under the limit.
func (m *mess) room(i, p, k int) room {
	ps := m.f.items[i].poses[p]
	r := ps.rooms[k]
	hi := m.limit[k] - ps.solid.box.x1
	if r.x1 > hi {
		r.x0, r.x1 = forgive(r.x0, hi)
	}
	if m.f.items[i].tied {
		m.narrow(&r, i, p, k)
	}
	return r
}

// loss is the sum of all quarrels.
func (m *mess) loss() float64 {
	var sum float64
	words := m.sieve.words
	for i := range m.n {
		for w, set := range m.mates[i*words : (i+1)*words] {
			for ; set != 0; set &= set - 1 {
				if j := w<<6 + bits.TrailingZeros64(set); j > i {
					sum += m.quarrel[i*m.all+j]
				}
			}
		}
	}
	return sum
}

// quarrels tells whether item i collides with anything.
func (m *mess) quarrels(i int) bool {
	words := m.sieve.words
	for _, set := range m.mates[i*words : (i+1)*words] {
		if set != 0 {
			return true
		}
	}
	return false
}

// severity is 0 when solid b, moved by (dx, dy), keeps clear of solid a, and
// otherwise grows with how deep b's offset lies in their fence. The size factor
// makes quarrels of big shapes dearer: they are the hardest to settle late. One
// above most may come out as any value above most.
func (f *field) severity(a, b *solid, dx, dy, most float64) float64 {
	size := a.blob * b.blob
	x, y := float64(a.back[0]*dx)+float64(a.back[1]*dy), float64(a.back[2]*dx)+float64(a.back[3]*dy)
	d := f.fence(a, b).depth(x, y, float64(most*most)/size)
	if d == 0 {
		return 0
	}
	return math.Sqrt(float64(d * size))
}

// judge recomputes the quarrels of item i.
func (m *mess) judge(i int) {
	row := m.quarrel[i*m.all : (i+1)*m.all]
	words := m.sieve.words
	for w, set := range m.mates[i*words : (i+1)*words] {
		for ; set != 0; set &= set - 1 {
			m.settled(i, w<<6+bits.TrailingZeros64(set))
		}
	}
	if m.strip[i] < 0 {
		return
	}
	at := m.sieve.ask(m.box[i])
	for w := range words {
		for set := m.sieve.met(at, w); set != 0; set &= set - 1 {
			j := w<<6 + bits.TrailingZeros64(set)
			if j == i || m.strip[j] != m.strip[i] || m.box[i].apart(m.box[j], m.f.clear+margin) {
				continue
			}
			// Always asked from the lower body, so that a pair has one value.
			a, b := min(i, j), max(i, j)
			if q := m.f.severity(m.solid[a], m.solid[b], m.x[b]-m.x[a], m.y[b]-m.y[a], math.Inf(1)); q > 0 {
				row[j], m.quarrel[j*m.all+i] = q, q
				m.mates[i*words+w] |= 1 << (j & 63)
				m.mates[j*words+i>>6] |= 1 << (i & 63)
			}
		}
	}
}

// settled notes that i and j keep clear.
func (m *mess) settled(i, j int) {
	m.quarrel[i*m.all+j], m.quarrel[j*m.all+i] = 0, 0
	words := m.sieve.words
	m.mates[i*words+j>>6] &^= 1 << (j & 63)
	m.mates[j*words+i>>6] &^= 1 << (i & 63)
}

func (m *mess) judgeAll() {
	for i := range m.n {
		m.judge(i)
	}
}

// shrink takes by off the limit of strip k: what lies beyond a random cut
// moves back, so the new overlaps are in one place. It tells false, with
// nothing changed, when some item is too long for what is left.
func (m *mess) shrink(k int, by float64, rng *rand.Rand) bool {
	old := m.limit[k]
	cut := float64(rng.Float64() * old)
	m.limit[k] = old - by
	for i, s := range m.spots {
		if s.strip == k && !m.poseFits(i, k) {
			m.limit[k] = old
			return false
		}
	}
	for i, s := range m.spots {
		if s.strip != k {
			continue
		}
		if (m.box[i].x0+m.box[i].x1)/2 > cut {
			s.x -= by
		}
		m.put(i, m.clamp(i, s))
	}
	return true
}

func (m *mess) poseFits(i, k int) bool {
	for p := range m.f.items[i].poses {
		if !m.room(i, p, k).empty() {
			return true
		}
	}
	return false
}

// clamp brings a spot into its room, changing the pose if it has none.
func (m *mess) clamp(i int, s spot) spot {
	r := m.room(i, s.pose, s.strip)
	for p := 0; r.empty() && p < len(m.f.items[i].poses); p++ {
		s.pose = p
		r = m.room(i, p, s.strip)
	}
	s.x = min(max(s.x, r.x0), r.x1)
	s.y = min(max(s.y, r.y0), r.y1)
	return m.onGrid(i, s)
}

func (m *mess) mayLie(i, k int) bool {
	return slices.Contains(m.f.items[i].strips, k) && m.poseFits(i, k)
}

// centred puts item i, in strip k, with its box's middle on that of b.
func (m *mess) centred(i, k int, b box) spot {
	s := m.clamp(i, spot{strip: k, pose: m.spots[i].pose})
	own := m.f.solidAt(i, s).box
	s.x = (b.x0 + b.x1 - own.x0 - own.x1) / 2
	s.y = (b.y0 + b.y1 - own.y0 - own.y1) / 2
	return m.clamp(i, s)
}

// anywhere draws a strip, a pose and an offset for item i.
func (m *mess) anywhere(i int, rng *rand.Rand) (spot, bool) {
	it := &m.f.items[i]
	s := spot{strip: it.strips[0], pose: rng.IntN(len(it.poses))}
	if len(it.strips) > 1 {
		s.strip = it.strips[rng.IntN(len(it.strips))]
	}
	r := m.room(i, s.pose, s.strip)
	if r.empty() {
		return s, false
	}
	s.x = r.x0 + float64(rng.Float64()*(r.x1-r.x0))
	s.y = r.y0 + float64(rng.Float64()*(r.y1-r.y0))
	return m.onGrid(i, s), true
}

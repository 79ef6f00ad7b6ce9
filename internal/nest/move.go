package nest

import (
	"math"
	"math/bits"
	"math/rand/v2"
)

// How one item looks for a better place.
const (
	farSamples  = 50   // places tried anywhere, in any pose, at most
	farLeast    = 10   // and with few items as many more than this as there are items: few have few gaps between them
	keptSamples = 3    // starting points that are refined
	distinct    = 0.05 // least distance between them, of the item's small side
	coarseFrom  = 0.25 // step of the refinement, of the small side
	coarseTo    = 0.02
	fineFrom    = 0.01
	fineTo      = 0.001
)

// trial is a spot with its weighted loss.
type trial struct {
	spot
	cost float64
}

// mover moves items of its own mess. One per lane; it allocates nothing once
// made.
type mover struct {
	mess   *mess
	weight []float64 // shared by all lanes, read only during a pass
	pcg    rand.PCG
	rng    *rand.Rand
	order  []int
	kept   [keptSamples]trial
	keptN  int
	tried  int // positions weighed so far
}

func newMover(m *mess, weight []float64) *mover {
	v := &mover{mess: m, weight: weight, order: make([]int, 0, m.n)}
	v.rng = rand.New(&v.pcg)
	return v
}

// pass moves every colliding item once, in random order.
func (v *mover) pass() {
	m := v.mess
	v.order = v.order[:0]
	for i := range m.n {
		if m.quarrels(i) {
			v.order = append(v.order, i)
		}
	}
	v.rng.Shuffle(len(v.order), func(a, b int) { v.order[a], v.order[b] = v.order[b], v.order[a] })
	for _, i := range v.order {
		if m.quarrels(i) {
			v.move(i)
		}
	}
}

// move puts item i where its weighted quarrels are least, as far as samples
// and their refinement find. It never makes the item's own sum worse.
func (v *mover) move(i int) {
	m := v.mess
	it := &m.f.items[i]
	v.keptN = 0
	far := v.samples(it)
	here := trial{m.spots[i], v.cost(i, m.spots[i], math.Inf(1))}
	v.keep(here, it.small)
	for range far / 2 { // near
		v.try(i, v.nearby(i))
	}
	for n := 0; n < far && v.kept[0].cost > 0; n++ {
		if s, ok := m.anywhere(i, v.rng); ok {
			v.try(i, s)
		}
	}
	best := v.kept[0]
	for n := range v.keptN {
		if best.cost == 0 {
			break
		}
		if t := v.refine(i, v.kept[n], coarseFrom*it.small, coarseTo*it.small); t.cost < best.cost {
			best = t
		}
	}
	if best.cost > 0 {
		best = v.refine(i, best, fineFrom*it.small, fineTo*it.small)
	}
	if best.spot != here.spot {
		m.put(i, best.spot)
		m.judge(i)
	}
}

// samples is how many places are tried for an item. One held to a repeat has
// them all, since it is refined by whole periods only.
func (v *mover) samples(it *item) int {
	if it.tied {
		return farSamples
	}
	return min(farSamples, farLeast+v.mess.n)
}

// cost is the weighted loss item i would have at s; it stops counting at the
// bound.
func (v *mover) cost(i int, s spot, bound float64) float64 {
	m := v.mess
	own := m.f.solidAt(i, s)
	b := own.box.moved(s.x, s.y)
	c := m.f.clear + margin
	weights := v.weight[i*m.all : (i+1)*m.all]
	var sum float64
	v.tried++
	at := m.sieve.ask(b)
	for w := range m.sieve.words {
		for set := m.sieve.met(at, w); set != 0; set &= set - 1 {
			j := w<<6 + bits.TrailingZeros64(set)
			o := &m.box[j]
			if b.x0 >= o.x1+c || o.x0 >= b.x1+c || b.y0 >= o.y1+c || o.y0 >= b.y1+c ||
				j == i || m.strip[j] != s.strip {
				continue
			}
			most := (bound - sum) / weights[j]
			var q float64
			if i < j {
				q = m.f.severity(own, m.solid[j], m.x[j]-s.x, m.y[j]-s.y, most)
			} else {
				q = m.f.severity(m.solid[j], own, s.x-m.x[j], s.y-m.y[j], most)
			}
			sum += float64(weights[j] * q)
			if sum >= bound {
				return sum
			}
		}
	}
	return sum
}

// try keeps s if it is among the best.
func (v *mover) try(i int, s spot) {
	bound := math.Inf(1)
	if v.keptN == keptSamples {
		bound = v.kept[keptSamples-1].cost
	}
	if c := v.cost(i, s, bound); c < bound {
		v.keep(trial{s, c}, v.mess.f.items[i].small)
	}
}

// keep inserts a trial in order of cost; of two that lie close together in one
// pose only the better stays.
func (v *mover) keep(t trial, small float64) {
	for n := range v.keptN {
		k := &v.kept[n]
		if k.strip == t.strip && k.pose == t.pose && math.Abs(k.x-t.x)+math.Abs(k.y-t.y) < distinct*small {
			if k.cost <= t.cost {
				return
			}
			copy(v.kept[n:v.keptN-1], v.kept[n+1:v.keptN])
			v.keptN--
			break
		}
	}
	at := v.keptN
	for at > 0 && v.kept[at-1].cost > t.cost {
		at--
	}
	if at == keptSamples {
		return
	}
	v.keptN = min(v.keptN+1, keptSamples)
	copy(v.kept[at+1:v.keptN], v.kept[at:v.keptN-1])
	v.kept[at] = t
}

// nearby draws an offset near the present one, now and then in another pose.
func (v *mover) nearby(i int) spot {
	m := v.mess
	s := m.spots[i]
	it := &m.f.items[i]
	if len(it.poses) > 1 && v.rng.IntN(2) == 0 {
		// Turn about the middle of the box.
		p := v.rng.IntN(len(it.poses))
		if !m.room(i, p, s.strip).empty() {
			a, b := m.solid[i].box, it.poses[p].solid.box
			s.x += (a.x0 + a.x1 - b.x0 - b.x1) / 2
			s.y += (a.y0 + a.y1 - b.y0 - b.y1) / 2
			s.pose = p
		}
	}
	by := m.stride(i, s, Pt{float64((v.rng.Float64() - 0.5) * it.small), float64((v.rng.Float64() - 0.5) * it.small)})
	s.x += by.X
	s.y += by.Y
	return m.clamp(i, s)
}

// axes are the directions a refinement steps in.
var axes = [4]Pt{{1, 0}, {0, 1}, {math.Sqrt2 / 2, math.Sqrt2 / 2}, {math.Sqrt2 / 2, -math.Sqrt2 / 2}}

// refine goes downhill one axis at a time: both ways are tried, a success
// lengthens the step a little, a failure halves it and draws another axis.
func (v *mover) refine(i int, t trial, step, last float64) trial {
	r := v.mess.room(i, t.pose, t.strip)
	axis := axes[v.rng.IntN(len(axes))]
	for step >= last && t.cost > 0 {
		best := t
		for _, d := range [2]float64{step, -step} {
			s := t.spot
			by := v.mess.stride(i, s, Pt{float64(d * axis.X), float64(d * axis.Y)})
			s.x = min(max(s.x+by.X, r.x0), r.x1)
			s.y = min(max(s.y+by.Y, r.y0), r.y1)
			if s == t.spot {
				continue
			}
			if c := v.cost(i, s, best.cost); c < best.cost {
				best = trial{s, c}
			}
		}
		if best.cost < t.cost {
			t = best
			step *= 1.1
			continue
		}
		step *= 0.5
		axis = axes[v.rng.IntN(len(axes))]
	}
	return t
}

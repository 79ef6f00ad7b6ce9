package nest

import (
	"cmp"
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"sync"
)

// First layouts. Items are put down one after another, each at the place
// where it reaches least far along the strip, touching what already lies
// there; how good that is depends on the order, so several are tried.

const (
	orders   = 8    // orders tried where the first layout is all that is wanted
	ordersOn = 4    // and where a search goes on from it
	heights  = 14   // even steps across the strip for each pose
	stacks   = 24   // heights tried beside those, level with the edges of placed items
	margin   = 1e-6 // kept beyond the clearance by slides, mm, for rounding
	lowering = 1e-3 // how much reaching far along counts less than lying high across
)

// firstLayout tries some orders over the lanes; the winner does not depend on
// which lane tried it.
func (f *field) firstLayout(ctx context.Context, base []spot, seed uint64, lanes, orders int) []spot {
	tries := make([][]spot, orders)
	var wait sync.WaitGroup
	for lane := range lanes {
		f.lane(&wait, func() {
			b := builder{f: f}
			for o := lane; o < orders; o += lanes {
				if o > 0 && ctx.Err() != nil {
					return
				}
				tries[o] = b.build(ctx, base, f.order(o, seed), f.startPhases(base, o))
			}
		})
	}
	wait.Wait()
	best, bestScore := tries[0], f.score(tries[0])
	for _, t := range tries[1:] {
		if t == nil {
			continue
		}
		if s := f.score(t); s.better(bestScore) {
			best, bestScore = t, s
		}
	}
	return best
}

// order is the o-th order to try: largest first by several measures, then by
// area with chance mixed in. Items with less freedom go before others in
// every second order.
func (f *field) order(o int, seed uint64) []int {
	rng := rand.New(rand.NewPCG(seed, uint64(o)))
	key := make([]float64, len(f.items))
	out := make([]int, len(f.items))
	for i := range f.items {
		it := &f.items[i]
		b := it.poses[0].solid.box
		w, h := b.x1-b.x0, b.y1-b.y0
		switch o {
		case 0, 1:
			key[i] = it.area
		case 2:
			key[i] = w
		case 3:
			key[i] = h
		case 4:
			key[i] = max(w, h)
		default:
			key[i] = it.area * math.Exp(0.4*rng.NormFloat64())
		}
		if o%2 == 0 && it.pinned() {
			key[i] += 1e12
		}
		out[i] = i
	}
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(key[b], key[a]) })
	return out
}

// pinned tells whether a pin fixes the item on some axis.
func (it *item) pinned() bool {
	for _, r := range it.poses[0].rooms {
		if r.fixedX || r.y0 == r.y1 {
			return true
		}
	}
	return false
}

// builder puts items down one by one.
type builder struct {
	f     *field
	spots []spot
	slide slide
	probe probe
	ys    []float64
	phase []float64 // per lattice; NaN until the first part on it lies

	upright bool // no item is put down leaning
}

func (b *builder) build(ctx context.Context, base []spot, order []int, phase []float64) []spot {
	b.spots, b.phase = slices.Clone(base), phase
	for _, i := range order {
		if b.spots[i].strip >= 0 {
			continue
		}
		if ctx.Err() != nil {
			break
		}
		b.spots[i] = b.lowest(i)
		b.f.choose(b.phase, i, b.spots[i])
	}
	for g := range b.f.comb {
		b.settle(g)
	}
	return b.spots
}

// lowest finds the place for item i in the first strip that takes it.
func (b *builder) lowest(i int) spot {
	it := &b.f.items[i]
	for _, k := range it.strips {
		best, bestScore := nowhere, math.Inf(1)
		for p, ps := range b.poses(i) {
			for _, y := range b.heights(i, p, k) {
				s := spot{k, p, 0, y}
				if !b.push(i, &s) || !b.f.onComb(i, s, b.phase) {
					continue
				}
				if v := reachOf(ps, s); v < bestScore {
					best, bestScore = s, v
				}
			}
		}
		if best.strip >= 0 {
			b.nestle(i, &best)
			return best
		}
	}
	return nowhere
}

// poses of item i that it may be put down in.
func (b *builder) poses(i int) []*pose {
	all := b.f.items[i].poses
	if b.upright {
		return all[:len(b.f.problem.Parts[i].Poses)]
	}
	return all
}

// reachOf is what a place costs: how far along it reaches, and a little for
// lying high.
func reachOf(ps *pose, s spot) float64 {
	return s.x + ps.solid.box.x1 + float64(lowering*(s.y+ps.solid.box.y0))
}

// heights lists offsets across at which a pose is tried: even steps, and level
// with the boxes of placed items above and below.
func (b *builder) heights(i, p, k int) []float64 {
	ps := b.f.items[i].poses[p]
	r := ps.rooms[k]
	b.ys = b.ys[:0]
	if r.empty() {
		return nil
	}
	b.ys = append(b.ys, r.y0)
	if r.y1 == r.y0 || r.fixedX {
		return b.ys
	}
	for n := 1; n < heights; n++ {
		b.ys = append(b.ys, r.y0+float64((r.y1-r.y0)*float64(n)/(heights-1)))
	}
	c := b.f.clear + margin
	for j := len(b.spots) - 1; j >= 0 && len(b.ys) < heights+stacks; j-- {
		o := b.spots[j]
		if o.strip != k {
			continue
		}
		bx := b.f.boxAt(j, o)
		for _, y := range [2]float64{bx.y1 + c - ps.solid.box.y0, bx.y0 - c - ps.solid.box.y1} {
			if y > r.y0 && y < r.y1 && !slices.Contains(b.ys, y) {
				b.ys = append(b.ys, y)
			}
		}
	}
	if g := b.f.grid(i, p, k, Y, b.phase); g.step > 0 {
		b.ys = g.snapAll(b.ys, r.y0, r.y1)
	}
	return b.ys
}

// push moves item i to the least free offset along X at its height; an item
// pinned on X moves across instead.
func (b *builder) push(i int, s *spot) bool {
	r := b.f.items[i].poses[s.pose].rooms[s.strip]
	if r.fixedX {
		s.x = r.x0
		y, ok := b.free(i, *s, true)
		s.y = y
		return ok
	}
	x, ok := b.free(i, *s, false)
	s.x = x
	return ok
}

// nestle slides item i down and back in turn until it rests.
func (b *builder) nestle(i int, s *spot) {
	for range 8 {
		was := *s
		if y, ok := b.free(i, *s, true); ok && y < s.y {
			s.y = y
		}
		if x, ok := b.free(i, *s, false); ok && x < s.x {
			s.x = x
		}
		if was.x-s.x < 1e-3 && was.y-s.y < 1e-3 {
			return
		}
	}
}

// free is the least free offset of item i along X, or along Y when across, the
// other offset being as in s.
func (b *builder) free(i int, s spot, across bool) (float64, bool) {
	f := b.f
	r := f.items[i].poses[s.pose].rooms[s.strip]
	b.gather(i, s, across, nil)
	if across {
		return b.slide.first(r.y0, r.y1, f.grid(i, s.pose, s.strip, Y, b.phase))
	}
	return b.slide.first(r.x0, r.x1, f.grid(i, s.pose, s.strip, X, b.phase))
}

// gather finds what keeps item i from sliding: walls and items, but none of
// those that go with it.
func (b *builder) gather(i int, s spot, across bool, with []int) {
	f := b.f
	c := f.clear + margin
	own := f.solidAt(i, s)
	b.slide.clear()
	for _, w := range f.strips[s.strip].walls {
		b.blocked(w, 0, 0, own, s, c, across)
	}
	for j, o := range b.spots {
		if o.strip == s.strip && j != i && !slices.Contains(with, j) {
			b.blocked(f.solidAt(j, o), o.x, o.y, own, s, c, across)
		}
	}
}

// blocked adds what a fixed solid at (ox, oy) blocks, if its box is met at all.
func (b *builder) blocked(o *solid, ox, oy float64, m *solid, s spot, c float64, across bool) {
	if across {
		if o.box.x0+ox < m.box.x1+s.x+c && m.box.x0+s.x < o.box.x1+ox+c {
			b.slide.block(o, m, s.x-ox, c, oy, true)
		}
		return
	}
	if o.box.y0+oy < m.box.y1+s.y+c && m.box.y0+s.y < o.box.y1+oy+c {
		b.slide.block(o, m, s.y-oy, c, ox, false)
	}
}

// slip slides item i back along its strip from where it lies.
func (b *builder) slip(i int) {
	s := &b.spots[i]
	if b.f.items[i].poses[s.pose].rooms[s.strip].fixedX {
		return
	}
	if x, ok := b.free(i, *s, false); ok && x < s.x {
		s.x = x
	}
}

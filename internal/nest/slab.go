package nest

import (
	"cmp"
	"math"
	"slices"
)

// slab is a polygon's edges seen along one axis: u is the coordinate that
// slides, v the one that stays. Edges run upward in v and are sorted by their
// lower end.
type slab struct{ edges []rung }

type rung struct{ u0, v0, u1, v1 float64 }

func newSlab(ring []Pt, swap bool) slab {
	out := make([]rung, len(ring))
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		r := rung{p.X, p.Y, q.X, q.Y}
		if swap {
			r = rung{p.Y, p.X, q.Y, q.X}
		}
		if r.v0 > r.v1 {
			r = rung{r.u1, r.v1, r.u0, r.v0}
		}
		out[i] = r
	}
	slices.SortFunc(out, func(a, b rung) int {
		return cmp.Or(cmp.Compare(a.v0, b.v0), cmp.Compare(a.u0, b.u0), cmp.Compare(a.v1, b.v1), cmp.Compare(a.u1, b.u1))
	})
	return slab{out}
}

// span is an open stretch of a coordinate.
type span struct{ lo, hi float64 }

// slide finds where a solid may stand when it slides along one axis. It keeps
// the scratch space, so that the questions allocate nothing once warm.
type slide struct {
	pair       []span // blocked by the solid in hand
	all        []span // blocked by any
	fixed, own []int  // edges open at the sweep's height
}

func (k *slide) clear() { k.all = k.all[:0] }

// block adds the offsets u of the moving solid m at which, standing dv across
// from the fixed solid f, it would come closer than c to it. Distance here is
// the larger of the two axis distances, so a free offset keeps at least c in
// every direction. swap false slides along X, true along Y. The spans are
// relative to f; base is added to them.
//
// Only boundaries are compared pair by pair; the stretches between two
// blocked ones, where m might lie wholly inside f or the other way round,
// are settled by one point.
func (k *slide) block(f, m *solid, dv, c, base float64, swap bool) {
	fs, ms := &f.along, &m.along
	if swap {
		fs, ms = &f.cross, &m.cross
	}
	k.pair = k.pair[:0]
	k.sweep(fs.edges, ms.edges, dv, c)
	if len(k.pair) == 0 {
		return
	}
	k.pair = union(k.pair)
	last := span{math.Inf(-1), math.Inf(-1)}
	for _, s := range k.pair {
		if !math.IsInf(last.hi, -1) && nested(f, m, (last.hi+s.lo)/2, dv, swap) {
			last.hi = s.hi
			k.all[len(k.all)-1].hi = s.hi + base
			continue
		}
		last = s
		k.all = append(k.all, span{s.lo + base, s.hi + base})
	}
}

func nested(f, m *solid, u, dv float64, swap bool) bool {
	x, y := u, dv
	if swap {
		x, y = dv, u
	}
	moved := m.box.moved(x, y)
	if f.box.holds(moved) {
		return f.contains(m.edges[0].ax+x, m.edges[0].ay+y)
	}
	return moved.holds(f.box) && m.contains(f.edges[0].ax-x, f.edges[0].ay-y)
}

// sweep goes up in v with the edges of both and compares those that are open
// at the same height.
func (k *slide) sweep(f, m []rung, dv, c float64) {
	k.fixed, k.own = k.fixed[:0], k.own[:0]
	i, j := 0, 0
	for i < len(f) || j < len(m) {
		if j == len(m) && len(k.own) == 0 || i == len(f) && len(k.fixed) == 0 {
			return
		}
		if j == len(m) || i < len(f) && f[i].v0 <= m[j].v0+dv {
			kept := k.own[:0]
			for _, o := range k.own {
				if m[o].v1+dv > f[i].v0-c {
					kept = append(kept, o)
					k.compare(&f[i], &m[o], dv, c)
				}
			}
			k.own = kept
			k.fixed = append(k.fixed, i)
			i++
			continue
		}
		kept := k.fixed[:0]
		for _, o := range k.fixed {
			if f[o].v1 > m[j].v0+dv-c {
				kept = append(kept, o)
				k.compare(&f[o], &m[j], dv, c)
			}
		}
		k.fixed = kept
		k.own = append(k.own, j)
		j++
	}
}

// compare adds the offsets at which edge b comes closer than c to edge a.
// Over all pairs of a point of a and a point of b whose heights differ by at
// most c, the difference of the sliding coordinates is linear, so its extremes
// lie at an end of one edge and the cut-off ends of the other.
func (k *slide) compare(a, b *rung, dv, c float64) {
	lo, hi := math.Inf(1), math.Inf(-1)
	for end := range 4 {
		e, o, sign, shift := a, b, 1.0, -dv
		if end&1 != 0 {
			e, o, sign, shift = b, a, -1.0, dv
		}
		u, v := e.u0, e.v0+shift
		if end&2 != 0 {
			u, v = e.u1, e.v1+shift
		}
		v0, v1 := max(o.v0, v-c), min(o.v1, v+c)
		if v0 > v1 {
			continue
		}
		for _, d := range [2]float64{sign * (u - o.at(v0, true)), sign * (u - o.at(v1, false))} {
			lo, hi = min(lo, d), max(hi, d)
		}
	}
	if lo <= hi {
		k.pair = append(k.pair, span{lo - c, hi + c})
	}
}

// at is the sliding coordinate at height v; on a level edge the lower or the
// upper end.
func (r *rung) at(v float64, lower bool) float64 {
	if v <= r.v0 && (lower || r.v1 > r.v0) {
		return r.u0
	}
	if v >= r.v1 {
		return r.u1
	}
	return r.u0 + float64((v-r.v0)/(r.v1-r.v0)*(r.u1-r.u0))
}

// union sorts spans and joins those that overlap, in place.
func union(s []span) []span {
	slices.SortFunc(s, func(a, b span) int { // no lo is NaN, so cmp.Compare would only cost time
		switch {
		case a.lo < b.lo:
			return -1
		case a.lo > b.lo:
			return 1
		}
		return 0
	})
	out := s[:1]
	for _, t := range s[1:] {
		if last := &out[len(out)-1]; t.lo < last.hi {
			last.hi = max(last.hi, t.hi)
		} else {
			out = append(out, t)
		}
	}
	return out
}

// first is the lowest free offset in [lo, hi] that lies on the grid.
func (k *slide) first(lo, hi float64, g grid) (u float64, found bool) {
	if len(k.all) > 0 {
		k.all = union(k.all)
	}
	u = g.up(lo)
	for _, s := range k.all {
		if s.lo < u && u < s.hi {
			u = g.up(s.hi)
		}
	}
	return u, u <= hi
}

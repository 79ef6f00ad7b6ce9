package nest

import (
	"math"
	"slices"
)

// spot is where an item lies: the offset of one of its poses in a strip.
// strip -1 means nowhere.
type spot struct {
	strip, pose int
	x, y        float64
}

var nowhere = spot{strip: -1}

func (f *field) solidAt(i int, s spot) *solid { return f.items[i].poses[s.pose].solid }

func (f *field) boxAt(i int, s spot) box { return f.solidAt(i, s).box.moved(s.x, s.y) }

// score orders layouts: first less area left over, then less length.
type score struct{ left, length float64 }

func (a score) better(b score) bool {
	if a.left != b.left {
		return a.left < b.left
	}
	return a.length < b.length
}

func (f *field) score(spots []spot) score {
	var s score
	for i, sp := range spots {
		if sp.strip < 0 {
			s.left += f.items[i].area
		}
	}
	for k := range f.strips {
		s.length += f.lengthOf(k, spots)
	}
	return s
}

// lengthOf is the highest X reached in strip k.
func (f *field) lengthOf(k int, spots []spot) float64 {
	var length float64
	for i, s := range spots {
		if s.strip == k {
			length = max(length, f.boxAt(i, s).x1)
		}
	}
	return length
}

// layout writes spots in the words of the interface.
func (f *field) layout(spots []spot) Layout {
	var l Layout
	for i, s := range spots {
		if s.strip < 0 {
			l.Unplaced = append(l.Unplaced, i)
			continue
		}
		o := f.items[i].poses[s.pose].Orientation
		l.Placements = append(l.Placements, Placement{
			Part: i, Container: s.strip, Degrees: o.Degrees, Flip: o.Flip, At: Pt{s.x, s.y}})
	}
	for k := range f.strips {
		n := f.lengthOf(k, spots)
		l.Lengths = append(l.Lengths, n)
		l.Length += n
	}
	l.Phases = f.told(f.phasesOf(spots))
	return l
}

// density is the area placed over the area of the strips as far as used.
func (f *field) density(spots []spot) float64 {
	var filled, cloth float64
	for i, s := range spots {
		if s.strip >= 0 {
			filled += f.items[i].area
		}
	}
	for k, s := range f.strips {
		cloth += float64(f.lengthOf(k, spots) * (s.y1 - s.y0))
	}
	if cloth == 0 {
		return 0
	}
	return filled / cloth
}

// bound is a length that no layout of all parts can beat: in each group of
// strips that share parts, what the parts' area needs and what the longest
// part needs.
func (f *field) bound() float64 {
	group := f.groups()
	var sum float64
	for k := range f.strips {
		if group[k] != k {
			continue
		}
		var wide, area, longest, behind float64
		for j, s := range f.strips {
			if group[j] == k {
				wide = max(wide, s.y1-s.y0)
				behind += min(0, s.x0)
			}
		}
		for i := range f.items {
			if it := &f.items[i]; group[it.strips[0]] == k {
				area += it.area
				longest = max(longest, f.reach(i))
			}
		}
		sum += max(area/wide+behind, longest)
	}
	return sum
}

// groups joins strips that some item may choose between; each gets its
// group's lowest strip.
func (f *field) groups() []int {
	group := make([]int, len(f.strips))
	for k := range group {
		group[k] = k
	}
	for i := range f.items {
		ks := f.items[i].strips
		for _, k := range ks[1:] {
			a, b := group[ks[0]], group[k]
			for j := range group {
				if group[j] == max(a, b) {
					group[j] = min(a, b)
				}
			}
		}
	}
	return group
}

// reach is the least X that the far side of item i can have anywhere it may lie.
func (f *field) reach(i int) float64 {
	it := &f.items[i]
	least := math.Inf(1)
	if f.tilts(i) && it.fits() {
		for _, k := range it.strips {
			least = min(least, f.strips[k].x0+f.shortest(i))
		}
		return least
	}
	for _, ps := range it.poses {
		for _, k := range it.strips {
			if r := ps.rooms[k]; !r.empty() {
				least = min(least, r.x0+ps.solid.box.x1)
			}
		}
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return least
}

// fits tells whether some pose has room in some strip.
func (it *item) fits() bool {
	for _, ps := range it.poses {
		for _, k := range it.strips {
			if !ps.rooms[k].empty() {
				return true
			}
		}
	}
	return false
}

// adopt reads a layout of the same problem, keeping each placement that
// follows the rules and stands clear of those kept before it.
func (f *field) adopt(l *Layout) []spot {
	spots := slices.Repeat([]spot{nowhere}, len(f.items))
	phase := f.phasesOf(spots)
	var k probe
	for _, pl := range l.Placements {
		if pl.Part < 0 || pl.Part >= len(f.items) || spots[pl.Part].strip >= 0 {
			continue
		}
		if s, ok := f.spotOf(pl, phase); ok && f.clearAt(&k, spots, pl.Part, s) {
			f.choose(phase, pl.Part, s)
			spots[pl.Part] = s
		}
	}
	return spots
}

func (f *field) spotOf(pl Placement, phase []float64) (spot, bool) {
	it := &f.items[pl.Part]
	if !slices.Contains(it.strips, pl.Container) || bad(pl.At.X) || bad(pl.At.Y) {
		return nowhere, false
	}
	for k, ps := range it.poses {
		if ps.Orientation != (Orientation{pl.Degrees, pl.Flip}) {
			continue
		}
		r := ps.rooms[pl.Container]
		x, okx := settle(pl.At.X, r.x0, r.x1)
		y, oky := settle(pl.At.Y, r.y0, r.y1)
		s, okt := f.tieUp(pl.Part, spot{pl.Container, k, x, y}, phase)
		return s, okx && oky && okt && !r.empty()
	}
	return nowhere, false
}

// settle forgives an offset that leaves its range by rounding only.
func settle(v, lo, hi float64) (float64, bool) {
	if v < lo-slack || v > hi+slack {
		return v, false
	}
	return min(max(v, lo), hi), true
}

// clearAt tells whether item i at s keeps clear of walls and placed items.
func (f *field) clearAt(k *probe, spots []spot, i int, s spot) bool {
	own := f.solidAt(i, s)
	for _, w := range f.strips[s.strip].walls {
		if k.near(w, own, s.x, s.y, f.clear) {
			return false
		}
	}
	for j, o := range spots {
		if j == i || o.strip != s.strip {
			continue
		}
		if k.near(f.solidAt(j, o), own, s.x-o.x, s.y-o.y, f.clear) {
			return false
		}
	}
	return true
}

// sound tells whether everything that lies keeps clear.
func (f *field) sound(k *probe, spots []spot) bool {
	for i, s := range spots {
		if s.strip >= 0 && !f.clearAt(k, spots, i, s) {
			return false
		}
	}
	return true
}
